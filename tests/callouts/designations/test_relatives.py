from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("St37-2", "steel-s235 | bare"),
    ("C19400", "cu-fe2p | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("S350GD", "steel-dx51d | bare"),
    ("DX53D", "steel-dc04 | bare"),
    ("S460N", "steel-s235 | bare"),
    ("C35", "steel-1018 | bare"),
    ("42CrMoS4", "steel-4140 | bare"),
    ("51CrV4", "steel-spring | bare"),
    ("A283 Gr C", "steel-a36 | bare"),
    ("A193 B7", "steel-4140 | bare"),
    ("A193 B8M", "ss-316 | bare"),
    ("1.4567", "ss-304 | bare"),
    ("304Cu", "ss-304 | bare"),
    ("CW612N", "brass-cuzn39pb3 | bare"),
    ("Rg7", "bronze-gunmetal | bare"),
    ("CuSn10", "bronze-gunmetal | bare"),
    ("Cu-HCP", "cu-etp | bare"),
    ("C17410", "cu-be2 | bare"),
    ("SAC105", "solder-sac305 | bare"),
    ("AISI O1", "steel-tool-d2 | bare"),
    ("Nitronic 50", "ss-xm19 | bare"),
    ("1215", "steel-11smn30 | bare"),
    ("A653 CS Type B", "steel-1008 | zn-hdg-sheet"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("16MnCr5", "16MNCR5 is not in the catalogue"),
    ("1215 bar", "no material or finish recognised"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
