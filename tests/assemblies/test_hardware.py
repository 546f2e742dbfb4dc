from __future__ import annotations

import pytest

from service.assemblies.hardware import head_radius_m, is_fastener, names_standard, thread_diameter_m


@pytest.mark.parametrize(
    "text",
    [
        "SCREW, M4X10, A4-70",
        "M2.5X5 INOX A2 CHC DIN 912",
        "#6-32 x 1/4 Button Head Screw",
        "Square Nuts M3X5.5X1.8",
        "Zylinderschrauben ISO 4762",
        "Unterlegscheiben A2",
        "Vis CHC M3",
        "Écrou hexagonal",
        "DIN EN ISO 7089 8 A4",
        "Blind rivets 4 mm",
        "Threaded rod M8",
        "M5x20 A2",
    ],
)
def test_fasteners_by_noun_thread_or_standard(text: str) -> None:
    assert is_fastener(text)


@pytest.mark.parametrize(
    "text",
    [
        "Bracket, 6061-T6",
        "Lead screw T8",
        "Screwdriver",
        "M12 lens 25 mm",
        "Nut plate",
        "DIN rail EN 60715",
        "Visor",
        "Scheibenwischer",
        "Bolted joint cover",
    ],
)
def test_other_parts_are_none(text: str) -> None:
    assert not is_fastener(text)


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("M4x10", 4.0),
        ("Screw M2,5", 2.5),
        ("#6-32 x 3/8", 0.138 * 25.4),
        ("1/4-20 bolt", 6.35),
        ('Washer 1/2"', 12.7),
    ],
)
def test_threads_metric_and_inch(text: str, millimetres: float) -> None:
    diameter = thread_diameter_m(text)
    assert diameter == pytest.approx(millimetres / 1e3)
    assert head_radius_m(text) == pytest.approx(0.85 * millimetres / 1e3)


@pytest.mark.parametrize("text", ["Screw", "M0", "1/0 in", "AM43", "MIL-DTL-5541", "M05-1234"])
def test_a_text_without_a_thread_has_no_head(text: str) -> None:
    assert thread_diameter_m(text) is None
    assert head_radius_m(text) is None


@pytest.mark.parametrize(
    "text",
    ["Tornillo inox", "Tuercas hexagonales", "Dado autobloccante", "RVS moer", "Varilla roscada"],
)
def test_fasteners_in_other_languages(text: str) -> None:
    assert is_fastener(text)


def test_numbers_that_name_a_standard() -> None:
    assert names_standard("DIN 912 M4 x 16")
    assert not names_standard("SK-1112")
