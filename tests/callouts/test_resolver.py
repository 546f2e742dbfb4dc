from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import LONGEST_TEXT, Resolver
from service.catalogue.catalogue import Catalogue
from service.catalogue.release import freeze, thaw
from service.catalogue.tables import row_from_record
from tests.callouts.outlines import firm, outline, torn


def test_one_catalogue_has_one_resolver(catalogue: Catalogue) -> None:
    assert Resolver.of(catalogue) is Resolver.of(catalogue)


def test_only_the_last_few_catalogues_are_kept(catalogue: Catalogue) -> None:
    rows = {"materials": [row_from_record(catalogue.materials["ss-304"])]}
    others = [thaw(freeze(f"other {number}", rows)) for number in range(5)]
    first = Resolver.of(others[0])
    for other in others[1:]:
        Resolver.of(other)
    assert Resolver.of(others[0]) is not first


def test_a_small_catalogue_offers_only_what_it_holds(catalogue: Catalogue) -> None:
    rows = {
        "materials": [row_from_record(catalogue.materials[name]) for name in ("ss-304", "steel-8-8")],
        "finishes": [row_from_record(catalogue.finishes["zn-hdg"])],
    }
    small = Resolver.of(thaw(freeze("small", rows)))
    assert torn(small.resolve("stainless")) == ["ss-304 | bare"]
    assert firm(small.resolve("8.8, hot dip galvanized")) == "steel-8-8 | zn-hdg"
    assert torn(small.resolve("8.8, zinc plated")) == ["steel-8-8 | bare"]
    assert small.resolve("8.8, zinc plated").candidates[0].missing == ("finish: zinc",)
    assert small.resolve("SGCC").candidates == ()
    assert small.resolve("B2").match is Match.UNKNOWN
    assert small.resolve("B2").reason
    for text in ("S350GD", "V2A", "NiCr", "A36", "alloy 718", "Zamak 5", "Grade 5", "6061-T6", "zinc plated"):
        known = {*small.catalogue.materials, *small.catalogue.finishes, None}
        for candidate in small.resolve(text).candidates:
            assert candidate.surface.material_id in known
            assert {layer.finish_id for layer in candidate.surface.layers} <= known


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("EN AW-6082-T6", Match.EXACT),
        ("  1.4301 ", Match.EXACT),
        ("al-6082-t6", Match.EXACT),
        ("zn-hdg", Match.EXACT),
        ("none-bare", Match.EXACT),
        ("en aw 6082 t6", Match.NORMALISED),
        ("Fe//Zn8//A", Match.NORMALISED),
        ("6061-T6 hard anodzied", Match.FUZZY),
        ("Messing", Match.AMBIGUOUS),
        ("A2", Match.AMBIGUOUS),
        ("SS400", Match.AMBIGUOUS),
        ("kryptonite", Match.UNKNOWN),
        ("", Match.UNKNOWN),
        (" \n ", Match.UNKNOWN),
    ],
)
def test_each_reading_says_how_the_text_was_read(text: str, match: Match, resolver: Resolver) -> None:
    assert resolver.resolve(text).match is match


def test_a_reading_returns_the_text_as_given(resolver: Resolver) -> None:
    assert resolver.resolve("  1.4301 ").text == "  1.4301 "


def test_an_identifier_points_at_itself(resolver: Resolver) -> None:
    (span,) = resolver.resolve(" al-6082-t6").candidates[0].spans
    assert (span.field, span.start, span.end) == ("material", 1, 11)
    (span,) = resolver.resolve("zn-hdg").candidates[0].spans
    assert span.field == "finish"


def test_a_text_beyond_the_limit_is_honestly_unknown(resolver: Resolver) -> None:
    reading = resolver.resolve("x" * (LONGEST_TEXT + 1))
    assert reading.match is Match.UNKNOWN
    assert str(LONGEST_TEXT) in reading.reason
    assert resolver.resolve_notes("1.4301", "x" * LONGEST_TEXT).match is Match.UNKNOWN


def test_a_long_text_is_read_to_its_end(resolver: Resolver) -> None:
    text = "SCREW, " * 1000 + "1.4301"
    assert firm(resolver.resolve(text)) == "ss-304 | bare"


NOTES = [
    ("EN AW-6082-T6", "hard anodised 50 µm", "al-6082-t6 | anod-iii-hard:50"),
    ("CW614N", "nickel", "brass-cuzn39pb3 | ni-electro"),
    ("al-6082-t6", "anod-iii-hard", "al-6082-t6 | anod-iii-hard"),
    ("al-6082-t6", "none-bare", "al-6082-t6 | bare"),
    ("1.4301", "", "ss-304 | bare"),
    ("1.4301", "n/a", "ss-304 | bare"),
    ("1.4301", "keine", "ss-304 | bare"),
    ("8.8", "zn-black", "steel-8-8 | zn-black"),
    ("", "Fe//Zn8//A", "(carbon steel) | zn-passivated-clear:8"),
    ("C11000", "Silver plate over nickel 2 µm", "cu-etp | ag-over-ni:2"),
    ("S355J2 hot dip galvanized", "powder coat on steel", "steel-s355 | powder-coat / zn-hdg"),
    ("see drawing", "vernickelt, CW614N", "brass-cuzn39pb3 | ni-electro"),
]


@pytest.mark.parametrize(("material", "finish", "wanted"), NOTES)
def test_material_and_finish_may_come_apart(
    material: str, finish: str, wanted: str, resolver: Resolver
) -> None:
    assert firm(resolver.resolve_notes(material, finish)) == wanted


def test_in_a_material_note_a_metal_word_is_the_part(resolver: Resolver) -> None:
    assert torn(resolver.resolve_notes("Copper", "tin, matte"))[0] == "cu-etp | sn-matte"
    assert torn(resolver.resolve_notes("Silver", ""))[0] == "ag | bare"


def test_in_a_finish_note_a_metal_word_is_a_coat(resolver: Resolver) -> None:
    assert firm(resolver.resolve_notes("", "silver")) == "() | ag-electro"


def test_notes_are_joined_and_spans_refer_to_both(resolver: Resolver) -> None:
    reading = resolver.resolve_notes("Stäbe 1.4404", "passiviert")
    assert reading.text == "Stäbe 1.4404\npassiviert"
    spans = {span.field: reading.text[span.start : span.end] for span in reading.candidates[0].spans}
    assert spans == {"material": "1.4404", "finish": "passiviert"}


def test_a_slip_in_a_note_is_put_right(resolver: Resolver) -> None:
    reading = resolver.resolve_notes("Edelstal 1.4404", "pasiviert")
    assert firm(reading) == "ss-316l | ss-passivated"
    assert reading.match is Match.FUZZY


def test_many_texts_are_read_in_order(resolver: Resolver) -> None:
    readings = resolver.resolve_many(["1.4301", "8.8", "1.4301"])
    assert [firm(reading) for reading in readings] == ["ss-304 | bare", "steel-8-8 | bare", "ss-304 | bare"]
    assert readings[0] is readings[2]


@pytest.mark.parametrize(
    ("text", "wanted", "match"),
    [
        ("Edelstal 1.4301", "ss-304 | bare", Match.NORMALISED),
        ("stianless steel 316", "ss-316 | bare", Match.NORMALISED),
        ("alumnium 6061-T6 clear anodzied", "al-6061-t6 | anod-ii-clear", Match.FUZZY),
        ("Zinkphosphatirt S355J2", "steel-s355 | phosphate-zn", Match.FUZZY),
        ("Muntz metall", "brass-cuzn40 | bare", Match.FUZZY),
    ],
)
def test_typing_errors_in_words(text: str, wanted: str, match: Match, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert outline(reading.candidates[0]) == wanted
    assert reading.match is match


def test_a_correction_costs_confidence(resolver: Resolver) -> None:
    slipped = resolver.resolve("6061-T6 hard anodzied").candidates[0].confidence
    assert slipped < resolver.resolve("6061-T6 hard anodized").candidates[0].confidence


@pytest.mark.parametrize(
    "text", ["6O61-T6", "EN AW-6111", "1.4302", "CuZn39Pb9", "C26001", "SAE 1099", "A8-71 bolt"]
)
def test_no_number_moves_to_a_neighbour(text: str, resolver: Resolver) -> None:
    assert resolver.resolve(text).match not in {Match.EXACT, Match.NORMALISED, Match.FUZZY}


def test_a_whole_name_with_a_slip_is_found(resolver: Resolver) -> None:
    reading = resolver.resolve("maillechortt")
    assert reading.match is Match.FUZZY
    assert outline(reading.candidates[0]) == "nickel-silver | bare"


def test_a_generic_name_with_a_slip_stays_ambiguous(resolver: Resolver) -> None:
    assert resolver.resolve("wetterfesster Baustahll").match is Match.AMBIGUOUS


def test_an_unknown_text_gets_suggestions(resolver: Resolver) -> None:
    assert "EN AW-6101B-T64" in resolver.resolve("EN AW-6111-T4").suggestions
    assert resolver.resolve("q" * 200).suggestions == ()


def test_a_name_that_names_no_material_and_no_coat_is_only_suggested(resolver: Resolver) -> None:
    reading = resolver.resolve("bare, no finsh")
    assert reading.match is Match.UNKNOWN
    assert reading.suggestions[0] == "Bare, no finish"


def test_suggestions_start_like_the_text_or_resemble_it(resolver: Resolver) -> None:
    assert resolver.suggest("EN AW-608", 2) == ["EN AW-6082", "EN AW-6082-T6"]
    assert "Naval brass" in resolver.suggest("nval brass", 3) or "naval brass" in resolver.suggest(
        "nval brass", 3
    )
    assert "Hot-dip galvanized zinc, batch" in resolver.suggest("hot-dip galv", 5)
    assert resolver.suggest("  ") == []
    assert len(resolver.suggest("a", 3)) == 3
