from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.chemistry.atmosphere import StandardMetal
from service.judgement.metals import metal_figures
from tests.factories.knowledge import catalogue_of, row, small_package


def test_iron_loses_what_the_standard_practice_says(catalogue: Catalogue) -> None:
    # ASTM G102: 1 uA/cm2 on iron is 0.0116 mm/y, so 1 A/m2 is 1.16 mm/y (from memory)
    steel = metal_figures(catalogue)["steel-carbon"]
    assert steel.um_per_year_per_A_per_m2 == pytest.approx(1160.0, rel=0.01)
    assert steel.standard_metal is StandardMetal.CARBON_STEEL


def test_an_inert_cathode_is_known_as_one(catalogue: Catalogue) -> None:
    metals = metal_figures(catalogue)
    assert metals["gold"].is_inert
    assert not metals["zinc"].is_inert


def test_magnesium_is_known_as_such(catalogue: Catalogue) -> None:
    magnesium = {key for key, figures in metal_figures(catalogue).items() if figures.is_magnesium}
    assert magnesium
    assert all(catalogue.electrodes[key].family == "magnesium" for key in magnesium)


def test_the_density_used_is_named(catalogue: Catalogue) -> None:
    measurement = catalogue.measurements[metal_figures(catalogue)["zinc"].density_measurement_id]
    assert measurement.quantity == "density"


def test_every_electrode_has_figures(catalogue: Catalogue) -> None:
    assert set(metal_figures(catalogue)) == set(catalogue.electrodes)


def test_a_metal_of_unknown_density_or_composition_has_no_penetration() -> None:
    package = small_package()
    assert metal_figures(catalogue_of(package))["steel"].um_per_year_per_A_per_m2 is None
    package["materials"][0]["composition"] = "Zn 99;Pb"
    assert metal_figures(catalogue_of(package))["zinc"].um_per_year_per_A_per_m2 is None
    package["measurements"].append(
        row("measurements", id="zinc-density", subject_kind="material", subject_id="zinc-sheet",
            quantity="density", value=7140.0)
    )  # fmt: skip
    known = metal_figures(catalogue_of(package))["zinc"]
    # ASTM G102: equivalent weight of zinc 32.69, so 1 A/m2 takes 1.50 mm/y (from memory)
    assert known.um_per_year_per_A_per_m2 == pytest.approx(1498.0, rel=0.01)
    assert known.density_measurement_id == "zinc-density"


def test_a_composition_that_does_not_dissolve_has_no_penetration() -> None:
    package = small_package()
    package["materials"][0]["composition"] = "Si 100"
    package["measurements"].append(
        row("measurements", id="zinc-density", subject_kind="material", subject_id="zinc-sheet",
            quantity="density", value=7140.0)
    )  # fmt: skip
    assert metal_figures(catalogue_of(package))["zinc"].um_per_year_per_A_per_m2 is None
