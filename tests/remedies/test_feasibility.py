from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.remedies.feasibility import (
    FeasibleSurface,
    feasible_surfaces,
    is_usual_class,
    substrate_family,
    thickness_classes_um,
)
from tests.factories.remedies import coated


def finishes(base: Surface, catalogue: Catalogue) -> dict[str, list[FeasibleSurface]]:
    found: dict[str, list[FeasibleSurface]] = {}
    for option in feasible_surfaces(base, catalogue):
        found.setdefault(option.finish.id if option.finish else "", []).append(option)
    return found


@pytest.mark.parametrize(
    ("surface", "family"),
    [
        (Surface("steel-s235"), "carbon steel"),
        (Surface("steel-10-9"), "hardened steel"),
        (Surface("steel-s235", strength_class="10.9"), "hardened steel"),
        (Surface("steel-10-9", strength_class="8.8"), "low-alloy steel"),
        (Surface("ss-17-4ph"), "stainless steel"),
        (Surface(None, basis_family="carbon steel", strength_class="12.9"), "hardened steel"),
        (Surface(None, basis_family="copper"), "copper"),
        (Surface(None), ""),
    ],
)
def test_the_family_under_which_finishes_are_listed(
    surface: Surface, family: str, catalogue: Catalogue
) -> None:
    assert substrate_family(surface, catalogue) == family


def test_the_bare_metal_is_an_option_without_a_coat(catalogue: Catalogue) -> None:
    (bare,) = finishes(coated("cu-etp", "sn-matte", 5.0), catalogue)[""]
    assert bare.surface == Surface("cu-etp")
    assert bare.coats == ()


def test_what_the_catalogue_denies_or_does_not_know_is_no_option(catalogue: Catalogue) -> None:
    titanium = finishes(Surface("ti-gr2"), catalogue)
    assert "cd-clear" not in titanium
    assert "zn-hdg" not in titanium
    assert "anod-iii-hard" not in finishes(Surface("steel-s235"), catalogue)
    assert finishes(Surface(None), catalogue) == {}


def test_a_metal_comes_in_the_classes_of_its_standard_and_a_film_in_one(catalogue: Catalogue) -> None:
    options = finishes(Surface("steel-s235"), catalogue)
    assert [option.surface.layers[0].thickness_um for option in options["zn-plain"]] == [5.0, 8.0, 25.0]
    assert [is_usual_class(option) for option in options["zn-plain"]] == [False, True, False]
    assert len(options["powder-coat"]) == 1
    assert is_usual_class(options["powder-coat"][0])
    assert is_usual_class(options[""][0])


def test_a_finish_without_any_thickness_has_none(catalogue: Catalogue) -> None:
    assert thickness_classes_um(catalogue.finishes["ss-passivated"]) == (None,)


def test_underplates_lie_beneath_at_their_usual_thickness(catalogue: Catalogue) -> None:
    gold = finishes(Surface("cu-etp"), catalogue)["au-hard-over-ni"][0]
    assert gold.surface.layers[1] == Layer("ni-matte-underplate", 2.5)
    assert [coat.id for coat in gold.coats] == ["au-hard-over-ni", "ni-matte-underplate"]


def test_an_underplate_brings_its_own(catalogue: Catalogue) -> None:
    chromium = finishes(Surface("zn-zamak3"), catalogue)["cr-decorative"][0]
    assert [layer.finish_id for layer in chromium.surface.layers] == [
        "cr-decorative",
        "ni-duplex",
        "cu-plate",
    ]


def test_a_coat_that_asks_for_itself_is_struck_once(catalogue: Catalogue) -> None:
    nickel = finishes(Surface("ss-316"), catalogue)["ni-sulfamate"][0]
    assert [layer.finish_id for layer in nickel.surface.layers] == ["ni-sulfamate"]


def test_conditions_of_the_process_become_requirements(catalogue: Catalogue) -> None:
    zinc = finishes(Surface("steel-10-9"), catalogue)["zn-plain"][0]
    assert [requirement.code for requirement in zinc.requirements] == ["process-on-substrate"]
    assert "bake" in zinc.requirements[0].action
    ivd = finishes(Surface("ti-gr2"), catalogue)["ivd-al"][0]
    assert "confirm-substances" in [requirement.code for requirement in ivd.requirements]
    sheet = finishes(Surface("steel-s235"), catalogue)["zn-hdg-sheet"][0]
    assert "coated-strip" in [requirement.code for requirement in sheet.requirements]
    assert finishes(Surface("steel-s235"), catalogue)["zn-plain"][0].requirements == ()


def test_what_is_worn_is_made_new(catalogue: Catalogue) -> None:
    worn = Surface("cu-etp", (Layer("sn-matte", 5.0),), Condition.WORN)
    assert {option.surface.condition for option in feasible_surfaces(worn, catalogue)} == {Condition.INTACT}
