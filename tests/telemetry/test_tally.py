"""Figures that are counted with every request, as Prometheus reads them."""

from __future__ import annotations

from prometheus_client import CollectorRegistry, Histogram, generate_latest

from service.telemetry.tally import Source, Tally

BOUNDS_S = (0.001, 0.01, 1.0)
SECONDS = (0.0005, 0.001, 0.0011, 0.5, 1.0, 7.0)


def test_times_are_sorted_into_the_same_buckets_as_by_the_library_itself() -> None:
    tally, registry = Tally(BOUNDS_S), CollectorRegistry()
    registry.register(tally)
    theirs = CollectorRegistry()
    histogram = Histogram(
        "faying_request_seconds",
        "Time from a request to the end of its answer.",
        ("method", "route", "status"),
        buckets=BOUNDS_S,
        registry=theirs,
    )
    for seconds in SECONDS:
        tally.request("GET", "/v1/limits", 200, seconds)
        histogram.labels("GET", "/v1/limits", "200").observe(seconds)
    lines = generate_latest(registry).decode().splitlines()
    expected = [line for line in generate_latest(theirs).decode().splitlines() if "_created" not in line]
    assert [line for line in lines if "faying_request_seconds" in line] == expected
    assert any(line.endswith(" 6.0") for line in expected)


def test_requests_of_other_routes_and_statuses_are_counted_apart() -> None:
    tally = Tally(BOUNDS_S)
    for status in (200, 200, 404):
        tally.request("GET", "/v1/limits", status, 0.5)
    requests, _ = tally.collect()
    counts = {each.labels["status"]: each.value for each in requests.samples if each.name.endswith("_count")}
    assert counts == {"200": 2, "404": 1}


def test_sources_that_nobody_met_are_told_as_none() -> None:
    tally = Tally(BOUNDS_S)
    tally.answer(Source.KNOWN)
    _, answers = tally.collect()
    counts = {each.labels["source"]: each.value for each in answers.samples}
    assert counts == {"known": 1, "kept": 0, "judged": 0}
