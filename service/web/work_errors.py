"""What can go wrong with long work, stored assemblies and webhooks."""

from __future__ import annotations

from collections.abc import Sequence

from service.web.errors import Fault, WebError


class UnknownJobError(WebError):
    """The caller has no such job."""

    def __init__(self, job_id: str) -> None:
        super().__init__(f"There is no job {job_id!r}.")


class JobNotDoneError(WebError):
    """Results were asked for before they can be read, or of a job that has none."""

    def __init__(self, job_id: str, state: str) -> None:
        super().__init__(f"Job {job_id!r} is {state}; results can be read when it is done.")
        self.state = state

    @property
    def headers(self) -> dict[str, str]:
        """When to ask again, if there is hope."""
        return {"Retry-After": "1"} if self.state in {"queued", "running"} else {}


class UnknownStoredAssemblyError(WebError):
    """The caller has stored no assembly under this name."""

    def __init__(self, name: str) -> None:
        super().__init__(f"No assembly is stored as {name!r}.")


class NotJudgedYetError(WebError):
    """A stored assembly has no report yet."""

    def __init__(self, name: str) -> None:
        super().__init__(f"The assembly {name!r} is not judged yet.")

    @property
    def headers(self) -> dict[str, str]:
        """When to ask again."""
        return {"Retry-After": "1"}


class VersionMismatchError(WebError):
    """Somebody else has changed the thing since the caller looked."""

    def __init__(self, found: int | str) -> None:
        super().__init__(f"The thing is in version {found} by now.")

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The header that names another version."""
        return (Fault("header", "/If-Match", "mismatch", str(self)),)


class UnknownPolicyError(WebError):
    """The caller has stored no policy under this name, or not in this version."""

    def __init__(self, name: str) -> None:
        super().__init__(f"No policy is stored as {name!r}.")


class PolicyInUseError(WebError):
    """Stored assemblies name the policy that is to go."""

    def __init__(self, name: str, assemblies: Sequence[str]) -> None:
        shown = ", ".join(assemblies[:5]) + (", ..." if len(assemblies) > 5 else "")  # noqa: PLR2004 - a few
        super().__init__(f"{len(assemblies)} stored assemblies name the policy {name!r}: {shown}.")


class UnknownWebhookError(WebError):
    """The caller has no such webhook."""

    def __init__(self, webhook_id: str) -> None:
        super().__init__(f"There is no webhook {webhook_id!r}.")


class ForbiddenWebhookError(WebError):
    """A webhook may not be sent there, or there are too many already."""

    def __init__(self, pointer: str, detail: str) -> None:
        super().__init__(detail)
        self._pointer = pointer

    @property
    def faults(self) -> tuple[Fault, ...]:
        """The field that names the address."""
        return (Fault("body", self._pointer, "forbidden", str(self)),)
