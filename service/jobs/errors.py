"""Why long work ends badly, or a webhook is refused.

::

    JobsError
    ├── UnknownKindError             no work of this kind is known
    ├── HopelessError                the work can never succeed, so it is not tried again
    ├── UnreadableAssemblyError      what was stored cannot be judged by this release
    └── ForbiddenAddressError        a webhook may not be sent there
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


class HopelessError(JobsError):
    """The work can never succeed, so it is not tried again.

    ``code`` is a stable word for the reason, ``pointer`` a JSON pointer to what is to blame.
    """

    def __init__(self, code: str, detail: str, pointer: str = "") -> None:
        super().__init__(detail)
        self.code = code
        self.detail = detail
        self.pointer = pointer


class UnreadableAssemblyError(JobsError):
    """What was stored cannot be judged by this release; the text says why."""


class ForbiddenAddressError(JobsError):
    """A webhook may not be sent there: the address is not public, or not safe to speak to."""

    def __init__(self, url: str, reason: str) -> None:
        super().__init__(f"No webhook is sent to {url}: {reason}.")
        self.url = url
        self.reason = reason
