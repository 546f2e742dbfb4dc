"""Token buckets: bursts pass, floods wait, everyone has their own."""

from __future__ import annotations

from service.access import quotas
from service.access.quotas import TokenBuckets


class Clock:
    now_s = 0.0

    def __call__(self) -> float:
        return self.now_s


def test_a_burst_passes_and_the_next_request_waits_for_the_refill() -> None:
    clock = Clock()
    buckets = TokenBuckets(per_minute=60, burst=3, clock=clock)
    assert [buckets.take("a").remaining for _ in range(3)] == [2, 1, 0]
    refused = buckets.take("a")
    assert (refused.is_granted, refused.retry_after_s, refused.reset_s) == (False, 1, 3)
    clock.now_s += 1
    assert buckets.take("a").is_granted
    assert not buckets.take("a").is_granted


def test_callers_do_not_share_a_bucket() -> None:
    buckets = TokenBuckets(per_minute=60, burst=1, clock=Clock())
    assert buckets.take("a").is_granted
    assert buckets.take("b").is_granted
    assert not buckets.take("a").is_granted


def test_a_request_dearer_than_the_bucket_passes_when_full_and_leaves_a_debt() -> None:
    clock = Clock()
    buckets = TokenBuckets(per_minute=60, burst=10, clock=clock)
    assert buckets.take("a", 25).is_granted
    assert buckets.take("a").retry_after_s == 16
    clock.now_s += 16
    assert buckets.take("a").is_granted


def test_waiting_is_told_without_taking() -> None:
    buckets = TokenBuckets(per_minute=60, burst=1, clock=Clock())
    assert buckets.wait_s("a") == 0
    assert buckets.wait_s("a") == 0
    buckets.take("a")
    assert buckets.wait_s("a") == 1


def test_a_clock_that_jumps_back_takes_nothing_away() -> None:
    clock = Clock()
    buckets = TokenBuckets(per_minute=60, burst=2, clock=clock)
    buckets.take("a")
    clock.now_s = -1000
    assert buckets.take("a").is_granted


def test_memory_is_bounded() -> None:
    buckets = TokenBuckets(per_minute=60, burst=2, clock=Clock())
    for number in range(quotas._MOST_BUCKETS + 5):
        buckets.take(f"caller {number}")
    assert len(buckets._buckets) == quotas._MOST_BUCKETS
