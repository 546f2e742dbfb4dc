from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon, is_free_key, key_of, tokens_of
from service.callouts.normalise import normalise
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Designation
from service.catalogue.release import freeze, thaw
from service.catalogue.tables import row_from_record


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("EN AW-6082", "enaw6082"),
        ("X5CrNi18-10", "x5crni18-10"),
        ("Al 99,5", "al99.5"),
        ("1.4301", "1.4301"),
        ("aluminum bronze", "aluminiumbronze"),
        ("NiCo 29 18", "nico29 18"),
        ("...", ""),
    ],
)
def test_a_key_forgets_spacing_and_keeps_figures_apart(text: str, wanted: str) -> None:
    assert key_of(text) == wanted


def test_words_keep_their_places() -> None:
    assert [(token.text, token.start, token.end) for token in tokens_of("8.8, zn-ni")] == [
        ("8.8", 0, 3),
        ("zn", 5, 7),
        ("ni", 8, 10),
    ]


@pytest.mark.parametrize(
    ("key", "is_free"), [("s235", True), ("a2", False), ("1018", False), ("l168", False), ("grade5", False)]
)
def test_short_codes_and_numbers_do_not_stand_free(key: str, is_free: bool) -> None:  # noqa: FBT001
    assert is_free_key(key) is is_free


def test_a_relative_gives_way_to_the_owner_of_a_name(lexicon: Lexicon) -> None:
    alloy = lexicon.alloy("1.4310")
    assert alloy is not None
    assert alloy.options == ("ss-301",)
    assert alloy.question == ""


def test_a_name_that_only_a_relative_has_asks(lexicon: Lexicon) -> None:
    alloy = lexicon.alloy("SS400")
    assert alloy is not None
    assert alloy.options == ("steel-s235",)
    assert "may Structural steel S235JR stand for it" in alloy.question


def test_the_usual_temper_comes_first(lexicon: Lexicon) -> None:
    alloy = lexicon.alloy("EN AW-6061")
    assert alloy is not None
    assert alloy.options == ("al-6061-t6", "al-6061-t4")


def test_an_assumed_temper_is_said(lexicon: Lexicon) -> None:
    alloy = lexicon.alloy("EN AW-6082")
    assert alloy is not None
    assert alloy.assumptions == ("temper not stated: taken as T6",)


def test_the_first_known_name_is_taken(lexicon: Lexicon) -> None:
    alloy = lexicon.alloy("no such name", "C26000")
    assert alloy is not None
    assert alloy.options == ("brass-cuzn30",)
    assert lexicon.alloy("no such name") is None


def test_a_name_of_signs_alone_is_no_name(catalogue: Catalogue) -> None:
    rows = {
        "materials": [row_from_record(catalogue.materials["ss-304"])],
        "designations": [row_from_record(Designation("ss-304", "trade", "---", ""))],
    }
    assert "" not in Lexicon.of(thaw(freeze("signs", rows))).alloys


def test_only_held_materials_are_offered(lexicon: Lexicon) -> None:
    assert lexicon.held("ss-304", "no-such-material") == ("ss-304",)
    assert lexicon.family("ss-304") == "stainless steel"


def test_the_longest_name_at_a_place_is_found(lexicon: Lexicon) -> None:
    text = normalise("part of EN AW-6082-T6 and Zinc plate, black passivation").text
    found = [text[start:end] for start, end, _ in lexicon.names_in(text, tokens_of(text))]
    assert "en aw-6082-t6" in found
    assert "zinc plate, black passivation" in found


def test_a_name_does_not_reach_over_a_semicolon(lexicon: Lexicon) -> None:
    text = "en; aw-6082"
    assert [text[start:end] for start, end, _ in lexicon.names_in(text, tokens_of(text))] == [
        "aw-6082"
    ] or not [text[start:end] for start, end, _ in lexicon.names_in(text, tokens_of(text))]
