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
    headers = dict(rate_headers((buckets, buckets.take("a", 10))))
    assert headers == {b"ratelimit-policy": b'"requests";q=40;w=20', b"ratelimit": b'"requests";r=30;t=5'}


def test_several_policies_are_items_of_the_same_fields() -> None:
    requests = TokenBuckets(per_minute=120, burst=40, clock=lambda: 0.0)
    day = TokenBuckets(per_minute=10, burst=14_400, clock=lambda: 0.0, name="day")
    headers = dict(rate_headers((requests, requests.take("a")), (day, day.take("harbour"))))
    assert headers[b"ratelimit-policy"] == b'"requests";q=40;w=20, "day";q=14400;w=86400'
    assert headers[b"ratelimit"] == b'"requests";r=39;t=1, "day";r=14399;t=6'


def test_the_window_of_a_refusal_ends_when_the_request_would_pass() -> None:
    buckets = TokenBuckets(per_minute=60, burst=3, clock=lambda: 0.0)
    buckets.take("a", 3)
    refused = buckets.take("a")
    assert refused.retry_after_s == 1
    assert dict(rate_headers((buckets, refused)))[b"ratelimit"] == b'"requests";r=0;t=1'
