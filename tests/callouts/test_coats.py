from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, outline, torn

ATTACHED = [
    # a thickness belongs to the coat that it leads or follows, as the text starts
    ("5 µm Ni, 0.1 µm Au", "() | au-flash-over-ni:0.1 / ni-matte-underplate:5"),
    ("Ni 5 µm, Au 0.1 µm", "() | au-flash-over-ni:0.1 / ni-matte-underplate:5"),
    ("Ni 5 µm, 0.1 µm Au", "() | au-flash-over-ni:0.1 / ni-matte-underplate:5"),
    ("5 µm Ni, Au 0.1 µm", "() | au-flash-over-ni:0.1 / ni-matte-underplate:5"),
    ("8 µm clear zinc", "() | zn-passivated-clear:8"),
    ("CW614N vernickelt 5-8 µm", "brass-cuzn39pb3 | ni-electro:5"),
    ("8.8, zinc plated clear 8 µm, length 20 mm", "steel-8-8 | zn-passivated-clear:8"),
]


@pytest.mark.parametrize(("text", "wanted"), ATTACHED)
def test_thicknesses_find_their_coats(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


def test_a_range_keeps_both_ends(resolver: Resolver) -> None:
    layer = resolver.resolve("CW614N vernickelt 5-8 µm").candidates[0].surface.layers[0]
    assert (layer.thickness_um, layer.thickness_max_um) == (5.0, 8.0)


def test_a_thickness_without_a_coat_is_let_go(resolver: Resolver) -> None:
    assert firm(resolver.resolve("S235JR 8 µm")) == "steel-s235 | bare"


def test_more_thicknesses_than_coats(resolver: Resolver) -> None:
    assert firm(resolver.resolve("CW614N Ni 5 µm 8 µm 10 µm")) == "brass-cuzn39pb3 | ni-electro:5"


BASES = [
    ("Copper, tin plated matte", "cu-etp | sn-matte"),
    ("matte tin plated copper", "cu-etp | sn-matte"),
    ("Sn matte over Cu", "cu-etp | sn-matte"),
    ("Zinc, chrome plated", "zn-pure | cr-decorative"),
]


@pytest.mark.parametrize(("text", "wanted"), BASES)
def test_a_bare_metal_word_may_name_the_part(text: str, wanted: str, resolver: Resolver) -> None:
    assert wanted in torn(resolver.resolve(text))


COATS = [
    ("Brass CW614N, nickel", "brass-cuzn39pb3 | ni-electro"),
    ("CW614N; finish: nickel", "brass-cuzn39pb3 | ni-electro"),
    ("CW614N plated with nickel", "brass-cuzn39pb3 | ni-electro"),
    ("CuBe2, copper strike, hard gold", "cu-be2 | au-hard-over-ni / cu-plate"),
    ("Nickel 200, nickel", "ni-200 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), COATS)
def test_a_metal_word_beside_a_material_is_its_coat(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


def test_gold_beside_an_anodic_film_is_a_colour(resolver: Resolver) -> None:
    assert firm(resolver.resolve("6061-T6 anodized gold")) == "al-6061-t6 | anod-ii-dyed"
    assert torn(resolver.resolve("8.8 zinc plated gold"))[0] == "steel-8-8 | zn-chromate-yellow"


def test_types_and_classes_go_to_the_document_before_them(resolver: Resolver) -> None:
    reading = resolver.resolve("MIL-DTL-5541 TYPE II CLASS 3, MIL-A-8625 TYPE III CLASS 1")
    assert set(torn(reading)) == {"(aluminium) | tcp-3", "(aluminium) | anod-iii-hard"}


def test_types_may_stand_before_the_only_document(resolver: Resolver) -> None:
    assert firm(resolver.resolve("TYPE III, CLASS 1 PER MIL-A-8625")) == "(aluminium) | anod-iii-hard"


def test_a_document_without_type_adds_nothing_to_a_named_coat(resolver: Resolver) -> None:
    assert firm(resolver.resolve("ISO 2081 Fe//Zn8//An//T0")) == "(carbon steel) | zn-passivated-clear:8"


@pytest.mark.parametrize("text", ["S235JR plated", "S235JR beschichtet", "S235JR, krypton plated"])
def test_a_process_without_a_coat_leaves_the_finish_open(text: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert torn(reading) == ["steel-s235 | bare"]
    assert any(part.startswith("finish:") for part in reading.candidates[0].missing)


def test_a_plate_is_a_shape_too(resolver: Resolver) -> None:
    assert firm(resolver.resolve("PLATE, S235JR")) == "steel-s235 | bare"


def test_the_text_orders_coats_itself(resolver: Resolver) -> None:
    candidate = resolver.resolve("nickel over hard gold, CuBe2").candidates[0]
    assert outline(candidate) == "cu-be2 | ni-electro / au-hard-over-ni"
