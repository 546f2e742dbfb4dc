from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement.exposed import (
    DEFECT_RADIUS_M,
    ExposedElectrode,
    Exposure,
    exposed_electrodes,
    insulating_finish,
    outer_electrode_id,
)
from tests.factories.couples import COPPER, coated
from tests.factories.knowledge import catalogue_of, small_package


def exposed(
    surface: Surface, catalogue: Catalogue, condition: Condition = Condition.INTACT
) -> tuple[ExposedElectrode, ...]:
    return exposed_electrodes(surface, catalogue, condition)


def test_a_bare_metal_shows_itself(catalogue: Catalogue) -> None:
    assert exposed(COPPER, catalogue) == (ExposedElectrode("copper", 1.0, Exposure.OUTER),)


def test_an_unknown_material_shows_nothing(catalogue: Catalogue) -> None:
    assert exposed(Surface("unobtainium"), catalogue) == ()
    assert outer_electrode_id(Surface(None), catalogue) is None


@pytest.mark.parametrize(
    ("family", "electrode"), [("carbon steel", "steel-carbon"), ("aluminium", "aluminium-6xxx")]
)
def test_a_basis_known_by_its_family_gets_the_electrode_of_that_family(
    family: str, electrode: str, catalogue: Catalogue
) -> None:
    assert outer_electrode_id(Surface(None, basis_family=family), catalogue) == electrode


@pytest.mark.parametrize("film", ["tcp-3", "ss-passivated", "none-bare"])
def test_films_are_looked_through(film: str, catalogue: Catalogue) -> None:
    assert outer_electrode_id(coated("al-6082-t6", film), catalogue) == "aluminium-6xxx"


def test_the_outermost_metal_counts(catalogue: Catalogue) -> None:
    surface = Surface("steel-s235", (Layer("powder-coat"), Layer("zn-plain", 8.0)))
    assert outer_electrode_id(surface, catalogue) == "zinc"


def test_a_closed_coat_hides_its_base(catalogue: Catalogue) -> None:
    (zinc,) = exposed(coated("steel-s235", "zn-plain", 8.0), catalogue)
    assert (zinc.electrode_id, zinc.area_fraction, zinc.thickness_um) == ("zinc", 1.0, 8.0)
    assert zinc.beneath_id == "steel-carbon"


def test_without_a_thickness_the_thinnest_of_the_finish_counts(catalogue: Catalogue) -> None:
    (zinc,) = exposed(coated("steel-s235", "zn-plain"), catalogue)
    assert zinc.thickness_um == catalogue.finishes["zn-plain"].thickness_min_um


def test_a_thin_noble_coat_has_pores_and_a_thick_one_has_none(catalogue: Catalogue) -> None:
    closed_from = catalogue.finishes["ni-electro"].pore_free_above_um or 0.0
    nickel, steel = exposed(coated("steel-s235", "ni-electro", closed_from - 1.0), catalogue)
    assert steel.exposure is Exposure.PORE
    assert steel.thickness_um is None
    assert nickel.area_fraction + steel.area_fraction == pytest.approx(1.0)
    assert len(exposed(coated("steel-s235", "ni-electro", closed_from), catalogue)) == 1


def test_a_worn_coat_shows_more_of_what_is_beneath_and_a_damaged_one_more_still(
    catalogue: Catalogue,
) -> None:
    coat = coated("steel-s235", "zn-plain", 8.0)
    worn, damaged = (
        exposed(coat, catalogue, condition)[1] for condition in (Condition.WORN, Condition.DAMAGED)
    )
    assert (worn.exposure, damaged.exposure) == (Exposure.WORN, Exposure.DAMAGE)
    assert 0.0 < worn.area_fraction < damaged.area_fraction < 1.0
    assert damaged.defect_radius_m == DEFECT_RADIUS_M[Condition.DAMAGED]


def test_under_gold_the_pores_show_its_nickel(catalogue: Catalogue) -> None:
    gold, nickel = exposed(coated("cu-etp", "au-hard-over-ni", 0.8), catalogue)
    assert (gold.electrode_id, nickel.electrode_id) == ("gold", "nickel")
    assert nickel.finish_id == catalogue.finishes["au-hard-over-ni"].underplate_id


def test_an_underplate_that_is_named_is_not_counted_twice(catalogue: Catalogue) -> None:
    underplate = catalogue.finishes["au-hard-over-ni"].underplate_id
    surface = Surface("cu-etp", (Layer("au-hard-over-ni", 0.8), Layer(underplate, 3.0)))
    assert [item.thickness_um for item in exposed(surface, catalogue)] == [0.8, 3.0]


def test_a_coat_of_the_base_metal_itself_has_nothing_beneath(catalogue: Catalogue) -> None:
    (nickel,) = exposed(coated("ni-200", "ni-electro", 5.0), catalogue)
    assert nickel.beneath_id == ""


@pytest.mark.parametrize("condition", Condition)
def test_paint_leaves_openings_only(condition: Condition, catalogue: Catalogue) -> None:
    (opening,) = exposed(coated("al-6082-t6", "powder-coat"), catalogue, condition)
    assert opening.electrode_id == "aluminium-6xxx"
    assert 0.0 < opening.area_fraction <= 0.01
    assert opening.defect_radius_m == DEFECT_RADIUS_M[condition]


def test_an_anodic_film_is_open_at_its_edges_even_when_sound(catalogue: Catalogue) -> None:
    film = coated("al-6082-t6", "anod-ii-clear")
    kinds = [exposed(film, catalogue, condition)[0].exposure for condition in Condition]
    assert kinds == [Exposure.EDGE, Exposure.PORE, Exposure.DAMAGE]


def test_metal_over_paint_would_conduct(catalogue: Catalogue) -> None:
    assert (
        insulating_finish(Surface("steel-s235", (Layer("zn-plain"), Layer("powder-coat"))), catalogue) is None
    )
    assert insulating_finish(coated("al-6082-t6", "tcp-3"), catalogue) is None
    paint = insulating_finish(coated("steel-s235", "powder-coat"), catalogue)
    assert paint is not None
    assert paint.id == "powder-coat"


def test_an_underplate_that_is_no_metal_adds_nothing() -> None:
    package = small_package()
    package["finishes"][1]["outer_electrode_id"] = "zinc"
    surface = Surface("s235", (Layer("gold-plate", 1.0),))
    assert [item.electrode_id for item in exposed(surface, catalogue_of(package), Condition.WORN)] == [
        "zinc",
        "steel",
    ]
