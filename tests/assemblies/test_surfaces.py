from __future__ import annotations

import pytest

from service.assemblies.parts import Part
from service.assemblies.surfaces import Surfaces
from service.callouts.reading import Match
from service.catalogue.surfaces import Layer, Surface


def test_a_part_that_names_its_surface_stays_as_it_is(surfaces: Surfaces) -> None:
    part = Part("A", material="A4-80", description="brass")
    assert surfaces.named(part) is part


@pytest.mark.parametrize(
    ("description", "text"),
    [
        ("SCREW, M4X10, A4-70", "SCREW, M4X10, A4-70"),
        ("Bracket, 6061-T6, clear anodize", "Bracket, 6061-T6, clear anodize"),
        ("LED Array", ""),
        ("Lead screw T8", ""),
        ("Lead screw", ""),
        ("3D Printed Head", ""),
        ("Gold plated pin header", ""),
        ("Fe//Zn8//A", "Fe//Zn8//A"),
        ("", ""),
    ],
)
def test_a_surface_is_read_from_the_description_but_never_guessed(
    surfaces: Surfaces, description: str, text: str
) -> None:
    part = surfaces.named(Part("A", description=description))
    assert part.text == text
    assert bool(part.assumptions) is bool(text)


def test_specification_and_remarks_are_searched_last(surfaces: Surfaces) -> None:
    part = surfaces.named(Part("A", description="Tubing", note="1mm ID / 2mm OD; Brass CuZn37 pipe"))
    assert "CuZn37" in part.text
    assert "in the specification" in part.assumptions[0]


def test_a_long_description_is_read_whole(surfaces: Surfaces) -> None:
    part = surfaces.named(Part("A", description="Qqxj wvvk | S355J2 | hot dip galvanized ISO 1461 | zzkq 77"))
    surface = surfaces.surface(part)
    assert surface is not None
    assert surface.material_id == "steel-s355"
    assert [layer.finish_id for layer in surface.layers] == ["zn-hdg"]


def test_a_misspelt_finish_on_a_known_metal_is_not_dropped(surfaces: Surfaces) -> None:
    surface = surfaces.surface(surfaces.named(Part("A", description="nikel plated, CW024A")))
    assert surface is not None
    assert surface.layers


def test_readings_are_kept(surfaces: Surfaces) -> None:
    reading = surfaces.reading(Part("A", text="A4-80"))
    assert reading is not None
    assert reading is surfaces.reading(Part("B", text="A4-80"))
    assert reading.match is not Match.UNKNOWN


def test_a_part_without_a_surface_has_no_reading(surfaces: Surfaces) -> None:
    assert surfaces.reading(Part("A")) is None
    assert surfaces.surface(Part("A")) is None
    assert surfaces.surface(Part("A", text="qqxj wvvk")) is None


def test_an_impossible_structure_has_no_reading(surfaces: Surfaces) -> None:
    assert surfaces.reading(Part("A", surface=Surface("unobtainium"))) is None
    assert surfaces.reading(Part("A", surface=Surface("ss-316", (Layer("none"),)))) is None


def test_insulators_are_known_by_their_material(surfaces: Surfaces) -> None:
    plastics = [name for name, material in surfaces.catalogue.materials.items() if not material.is_conductive]
    assert surfaces.is_insulator(Part("A", surface=Surface(plastics[0])))
    assert not surfaces.is_insulator(Part("A", text="A4-80"))
    assert not surfaces.is_insulator(Part("A"))


def test_a_text_that_names_only_a_plastic_is_an_insulator(surfaces: Surfaces) -> None:
    assert surfaces.is_insulator(Part("A", text="EPDM 70 Shore"))
    assert not surfaces.is_insulator(Part("A", text="qqxj wvvk"))


@pytest.mark.parametrize(
    "description",
    [
        "Nut for aluminium profile",
        "Lead screw T8 (includes brass nut)",
        "Enclosure-to-steel plate screws",
        "Alu-Extrusion T-nuts",
        "printed/steel_holder.stl",
        "stl",
        "Protected silver mirror",
        "Standoffs, in 5 mm copper keep-outs",
        "see CAD print settings",
        "Wheel, black chrome",
    ],
)
def test_what_a_part_is_for_says_nothing_of_the_part(surfaces: Surfaces, description: str) -> None:
    assert surfaces.named(Part("A", description=description)).text == ""


@pytest.mark.parametrize(
    ("description", "material"),
    [
        ("Clamp for hose and tube 316 stainless steel", "ss-316"),
        ("Screw for lid, stainless A4", "ss-316"),
        ("6061 hex shaft", "al-6061-t6"),
    ],
)
def test_the_metal_of_the_part_itself_is_kept(surfaces: Surfaces, description: str, material: str) -> None:
    found = surfaces.surface(surfaces.named(Part("A", description=description)))
    assert found is not None
    assert found.material_id == material


def test_the_number_of_a_standard_fastener_is_searched_last(surfaces: Surfaces) -> None:
    part = surfaces.named(Part("A", number="DIN 7985-4.8-H1-(A2K)-M2,5x4", description="Pan head screw"))
    found = surfaces.surface(part)
    assert found is not None
    assert [layer.finish_id for layer in found.layers] == ["zn-passivated-clear"]
    assert surfaces.named(Part("A", number="BRASS-17", description="Pan head screw")).text == ""


def test_a_plated_fastener_needs_no_word_for_steel(surfaces: Surfaces) -> None:
    assert surfaces.named(Part("A", description="Rondelle M6 zinguée")).text
    assert not surfaces.named(Part("A", description="Couvercle zingué")).text
    assert not surfaces.named(Part("A", description="M3 screw, black")).text
