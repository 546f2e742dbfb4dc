from __future__ import annotations

import pytest

from service.callouts.formatting import NOTATIONS, PLAIN, STACK, format_surface, notations_of
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface

GALVANIZED = Surface("steel-8-8", (Layer("zn-passivated-clear", 8.0),), strength_class="8.8")


@pytest.mark.parametrize(
    ("surface", "notation", "text"),
    [
        (
            Surface("al-6082-t6", (Layer("anod-iii-hard", 50.0),), temper="T6"),
            PLAIN,
            "EN AW-6082-T6; Hard anodise 50 µm",
        ),
        (
            Surface("steel-8-8", (Layer("zn-hdg"),)),
            PLAIN,
            "Fastener steel, property class 8.8; Hot-dip galvanized zinc, batch",
        ),
        (Surface("ss-304"), PLAIN, "1.4301; bare"),
        (Surface("cu-etp", temper="R290"), PLAIN, "CW004A R290; bare"),
        (GALVANIZED, "ISO 2081 and 19598", "8.8; Fe//Zn8//An//T0"),
        (GALVANIZED, "ASTM B633", "8.8; ASTM B633 Type III SC2"),
        (GALVANIZED, "ISO 4042 legacy code", "8.8; ISO 4042/A3K"),
        (
            Surface("cu-be2", (Layer("au-hard-over-ni", 0.76), Layer("ni-matte-underplate", 1.3, 2.0))),
            STACK,
            "CW101C; hard Au 0.76 µm over Ni 1.3-2 µm",
        ),
        (
            Surface("ss-304", (Layer("ss-passivated"),), Condition.WORN),
            "ASTM A967",
            "1.4301; ASTM A967; worn",
        ),
        (
            Surface(None, (Layer("zn-hdg-sheet", 19.3),), basis_family="carbon steel"),
            "EN 10346 coating mass",
            "+Z275",
        ),
    ],
)
def test_a_surface_is_written(surface: Surface, notation: str, text: str, catalogue: Catalogue) -> None:
    assert format_surface(surface, catalogue, notation) == text


@pytest.mark.parametrize(
    ("surface", "notation"),
    [
        (Surface("steel-8-8", (Layer("zn-hdg", 8.0),)), "ASTM B633"),
        (Surface("steel-8-8", (Layer("zn-passivated-clear", 9.0),)), "ASTM B633"),
        (Surface("steel-8-8", (Layer("zn-passivated-clear"),)), "ASTM B633"),
        (Surface("steel-8-8", (Layer("ss-passivated", 1.0),)), "ASTM A967"),
        (Surface("steel-8-8"), "ASTM B633"),
        (Surface(None, (Layer("zn-passivated-clear", 8.0),)), "ASTM B633"),
        (Surface("steel-8-8", (Layer("zn-hdg", 8.0),)), STACK),
        (Surface("steel-8-8"), STACK),
    ],
)
def test_a_notation_is_silent_on_what_it_cannot_say(
    surface: Surface, notation: str, catalogue: Catalogue
) -> None:
    assert format_surface(surface, catalogue, notation) is None


def test_all_notations_that_can_say_a_surface(catalogue: Catalogue) -> None:
    assert set(notations_of(GALVANIZED, catalogue)) == {
        PLAIN,
        "ISO 2081 and 19598",
        "ISO 4042 legacy code",
        "ASTM B633",
    }


def test_every_notation_speaks_of_finishes_of_the_catalogue(catalogue: Catalogue) -> None:
    named = {finish_id for notation in NOTATIONS for finish_id in notation.templates}
    assert named <= set(catalogue.finishes)


def test_a_material_without_designations_goes_by_its_name(catalogue: Catalogue) -> None:
    assert format_surface(Surface("ferrite"), catalogue) == "Soft ferrite; bare"
