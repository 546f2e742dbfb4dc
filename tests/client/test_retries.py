from __future__ import annotations

from datetime import UTC, datetime, timedelta
from email.utils import format_datetime

import httpx
import pytest

from service.client import NO_RETRIES, OutOfTimeError, Retries, UnreachableError
from service.client.requests import Request
from service.client.retries import Attempts, retry_after_s

GET, POST = Request("GET", "/"), Request("POST", "/")
WRITE = Request("POST", "/", key="k")
LOST = httpx.ReadError("lost", request=httpx.Request("GET", "http://faying.test/v1/limits?a=b"))


@pytest.fixture(autouse=True)
def _widest_pauses(monkeypatch: pytest.MonkeyPatch) -> None:
    """Draw the upper end of every pause."""
    monkeypatch.setattr("random.random", lambda: 1.0)


def refused(status: int, retry_after: str | None = None) -> httpx.Response:
    return httpx.Response(status, headers={"Retry-After": retry_after} if retry_after else {})


def test_pauses_double_up_to_a_bound_and_attempts_end() -> None:
    attempts = Attempts(Retries(attempts=5, first_pause_s=1, longest_pause_s=3), GET)
    assert [attempts.pause_after(refused(503)) for _ in range(5)] == [1, 2, 3, 3, None]


def test_the_service_says_how_long_to_wait() -> None:
    attempts = Attempts(Retries(first_pause_s=0.5), POST)
    assert attempts.pause_after(refused(429, "7")) == 7.5


def test_no_attempt_begins_after_the_total_time() -> None:
    attempts = Attempts(Retries(total_s=10), GET)
    assert attempts.pause_after(refused(429, "3600")) is None


@pytest.mark.parametrize(
    ("status", "request_", "is_repeated"),
    [
        (200, GET, False),
        (404, GET, False),
        (500, GET, False),
        (429, POST, True),
        (503, GET, True),
        (503, WRITE, True),
        (503, POST, False),
        (502, GET, True),
        (504, WRITE, True),
        (502, POST, False),
        (504, POST, False),
    ],
)
def test_only_replies_that_may_be_otherwise_next_time_are_not_kept(
    status: int,
    request_: Request,
    is_repeated: bool,  # noqa: FBT001
) -> None:
    assert (Attempts(Retries(), request_).pause_after(refused(status)) is not None) is is_repeated


def test_what_the_service_does_not_ask_to_repeat_is_not_repeated() -> None:
    problem = {"Content-Type": "application/problem+json"}
    assert Attempts(Retries(), GET).pause_after(httpx.Response(503, headers=problem)) is None
    asked = httpx.Response(503, headers={**problem, "Retry-After": "2"})
    assert Attempts(Retries(first_pause_s=0), GET).pause_after(asked) == 2


def test_a_write_at_work_is_waited_for_and_another_conflict_is_not() -> None:
    assert Attempts(Retries(first_pause_s=0), WRITE).pause_after(refused(409, "1")) == 1
    assert Attempts(Retries(), WRITE).pause_after(refused(409)) is None
    assert Attempts(Retries(), GET).pause_after(refused(409, "1")) is None


def test_a_lost_write_without_a_key_is_not_repeated() -> None:
    assert Attempts(Retries(), WRITE).pause_after_error(LOST) == 0.25
    with pytest.raises(UnreachableError, match=r"no reply: http://faying\.test/v1/limits: lost"):
        Attempts(Retries(), POST).pause_after_error(LOST)


def test_what_never_left_is_repeated_always() -> None:
    error = httpx.ConnectError("refused", request=LOST.request)
    attempts = Attempts(Retries(attempts=2), POST)
    assert attempts.pause_after_error(error) == 0.25
    with pytest.raises(UnreachableError):
        attempts.pause_after_error(error)


def test_a_time_out_is_told_apart() -> None:
    error = httpx.ReadTimeout("", request=LOST.request)
    with pytest.raises(OutOfTimeError, match="ReadTimeout"):
        Attempts(NO_RETRIES, GET).pause_after_error(error)


def test_retry_after_is_seconds_or_a_date() -> None:
    assert retry_after_s(None) is None
    assert retry_after_s("soon") is None
    assert retry_after_s("3") == 3
    assert retry_after_s("-3") == 0
    in_a_minute = retry_after_s(format_datetime(datetime.now(UTC) + timedelta(minutes=1), usegmt=True))
    assert in_a_minute is not None
    assert 50 < in_a_minute <= 60
    assert retry_after_s("Wed, 25 Nov 2020 09:00:00 -0000") == 0
