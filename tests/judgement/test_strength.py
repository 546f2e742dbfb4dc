from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement.couples import Couple
from service.judgement.facts import side_facts
from service.judgement.findings import Witness
from service.judgement.judge import judge
from service.judgement.strength import strength_MPa
from tests.factories.couples import COAST


@pytest.mark.parametrize(
    ("stated", "expected"),
    [("10.9", 1040.0), ("12.9", 1220.0), ("SAE grade 8", 1040.0), ("A2-70", 700.0), ("C1-110", 1100.0)],
)
def test_a_stated_class_outranks_the_alloy(stated: str, expected: float, catalogue: Catalogue) -> None:
    steel = catalogue.materials["steel-s235"]
    assert strength_MPa(Surface("steel-s235", strength_class=stated), steel) == expected


def test_without_a_known_class_the_alloy_counts(catalogue: Catalogue) -> None:
    steel = catalogue.materials["steel-s235"]
    for stated in ("", "45H"):
        assert strength_MPa(Surface("steel-s235", strength_class=stated), steel) == steel.strength_MPa
    assert strength_MPa(Surface(None), None) is None


def test_a_zinc_plated_bolt_of_class_12_9_is_warned_of_hydrogen(catalogue: Catalogue) -> None:
    coat = (Layer("zn-passivated-clear", 8.0),)
    aluminium = Surface("al-6082-t6")
    said = {}
    for stated in ("", "12.9"):
        bolt = Surface("steel-s235", coat, strength_class=stated)
        assert (side_facts(bolt, catalogue)["strength_MPa"] or 0.0) > 1000.0 or not stated
        judged = judge([Couple(aluminium, bolt)], catalogue.environments[COAST], catalogue)[0]
        said[stated] = {row_id for _, row_id in judged.findings[Witness.HAZARDS].evidence}
    assert "hazard-he-plating" in said["12.9"]
    assert "hazard-he-plating" not in said[""]
