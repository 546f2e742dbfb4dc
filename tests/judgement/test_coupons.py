"""Coupons of rooms."""

from __future__ import annotations

import pytest

from service.chemistry.errors import OutOfRangeError
from service.chemistry.indoor import FilmMetal, IndoorMetal
from service.judgement.coupons import class_of, level_of


@pytest.mark.parametrize(
    ("metal", "loss", "expected"),
    [
        # ISO 11844-1, Table 1 (2006 values, from memory): copper 50, 200, 900, 2000, 5000 mg/(m² y).
        (IndoorMetal.COPPER, 50.0, "IC1"),
        (IndoorMetal.COPPER, 120.0, "IC2"),
        (IndoorMetal.COPPER, 5000.1, "above IC5"),
        (IndoorMetal.CARBON_STEEL, 69_000.0, "IC4"),
    ],
)
def test_a_weighed_coupon_has_the_class_of_its_metal(metal: IndoorMetal, loss: float, expected: str) -> None:
    assert class_of(metal, loss) == expected


@pytest.mark.parametrize(
    ("metal", "film", "days", "expected"),
    [
        # ANSI/ISA-71.04-2013: copper 300, 1000, 2000 and silver 200, 1000, 2000 angstrom in 30 days.
        (FilmMetal.COPPER, 299.0, 30.0, "G1"),
        (FilmMetal.SILVER, 299.0, 30.0, "G2"),
        (FilmMetal.SILVER, 598.0, 60.0, "G2"),
        (FilmMetal.COPPER, 1000.0, 15.0, "GX"),
    ],
)
def test_a_film_is_brought_to_thirty_days(metal: FilmMetal, film: float, days: float, expected: str) -> None:
    assert level_of(metal, film, days) == expected


def test_no_time_is_no_coupon() -> None:
    with pytest.raises(OutOfRangeError):
        level_of(FilmMetal.COPPER, 100.0, 0.0)
