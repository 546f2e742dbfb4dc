from __future__ import annotations

from service.assemblies.parts import Part
from service.catalogue.surfaces import Surface
from service.judgement import Side


def test_notes_kept_apart_stay_apart() -> None:
    part = Part("A", material="EN AW-6082-T6", finish="anodized 15 µm", thickness_um=20.0)
    assert part.side == Side(material="EN AW-6082-T6", finish="anodized 15 µm", thickness_um=20.0)


def test_a_part_names_its_surface_in_any_way() -> None:
    assert Part("A", text="A4-80").names_surface
    assert Part("A", finish="zinc").names_surface
    assert Part("A", surface=Surface("ss-316")).names_surface
    assert not Part("A", description="A4-80", text=" ").names_surface


def test_a_part_is_called_by_number_revision_and_name() -> None:
    assert Part("row 3", "SK-1", "Plate", revision="B").label == "SK-1 rev B, Plate"
    assert Part("row 3").label == "row 3"


def test_rules_look_at_all_words() -> None:
    assert Part("A", description="Screw", text="A4-80", note="M4x10").words == "Screw A4-80 M4x10"
