"""What must hold for every text: what is written is read back, and nothing that is typed can hurt."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.callouts import LONGEST_TEXT, Match, Reading, Resolver, format_surface
from service.callouts.formatting import NOTATIONS, PLAIN, STACK, Notation
from service.callouts.normalise import normalise
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Material
from service.catalogue.surfaces import Condition, Layer, Surface
from tests.seed_catalogue import seed_catalogue

CATALOGUE: Catalogue = seed_catalogue()
RESOLVER = Resolver.of(CATALOGUE)
RESOLVED = {Match.EXACT, Match.NORMALISED, Match.FUZZY}

THICKNESSES = st.one_of(
    st.integers(1, 400).map(float),
    st.integers(1, 999).map(lambda figure: figure / 100.0),
)
"""Layer thickness [um]."""

PASSIVE = "ss-pickled"
"""Means nothing on a carbon steel, and is not read there."""

BASES = {"carbon steel": "steel-s355", "aluminium": "al-6082-t6", "copper": "cu-etp"}
TEMPERS = {"al-6082-t6": "T6", "cu-etp": "R290"}

PIECES = st.sampled_from(
    [
        *("Fe//", "Zn", "8", "//A", "//", "/", "1.4301", "6061", "-T6", "A2", "A4-70", "8.8", "Ni", "Au"),
        *("µm", 'u"', "mil", "MIL-PRF-8625", "TYPE", "II", "CLASS", "(", ")", "[", ";", "\n", "\t", " "),
        *("over", "über", "sur", "verzinkt", "zingué", "anodize", "±", "×", "0,5", "...", "- ", "QQ-P-416"),
        *("gold", "steel", "Stahl", "acier", "x" * 50, "1" * 40, "ß", "ﬁ", "İ", "\u0301", "\u200b", "½", "²"),
        *("for use with", "except", "mask", "M6x20", "DIN 912", "EN", "AW", "ISO", "4042", "A3K", "%"),
    ]
)
TEXTS = st.one_of(
    st.text(max_size=200),
    st.lists(PIECES, max_size=60).map("".join),
    st.lists(PIECES, max_size=60).map(" ".join),
    st.tuples(st.one_of(PIECES, st.characters()), st.integers(1, LONGEST_TEXT)).map(
        lambda pair: (pair[0] * pair[1])[:LONGEST_TEXT]
    ),
)


def read_back(surface: Surface, notation: str = PLAIN) -> Reading:
    text = format_surface(surface, CATALOGUE, notation)
    assert text is not None
    reading = RESOLVER.resolve(text)
    assert reading.candidates, (text, reading.reason)
    assert reading.candidates[0].surface == surface, text
    return reading


def written_thicknesses(notation: Notation) -> st.SearchStrategy[float]:
    return st.sampled_from(sorted(notation.codes)) if notation.codes else THICKNESSES


@pytest.mark.parametrize("notation", NOTATIONS, ids=lambda notation: notation.name)
@settings(deadline=None)
@given(data=st.data())
def test_every_notation_is_read_back(notation: Notation, data: st.DataObject) -> None:
    finish_id = data.draw(st.sampled_from(sorted(notation.templates)))
    takes_thickness = "{code}" in notation.templates[finish_id]
    thickness = data.draw(written_thicknesses(notation)) if takes_thickness else None
    coat = (Layer(finish_id, thickness),)
    reading = read_back(Surface(None, coat, basis_family=notation.basis_family), notation.name)
    assert reading.match in RESOLVED
    basis = BASES.get(notation.basis_family)
    if basis is not None:
        read_back(Surface(basis, coat, temper=TEMPERS.get(basis, "")), notation.name)


def temper_of(material: Material) -> str:
    return material.temper if material.family == "wrought aluminium" else ""


@pytest.mark.parametrize("material_id", sorted(CATALOGUE.materials))
def test_every_material_is_read_back(material_id: str) -> None:
    read_back(Surface(material_id, temper=temper_of(CATALOGUE.materials[material_id])))


@settings(deadline=None)
@given(
    finish_id=st.sampled_from(sorted(set(CATALOGUE.finishes) - {"none-bare", PASSIVE})),
    thickness=st.one_of(st.none(), THICKNESSES),
    condition=st.sampled_from(Condition),
)
def test_every_finish_is_read_back(finish_id: str, thickness: float | None, condition: Condition) -> None:
    read_back(Surface("steel-s355", (Layer(finish_id, thickness),), condition))


STACKS = (
    ("au-hard-over-ni", "ni-matte-underplate"),
    ("au-soft", "ni-matte-underplate"),
    ("sn-over-ni", "ni-sulfamate"),
    ("ag-electro", "cu-plate"),
    ("rh-electro", "ni-matte-underplate"),
)
BEYOND_FLASH = THICKNESSES.filter(lambda thickness: thickness >= 0.5)
"""Thinner gold is a flash, whatever its hardness."""


@settings(deadline=None)
@given(pair=st.sampled_from(STACKS), thin=BEYOND_FLASH, thick=THICKNESSES)
def test_stacks_are_read_back(pair: tuple[str, str], thin: float, thick: float) -> None:
    layers = (Layer(pair[0], thin), Layer(pair[1], thick))
    read_back(Surface("cu-be2", layers), STACK)


@settings(max_examples=300, deadline=None)
@given(text=TEXTS)
def test_any_text_is_answered(text: str) -> None:
    reading = RESOLVER.resolve(text)
    assert reading.text == text
    check(reading)


@settings(deadline=None)
@given(material=TEXTS, finish=TEXTS)
def test_any_two_notes_are_answered(material: str, finish: str) -> None:
    check(RESOLVER.resolve_notes(material, finish))


def check(reading: Reading) -> None:
    """Whatever the text was, the answer is whole and points into it."""
    if reading.match is Match.UNKNOWN:
        assert not reading.candidates
        assert reading.reason
    elif reading.match is Match.AMBIGUOUS:
        assert reading.candidates
        assert reading.question
    else:
        assert len(reading.candidates) == 1
    for candidate in reading.candidates:
        assert 0.0 < candidate.confidence <= 1.0
        named = {layer.finish_id for layer in candidate.surface.layers}
        assert named <= set(CATALOGUE.finishes)
        assert candidate.surface.material_id in {None, *CATALOGUE.materials}
        for span in candidate.spans:
            assert 0 <= span.start < span.end <= len(reading.text)


@settings(deadline=None)
@given(text=TEXTS)
def test_offsets_lead_back_to_the_text(text: str) -> None:
    normalised = normalise(text)
    for position in range(len(normalised.text)):
        start, end = normalised.span(position, position + 1)
        assert 0 <= start < end <= len(text)


DESIGNATIONS = sorted(
    {
        row.text
        for row in CATALOGUE.designations
        if len(re.findall(r"\d", row.text)) >= 3 and len(row.text) > 4
    }
)


@settings(deadline=None)
@given(name=st.sampled_from(DESIGNATIONS), data=st.data())
def test_a_changed_figure_is_never_forgiven(name: str, data: st.DataObject) -> None:
    places = [place for place, sign in enumerate(name) if sign.isascii() and sign.isdigit()]
    place = data.draw(st.sampled_from(places))
    figure = data.draw(st.sampled_from([digit for digit in "0123456789" if digit != name[place]]))
    reading = RESOLVER.resolve(name[:place] + figure + name[place + 1 :])
    assert reading.match is not Match.FUZZY


@settings(deadline=None)
@given(texts=st.lists(TEXTS, max_size=8))
def test_a_batch_is_its_singles(texts: list[str]) -> None:
    assert RESOLVER.resolve_many(texts) == [RESOLVER.resolve(text) for text in texts]


@settings(deadline=None)
@given(text=st.lists(PIECES, min_size=1, max_size=8).map(" ".join), blanks=st.text(" \t", max_size=3))
def test_blanks_around_a_text_change_no_surface(text: str, blanks: str) -> None:
    bare, padded = RESOLVER.resolve(text.strip()), RESOLVER.resolve(blanks + text.strip() + blanks)
    assert [one.surface for one in bare.candidates] == [one.surface for one in padded.candidates]
