from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement.surface_names import surface_name
from tests.factories.couples import COPPER, coated


def test_a_bare_surface_is_called_by_its_material(catalogue: Catalogue) -> None:
    assert surface_name(COPPER, catalogue) == catalogue.materials["cu-etp"].name


def test_a_coat_comes_with_its_thickness(catalogue: Catalogue) -> None:
    finish = catalogue.finishes["zn-plain"].name
    assert surface_name(coated("steel-s235", "zn-plain", 8.0), catalogue).endswith(f" with {finish} 8 um")
    assert surface_name(coated("steel-s235", "zn-plain"), catalogue).endswith(f" with {finish}")


def test_coats_are_named_from_the_outside_in(catalogue: Catalogue) -> None:
    surface = Surface("cu-etp", (Layer("sn-matte", 5.0), Layer("ni-electro", 2.0)))
    outer, inner = catalogue.finishes["sn-matte"].name, catalogue.finishes["ni-electro"].name
    assert f"{outer} 5 um over {inner} 2 um" in surface_name(surface, catalogue)


def test_a_material_that_is_left_open_is_called_by_its_family(catalogue: Catalogue) -> None:
    assert surface_name(Surface(None, basis_family="carbon steel"), catalogue) == "carbon steel"
    assert surface_name(Surface(None), catalogue) == "an open basis material"
