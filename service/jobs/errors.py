"""Why long work ends badly, or a webhook is refused.

::

    JobsError
    ├── UnknownKindError             no work of this kind is known
    ├── UnknownJobError
    ├── JobNotDoneError              results were asked for before they were there
    ├── HopelessError                the work can never succeed, so it is not tried again
    ├── ForbiddenAddressError        a webhook may not be sent there
    ├── UnknownWebhookError
    └── BadSignatureError
"""

from __future__ import annotations


class JobsError(Exception):
    """The work cannot be done or looked up as asked."""


class UnknownKindError(JobsError):
    """No work of this kind is known."""

    def __init__(self, kind: str, known: tuple[str, ...]) -> None:
        super().__init__(f"There are no jobs of the kind {kind!r}, only of {', '.join(known)}.")
        self.kind = kind
        self.known = known


class UnknownJobError(JobsError):
    """The caller has no such job."""

    def __init__(self, job_id: str) -> None:
        super().__init__(f"There is no job {job_id!r}.")
        self.job_id = job_id


class JobNotDoneError(JobsError):
    """Results were asked for before they were there, or of a job that has none."""

    def __init__(self, job_id: str, state: str) -> None:
        super().__init__(f"Job {job_id!r} is {state}; results can be read when it is done.")
        self.job_id = job_id
        self.state = state


class HopelessError(JobsError):
    """The work can never succeed, so it is not tried again.

    ``code`` is a stable word for the reason, ``pointer`` a JSON pointer to what is to blame.
    """

    def __init__(self, code: str, detail: str, pointer: str = "") -> None:
        super().__init__(detail)
        self.code = code
        self.detail = detail
        self.pointer = pointer


class ForbiddenAddressError(JobsError):
    """A webhook may not be sent there: the address is not public, or not safe to speak to."""

    def __init__(self, url: str, reason: str) -> None:
        super().__init__(f"No webhook is sent to {url}: {reason}.")
        self.url = url
        self.reason = reason


class UnknownWebhookError(JobsError):
    """The caller has no such webhook."""

    def __init__(self, webhook_id: str) -> None:
        super().__init__(f"There is no webhook {webhook_id!r}.")
        self.webhook_id = webhook_id


class BadSignatureError(JobsError):
    """A message was not signed with this secret, or not lately."""

    def __init__(self, reason: str) -> None:
        super().__init__(f"The signature does not hold: {reason}.")
        self.reason = reason
