"""Errors carry facts: which part of the request, and what would have been right."""

from __future__ import annotations

from service.web import errors


def test_faults_point_to_their_part_of_the_request() -> None:
    unknown = errors.NoSuchRecordError("materials", "x", ("y",))
    assert [(fault.pointer, fault.suggestions) for fault in unknown.faults] == [("/id", ("y",))]
    assert errors.MalformedBodyError("no JSON").faults[0].pointer == ""
    assert errors.BadCursorError("none").faults[0].pointer == "/cursor"
    assert errors.IdempotencyConflictError().faults[0].pointer == "/Idempotency-Key"
    assert errors.NotAcceptableError(("text/html",)).faults[0].suggestions == ("text/html",)
    assert errors.BodyTooLargeError(5).faults == ()


def test_all_faults_are_in_the_text() -> None:
    first, second = (errors.Fault("body", f"/{name}", "x", f"{name} is bad") for name in "ab")
    assert str(errors.InvalidRequestError(first, second)) == "a is bad; b is bad"
