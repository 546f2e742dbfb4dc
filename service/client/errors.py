"""What can go wrong with a call.

FayingError
├── UnreachableError          no reply
│   └── OutOfTimeError        none in time
├── UnexpectedReplyError      a reply that is not as the document says
│   └── BrokenStreamError     a stream that ended early or was damaged
├── ProblemError              the service says why it refuses
│   ├── InvalidRequestError   the request cannot be used
│   ├── AccessError           the key is missing, unknown or not allowed to do this
│   ├── NotFoundError         nothing is there, or nothing any more
│   ├── ConflictError         something else is there already, or is not ready yet
│   ├── TooManyRequestsError  the allowance is used up
│   └── ServiceError          the service itself is in trouble
├── ItemError                 one couple of a batch could not be judged
├── JobError                  a job has failed or was cancelled
├── EnvelopeError             a file is no envelope, or was changed
└── ForgedMessageError        a webhook's message is not from the service
"""

from __future__ import annotations

from service.client.document.results import ItemFault, ItemProblem, JobDocument, Problem, ProblemFault


class FayingError(Exception):
    """Something went wrong with a call of the service."""


class UnreachableError(FayingError):
    """The service gave no reply."""

    def __init__(self, reason: str) -> None:
        super().__init__(f"no reply: {reason}")
        self.reason = reason


class OutOfTimeError(UnreachableError):
    """The service gave no reply in time."""


class UnexpectedReplyError(FayingError):
    """The reply is not as the document says."""


class BrokenStreamError(UnexpectedReplyError):
    """A stream of answers ended early or was damaged; what came of it is not the whole."""

    def __init__(self, reason: str, received: int) -> None:
        super().__init__(f"the stream is not whole after {received} lines: {reason}")
        self.reason = reason
        self.received = received


class ProblemError(FayingError):
    """The service refuses and says why, in a problem document (RFC 9457)."""

    def __init__(self, problem: Problem, retry_after_s: float | None = None) -> None:
        super().__init__(sentence(problem.status, problem.title, problem.detail, problem.errors))
        self.problem = problem
        self.retry_after_s = retry_after_s

    @property
    def status(self) -> int:
        """Status code."""
        return self.problem.status

    @property
    def code(self) -> str:
        """Last part of the problem's type: ``invalid-request``."""
        return self.problem.type.rpartition("/")[2]

    @property
    def faults(self) -> tuple[ProblemFault, ...]:
        """The parts of the request that are to blame, each with ``pointer`` and ``suggestions``."""
        return self.problem.errors

    @property
    def pointer(self) -> str | None:
        """JSON pointer to the first part that is to blame."""
        return self.faults[0].pointer if self.faults else None

    @property
    def suggestions(self) -> tuple[str, ...]:
        """Values that the first part could have instead."""
        return self.faults[0].suggestions if self.faults else ()


class InvalidRequestError(ProblemError):
    """The request holds something that cannot be used."""


class AccessError(ProblemError):
    """The key is missing, unknown or not allowed to do this."""


class NotFoundError(ProblemError):
    """Nothing is there, or nothing any more."""


class ConflictError(ProblemError):
    """Something else is there already, or it is not ready yet."""


class TooManyRequestsError(ProblemError):
    """The allowance of the key is used up; ``retry_after_s`` says for how long."""


class ServiceError(ProblemError):
    """The service itself, or something in front of it, is in trouble."""


class ItemError(FayingError):
    """One couple of a batch could not be judged."""

    def __init__(self, problem: ItemProblem, index: int, ref: str | int | None) -> None:
        name = f"couple {index}" if ref is None else f"couple {index} ({ref})"
        super().__init__(f"{name}: {sentence(problem.status, problem.title, problem.detail, problem.errors)}")
        self.problem = problem
        self.index = index
        self.ref = ref


class JobError(FayingError):
    """A job has failed or was cancelled."""

    def __init__(self, job: JobDocument) -> None:
        reason = f": {job.error.detail}" if job.error else ""
        super().__init__(f"job {job.id} is {job.state}{reason}")
        self.job = job


class EnvelopeError(FayingError):
    """A document is no acceptance envelope of a known format, or it was changed."""


class ForgedMessageError(FayingError):
    """A message does not carry the signature of its webhook, or is too old."""


_BY_STATUS: dict[int, type[ProblemError]] = {
    401: AccessError, 403: AccessError, 404: NotFoundError, 409: ConflictError, 410: NotFoundError,
    412: ConflictError, 429: TooManyRequestsError,
}  # fmt: skip
_FIRST_OF_SERVER = 500


def problem_class(status: int) -> type[ProblemError]:
    """Return the class of the problems with a status."""
    if status >= _FIRST_OF_SERVER:
        return ServiceError
    return _BY_STATUS.get(status, InvalidRequestError)


def sentence(
    status: int, title: str, detail: str, faults: tuple[ProblemFault, ...] | tuple[ItemFault, ...]
) -> str:
    """Say in one line what is wrong, where, and what may have been meant."""
    parts = [f"{status} {title}"]
    if not any(fault.detail in detail for fault in faults):
        parts.append(detail)
    for fault in faults:
        meant = f" (did you mean {', '.join(fault.suggestions)}?)" if fault.suggestions else ""
        parts.append(f"{fault.pointer}: {fault.detail}{meant}")
    return "; ".join(parts)
