from __future__ import annotations

import pytest

from service.callouts.reading import Candidate, Match, Reading
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement.errors import InvalidInquiryError
from service.judgement.inquiry import Side
from service.judgement.readings import LONGEST_KEPT, MOST_READINGS, is_refused, reading_of, surfaces_of
from tests.factories.couples import ALUMINIUM, coated


@pytest.mark.parametrize("text", ["EN AW-6082-T6", "  EN AW-6082-T6 "])
def test_a_text_is_read(text: str, catalogue: Catalogue) -> None:
    assert surfaces_of(reading_of(Side(text=text), "/first", catalogue))[0].material_id == "al-6082-t6"


def test_notes_are_read_together(catalogue: Catalogue) -> None:
    reading = reading_of(Side(material="steel-s235", finish="zn-hdg"), "/first", catalogue)
    surface = surfaces_of(reading)[0]
    assert surface.material_id == "steel-s235"
    assert [layer.finish_id for layer in surface.layers] == ["zn-hdg"]


def test_a_text_that_comes_again_is_not_read_again_unless_it_is_long(catalogue: Catalogue) -> None:
    short, long = Side(text="S235JR"), Side(text=f"S235JR{' ' * LONGEST_KEPT}")
    (one, again), (other, anew) = (
        (reading_of(side, "/first", catalogue), reading_of(side, "/second", catalogue))
        for side in (short, long)
    )
    assert again is one
    assert anew is not other
    assert anew == other


def test_a_structure_is_taken_as_it_is(catalogue: Catalogue) -> None:
    reading = reading_of(Side(surface=ALUMINIUM), "/first", catalogue)
    assert reading.match is Match.EXACT
    assert surfaces_of(reading) == (ALUMINIUM,)


@pytest.mark.parametrize(
    "side",
    [Side(), Side(text="  "), Side(text="316", material="ss-316"), Side(text="316", surface=ALUMINIUM)],
)
def test_a_side_is_named_once_and_in_one_way(side: Side, catalogue: Catalogue) -> None:
    with pytest.raises(InvalidInquiryError) as caught:
        reading_of(side, "/second", catalogue)
    assert caught.value.pointer == "/second"


@pytest.mark.parametrize(
    ("surface", "pointer", "suggestion"),
    [
        (Surface("al-6082-t5"), "/first/material_id", "al-6082-t6"),
        (coated("al-6082-t6", "powder-coats"), "/first/layers/0/finish_id", "powder-coat"),
    ],
)
def test_a_structure_must_name_records_and_near_ones_are_suggested(
    surface: Surface, pointer: str, suggestion: str, catalogue: Catalogue
) -> None:
    with pytest.raises(InvalidInquiryError) as caught:
        reading_of(Side(surface=surface), "/first", catalogue)
    assert caught.value.pointer == pointer
    assert suggestion in caught.value.suggestions


def test_a_structure_may_leave_its_material_open(catalogue: Catalogue) -> None:
    surface = Surface(None, (Layer("zn-plain"),), basis_family="carbon steel")
    assert surfaces_of(reading_of(Side(surface=surface), "/first", catalogue)) == (surface,)


def test_thickness_and_condition_beside_a_text_go_before_what_it_says(catalogue: Catalogue) -> None:
    side = Side(material="steel-s235", finish="zn-hdg", thickness_um=70.0, condition=Condition.WORN)
    surface = surfaces_of(reading_of(side, "/first", catalogue))[0]
    assert surface.layers == (Layer("zn-hdg", 70.0),)
    assert surface.condition is Condition.WORN


def test_a_thickness_without_a_coat_means_nothing(catalogue: Catalogue) -> None:
    side = Side(material="steel-s235", thickness_um=70.0)
    assert surfaces_of(reading_of(side, "/first", catalogue))[0].layers == ()


def test_a_condition_alone_keeps_the_thickness(catalogue: Catalogue) -> None:
    side = Side(surface=coated("steel-s235", "zn-plain", 8.0), condition=Condition.DAMAGED)
    surface = surfaces_of(reading_of(side, "/first", catalogue))[0]
    assert surface.layers[0].thickness_um == 8.0
    assert surface.condition is Condition.DAMAGED


def test_an_unknown_text_gives_no_surface(catalogue: Catalogue) -> None:
    reading = reading_of(Side(text="xyzzy 99"), "/first", catalogue)
    assert reading.match is Match.UNKNOWN
    assert surfaces_of(reading) == ()


@pytest.mark.parametrize(
    ("match", "strictest", "refused"),
    [
        (Match.EXACT, Match.EXACT, False),
        (Match.NORMALISED, Match.EXACT, True),
        (Match.NORMALISED, Match.NORMALISED, False),
        (Match.FUZZY, Match.NORMALISED, True),
        (Match.UNKNOWN, None, False),
    ],
)
def test_a_looser_reading_than_was_asked_for_is_refused(
    match: Match, strictest: Match | None, *, refused: bool
) -> None:
    assert is_refused(Reading("", match), strictest) is refused


def test_only_the_best_readings_are_judged() -> None:
    candidates = tuple(Candidate(Surface(f"m{place}"), 0.1) for place in range(9))
    assert len(surfaces_of(Reading("", Match.AMBIGUOUS, candidates))) == MOST_READINGS
