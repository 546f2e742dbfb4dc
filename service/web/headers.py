"""Headers that every response carries."""

from __future__ import annotations

from collections.abc import Iterable

from service.access.quotas import Allowance, TokenBuckets

RawHeaders = list[tuple[bytes, bytes]]

_NO_PAGE_POLICY = (b"content-security-policy", b"default-src 'none'; frame-ancestors 'none'")
_ALWAYS: tuple[tuple[bytes, bytes], ...] = (
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
)
_HTTPS_ONLY = (b"strict-transport-security", b"max-age=31536000; includeSubDomains")


def security_headers(present: Iterable[tuple[bytes, bytes]], scheme: str) -> RawHeaders:
    """Return what a response still needs for a browser to treat it safely.

    A page that brings its own content policy or resource policy keeps it.
    """
    names = {name for name, _ in present}
    added = [header for header in (*_ALWAYS, _NO_PAGE_POLICY) if header[0] not in names]
    if scheme == "https":
        added.append(_HTTPS_ONLY)
    return added


def rate_headers(buckets: TokenBuckets, allowance: Allowance) -> RawHeaders:
    """Return the fields of draft-ietf-httpapi-ratelimit-headers (two-field form)."""
    state = f'"requests";r={allowance.remaining};t={allowance.reset_s}'
    window_s = round(buckets.burst * 60 / buckets.per_minute)
    policy = f'"requests";q={buckets.burst};w={max(1, window_s)}'
    return [(b"ratelimit-policy", policy.encode()), (b"ratelimit", state.encode())]
