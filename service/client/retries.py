"""When a call is sent again: only where that does no harm, later each time, and as the service asks."""

from __future__ import annotations

import random
import time
from dataclasses import dataclass
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime

import httpx

from service.client.errors import OutOfTimeError, UnreachableError
from service.client.requests import Request

_NOT_BEGUN = 429
"""The allowance is used up: nothing was done."""

_MAY_HAVE_BEGUN = {502, 503, 504}
"""Replies of a proxy that does not know, or of a service that could not end what it may have begun."""

_AT_WORK = 409
"""With ``Retry-After`` and a key: the first sending is still at work."""

_PROBLEM = "application/problem+json"

_NEVER_SENT = (httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout)


@dataclass(frozen=True, slots=True)
class Retries:
    """How often and how long a call is tried.

    The pause before each further attempt is drawn between nothing and a bound that doubles, so that many
    callers do not come back together. ``Retry-After`` is waited for, and no attempt begins after
    ``total_s``.
    """

    attempts: int = 4
    first_pause_s: float = 0.25
    longest_pause_s: float = 8.0
    total_s: float = 60.0


NO_RETRIES = Retries(attempts=1)


class Attempts:
    """The attempts at one call."""

    def __init__(self, retries: Retries, request: Request) -> None:
        self._retries = retries
        self._request = request
        self._made = 0
        self._started = time.monotonic()

    def pause_after_error(self, error: httpx.TransportError) -> float:
        """Return how long to wait after there was no reply.

        Raises
        ------
        UnreachableError
            If it is not tried again.
        """
        may_repeat = self._request.is_repeatable or isinstance(error, _NEVER_SENT)
        pause = self._pause(None) if may_repeat else None
        if pause is not None:
            return pause
        reason = f"{error.request.url.copy_with(query=None)}: {str(error) or type(error).__name__}"
        raise (OutOfTimeError if isinstance(error, httpx.TimeoutException) else UnreachableError)(
            reason
        ) from None

    def pause_after(self, response: httpx.Response) -> float | None:
        """Return how long to wait before the call is sent again; None if this is the reply to keep."""
        asked_s = retry_after_s(response.headers.get("retry-after"))
        status = response.status_code
        if status == _NOT_BEGUN:
            return self._pause(asked_s)
        if status in _MAY_HAVE_BEGUN and self._request.is_repeatable:
            # The service itself names a time where asking again is of use.
            is_final = asked_s is None and response.headers.get("content-type") == _PROBLEM
            return None if is_final else self._pause(asked_s)
        if status == _AT_WORK and asked_s is not None and self._request.key is not None:
            return self._pause(asked_s)
        return None

    def pause_after_break(self) -> float | None:
        """Return how long to wait after a reply broke off; None if it is not tried again."""
        return self._pause(None) if self._request.is_repeatable else None

    def _pause(self, asked_s: float | None) -> float | None:
        self._made += 1
        if self._made >= self._retries.attempts:
            return None
        bound = min(self._retries.longest_pause_s, self._retries.first_pause_s * 2.0 ** (self._made - 1))
        pause = (asked_s or 0.0) + bound * random.random()  # noqa: S311 - to spread callers, not to hide anything
        elapsed = time.monotonic() - self._started
        return pause if elapsed + pause <= self._retries.total_s else None


def retry_after_s(value: str | None) -> float | None:
    """Read ``Retry-After``: seconds or a date (RFC 9110, section 10.2.3)."""
    if not value:
        return None
    try:
        return max(0.0, float(value))
    except ValueError:
        pass
    try:
        moment = parsedate_to_datetime(value)
    except ValueError:
        return None
    moment = moment if moment.tzinfo else moment.replace(tzinfo=UTC)
    return max(0.0, (moment - datetime.now(UTC)).total_seconds())
