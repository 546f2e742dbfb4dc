"""What is told of long work that cannot be had."""

from __future__ import annotations

from service.web.problems import kind_of
from service.web.work_errors import (
    ForbiddenWebhookError,
    JobNotDoneError,
    NotJudgedYetError,
    VersionMismatchError,
)


def test_who_is_too_early_is_told_when_to_come_again() -> None:
    for state, headers in (
        ("queued", {"Retry-After": "1"}),
        ("running", {"Retry-After": "1"}),
        ("failed", {}),
    ):
        assert JobNotDoneError("job_1", state).headers == headers
    assert NotJudgedYetError("mast").headers == {"Retry-After": "1"}


def test_fields_and_headers_are_blamed() -> None:
    assert VersionMismatchError(3).faults[0].pointer == "/If-Match"
    assert ForbiddenWebhookError("/url", "no").faults[0].pointer == "/url"


def test_each_has_a_type_of_its_own() -> None:
    errors = (ForbiddenWebhookError, JobNotDoneError, NotJudgedYetError, VersionMismatchError)
    assert [kind_of(error).status for error in errors] == [422, 409, 409, 412]
