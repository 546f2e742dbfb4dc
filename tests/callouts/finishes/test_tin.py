from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("matte tin", "() | sn-matte"),
    ("bright tin plated", "() | sn-bright"),
    ("satin tin plated", "() | sn-matte"),
    ("reflowed tin", "() | sn-reflow"),
    ("tin plated over nickel", "() | sn-over-ni / ni-sulfamate"),
    ("6061-T6 tin plated", "al-6061-t6 | sn-over-cu-al"),
    ("hot dipped tin", "() | sn-hotdip"),
    ("immersion tin", "(copper) | imm-sn"),
    ("ASTM B545 CL C BRIGHT", "() | sn-bright:8"),
    ("MIL-T-10727 TY II", "() | sn-hotdip"),
    ("AMS 2408 bright", "() | sn-bright"),
    ("ASTM B33", "(copper) | lead-free-hotdip-sn"),
    ("EN 13148", "() | sn-hotdip"),
    ("ASTM B579", "() | snpb-plate"),
    ("ASTM B605", "() | sn-ni-plate"),
    ("ASTM B200", "() | pb-plate"),
    ("tinplate", "(carbon steel) | sn-reflow:0.4"),
    ("tin lead plated", "() | snpb-plate"),
    ("SnCu plated", "() | sn-cu-plate"),
    ("tin silver plated", "() | sn-ag-plate"),
    ("tin bismuth plated", "() | sn-bi-plate"),
    ("tin nickel alloy", "() | sn-ni-plate"),
    ("lead plated", "() | pb-plate"),
    ("indium plated", "() | in-plate"),
    ("white bronze", "() | bronze-white"),
    ("verkupfert", "() | cu-plate"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("tin plated", "() | sn-matte"),
    ("tinned copper wire", "cu-etp | lead-free-hotdip-sn"),
    ("ASTM B545 CL A", "() | sn-matte:2.5"),
    ("ISO 2093", "() | sn-matte"),
    ("MIL-T-10727 TY I", "() | sn-matte"),
    ("brass plated steel", "steel-s235 | brass-plate"),
    ("verzinnt", "() | sn-matte"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
