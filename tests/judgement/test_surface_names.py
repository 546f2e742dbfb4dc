from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement.surface_names import capitalised, in_sentence, short_names, surface_name
from tests.factories.couples import COPPER, coated


def test_a_bare_surface_is_called_by_its_material(catalogue: Catalogue) -> None:
    assert surface_name(COPPER, catalogue) == catalogue.materials["cu-etp"].name


def test_a_coat_comes_with_its_thickness(catalogue: Catalogue) -> None:
    finish = in_sentence(catalogue.finishes["zn-plain"].name)
    assert surface_name(coated("steel-s235", "zn-plain", 8.0), catalogue).endswith(f" with 8 µm {finish}")
    assert surface_name(coated("steel-s235", "zn-plain"), catalogue).endswith(f" with {finish}")


def test_coats_are_named_from_the_outside_in(catalogue: Catalogue) -> None:
    surface = Surface("cu-etp", (Layer("sn-matte", 5.0), Layer("ni-electro", 2.0)))
    outer, inner = (in_sentence(catalogue.finishes[name].name) for name in ("sn-matte", "ni-electro"))
    assert f" with 5 µm {outer} over 2 µm {inner}" in surface_name(surface, catalogue)


def test_a_material_that_is_left_open_is_called_by_its_family(catalogue: Catalogue) -> None:
    assert surface_name(Surface(None, basis_family="carbon steel"), catalogue) == "Carbon steel"
    assert surface_name(Surface(None), catalogue) == "An unstated material"
    gilded = Surface(None, (Layer("au-soft", None),))
    assert surface_name(gilded, catalogue).endswith(" on an unstated base")


def test_a_short_name_is_the_material_as_it_stands_in_a_sentence(catalogue: Catalogue) -> None:
    tinned = coated("steel-s235", "sn-matte", 5.0)
    assert short_names(COPPER, tinned, catalogue) == ("copper", "structural steel S235JR")


def test_sides_of_one_material_are_told_apart_by_their_place(catalogue: Catalogue) -> None:
    assert short_names(COPPER, coated("cu-etp", "sn-matte"), catalogue) == (
        "the first side",
        "the second side",
    )


def test_a_short_name_without_material_is_its_family_or_its_coat(catalogue: Catalogue) -> None:
    family, coat = Surface(None, basis_family="carbon steel"), Surface(None, (Layer("sn-matte", None),))
    assert short_names(family, coat, catalogue) == ("carbon steel", "tin plate")
    assert short_names(Surface(None), COPPER, catalogue)[0] == "an unstated material"


@pytest.mark.parametrize(
    ("name", "inside"),
    [
        ("Stainless steel 316", "stainless steel 316"),
        ("Copper, annealed", "copper, annealed"),
        ("Carbon-fibre laminate", "carbon-fibre laminate"),
        ("PVDF coat", "PVDF coat"),
        ("Muntz metal", "Muntz metal"),
        ("55 % aluminium-zinc", "55 % aluminium-zinc"),
    ],
)
def test_abbreviations_and_proper_names_keep_their_capitals(name: str, inside: str) -> None:
    assert in_sentence(name) == inside


def test_a_sentence_begins_with_a_capital() -> None:
    assert capitalised("zinc loses") == "Zinc loses"
