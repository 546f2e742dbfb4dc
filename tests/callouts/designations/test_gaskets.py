from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Ag/Al silicone gasket", "emi-ag-al-si | bare"),
        ("EMI gasket, Ag-Cu filled silicone", "emi-ag-cu-si | bare"),
        ("gasket Ni/graphite silicone elastomer", "emi-ni-c-si | bare"),
        ("Ag/glass silicone", "emi-ag-glass-si | bare"),
        ("monel knitted wire mesh", "emi-monel-mesh | bare"),
        ("Sn/Cu/Fe mesh gasket", "emi-sncufe-mesh | bare"),
        ("aluminium mesh", "emi-al-mesh | bare"),
    ],
)
def test_a_conductive_gasket_is_read(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


def test_metallised_fabric_is_the_part_and_its_metal_a_coat(resolver: Resolver) -> None:
    (line,) = torn(resolver.resolve("EMI gasket fabric over foam"))
    assert line == "emi-fabric-foam | bare"


def test_the_same_letters_without_an_elastomer_are_a_plating(resolver: Resolver) -> None:
    reading = resolver.resolve("CuBe2, Ag/Cu plated")
    assert all(c.surface.material_id == "cu-be2" for c in reading.candidates)


def test_a_plain_rubber_is_no_conductor(resolver: Resolver) -> None:
    reading = resolver.resolve("silicone gasket")
    assert reading.match is Match.UNKNOWN
    assert "not a metal" in reading.reason
