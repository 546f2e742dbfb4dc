"""Headers that every response carries."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from types import MappingProxyType

from service.access.quotas import Allowance, TokenBuckets

RawHeaders = list[tuple[bytes, bytes]]

_DEFAULTS: Mapping[bytes, bytes] = MappingProxyType(
    {
        b"x-content-type-options": b"nosniff",
        b"referrer-policy": b"no-referrer",
        b"cross-origin-resource-policy": b"same-origin",
        b"content-security-policy": b"default-src 'none'; frame-ancestors 'none'",
    }
)
_HTTPS_ONLY = (b"strict-transport-security", b"max-age=31536000; includeSubDomains")


PAGE_HEADERS = {
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}
"""What pages carry besides: no window of another site holds on to them, and they ask for no device."""


def security_headers(present: Iterable[tuple[bytes, bytes]], scheme: str) -> Sequence[tuple[bytes, bytes]]:
    """Return what a response still needs for a browser to treat it safely.

    A page that brings its own content policy or resource policy keeps it.
    """
    own = tuple([name for name, _ in present if name in _DEFAULTS])
    return _lacking(own, scheme == "https")


@lru_cache(maxsize=64)
def _lacking(own: tuple[bytes, ...], is_https: bool) -> Sequence[tuple[bytes, bytes]]:  # noqa: FBT001 - a key
    lacking = [(name, value) for name, value in _DEFAULTS.items() if name not in own]
    return (*lacking, _HTTPS_ONLY) if is_https else tuple(lacking)


def rate_headers(*taken: tuple[TokenBuckets, Allowance]) -> RawHeaders:
    """Return the two fields of draft-ietf-httpapi-ratelimit-headers-11, an item for each policy.

    After a refusal the window ends when the same request would pass, so that it agrees with Retry-After
    (section 6 of the draft).
    """
    state = ", ".join([_state(buckets, allowance) for buckets, allowance in taken])
    return [
        (b"ratelimit-policy", _policies(*[buckets for buckets, _ in taken])),
        (b"ratelimit", state.encode()),
    ]


def _state(buckets: TokenBuckets, allowance: Allowance) -> str:
    until_s = allowance.reset_s if allowance.is_granted else allowance.retry_after_s
    return f'"{buckets.name}";r={allowance.remaining};t={until_s}'


@lru_cache(maxsize=64)
def _policies(*buckets: TokenBuckets) -> bytes:
    """Write the field that is the same in every answer."""
    return ", ".join(f'"{each.name}";q={each.burst};w={each.window_s}' for each in buckets).encode()
