from __future__ import annotations

import pytest

from service.assemblies.effectivity import is_effective, is_together


@pytest.mark.parametrize(
    ("text", "at", "expected"),
    [
        ("SN 101-120", "110", True),
        ("SN 101-120", "120", True),
        ("SN 101-120", "121", False),
        ("s/n 9..11", "10", True),
        ("121 and on", "9999", True),
        ("from 101", "100", False),
        ("bis 120", "SN 120", True),
        ("until 120", "121", False),
        ("105", "105", True),
        ("105", "106", False),
        ("2026-01-01/2026-06-30", "2026-06-30", True),
        ("2026-01-01/2026-06-30", "2026-07-01", False),
        ("until 2026-06", "2026-06-30", True),
        ("2026-05", "2026-05-17", True),
        ("2026-05", "2026-06-01", False),
        ("seit 2026-01", "2031-12-31", True),
    ],
)
def test_units_and_dates_are_told_apart(text: str, at: str, expected: bool) -> None:  # noqa: FBT001 - a parameter
    assert is_effective(text, at) is expected


@pytest.mark.parametrize("text", ["", "all", "per order", "2026-01-01/120", "SN 101-120, 130-140"])
def test_what_cannot_be_read_hides_nothing(text: str) -> None:
    assert is_effective(text, "999")
    assert is_effective(text, "2026-01-01")


def test_a_date_says_nothing_about_serial_numbers() -> None:
    assert is_effective("SN 101-120", "2026-01-01")


def test_parts_of_different_units_are_never_together() -> None:
    assert not is_together("SN 1-10", "SN 11-20")
    assert is_together("SN 1-10", "10 and on")
    assert is_together("SN 1-10", "")
