"""Headers that every response carries."""

from __future__ import annotations

from service.access import TokenBuckets
from service.web.headers import rate_headers, security_headers


def test_a_page_keeps_its_own_policy() -> None:
    own = [(b"content-security-policy", b"default-src 'self'")]
    assert b"content-security-policy" not in dict(security_headers(own, "http"))
    assert dict(security_headers([], "http"))[b"content-security-policy"].startswith(b"default-src 'none'")


def test_only_https_is_pinned() -> None:
    assert b"strict-transport-security" in dict(security_headers([], "https"))
    assert b"strict-transport-security" not in dict(security_headers([], "http"))


def test_the_allowance_is_written_as_structured_fields() -> None:
    buckets = TokenBuckets(per_minute=120, burst=40, clock=lambda: 0.0)
    headers = dict(rate_headers(buckets, buckets.take("a", 10)))
    assert headers == {b"ratelimit-policy": b'"requests";q=40;w=20', b"ratelimit": b'"requests";r=30;t=5'}
