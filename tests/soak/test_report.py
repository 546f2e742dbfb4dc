"""A soak that met an error, or memory that grows, is not well."""

from __future__ import annotations

import random
from array import array

import pytest

from tests.soak.clients import Tally
from tests.soak.mix import SHARES, choices
from tests.soak.run import Memory, growth_mb, is_flat, report


def samples(leak_mb_per_minute: float) -> Memory:
    """A quarter of an hour: two minutes of warming up, then noise upon a straight line."""
    chance = random.Random(1)  # noqa: S311 - a repeatable noise
    warm = [min(second / 120, 1.0) * 50 for second in range(900)]
    megabytes = [
        150 + warm[second] + leak_mb_per_minute * second / 60 + chance.uniform(-2, 2) for second in range(900)
    ]
    return Memory(0, [float(second) for second in range(900)], megabytes)


def answered(errors: int = 0) -> Tally:
    tally = Tally(errors=errors, examples=["known couple: 500"] * errors)
    for name in SHARES:
        tally.seconds[name] = array("f", [0.001] * 99 + [0.5])
    return tally


@pytest.mark.parametrize(("leak", "expected"), [(0.0, True), (0.3, True), (2.0, False), (20.0, False)])
def test_a_leak_is_told_from_noise(leak: float, expected: bool) -> None:  # noqa: FBT001
    memory = samples(leak)
    settled, grown = growth_mb(memory.at_s, memory.megabytes)
    assert 190 < settled < 350
    assert is_flat(settled, grown) is expected


def test_the_report_says_what_was_met() -> None:
    text, is_well = report(15, 1000, answered(), samples(0))
    assert is_well
    assert "errors 0" in text
    assert "p50 1.0 ms, p99" in text
    assert all(name in text for name in SHARES)
    assert text.endswith("all is well\n")


def test_one_error_is_one_too_many() -> None:
    text, is_well = report(15, 1000, answered(errors=1), samples(0))
    assert not is_well
    assert "wrong: known couple: 500" in text


def test_tallies_add_up() -> None:
    together = Tally()
    for _ in range(3):
        together.add(answered(errors=2))
    assert (together.count, together.errors) == (3 * 100 * len(SHARES), 6)


def test_everything_is_done_in_its_share() -> None:
    assert sum(share for _, share in SHARES.values()) == pytest.approx(1)
    chance = random.Random(1)  # noqa: S311 - a repeatable mixture
    drawn = [name for name, _ in (next(each) for each in [choices(chance)] * 5000)]
    for name, (_, share) in SHARES.items():
        assert drawn.count(name) / 5000 == pytest.approx(share, rel=0.5)
