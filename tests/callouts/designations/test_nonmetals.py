from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import torn

TORN = [
    ("ABS, chrome plated", "() | cr-decorative"),
    ("brass insert, nylon", "brass-cuzn37 | bare"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("PA6-GF30", "PA6-GF30: not a metal or another conductor"),
    ("PA 66", "PA 66: not a metal or another conductor"),
    ("FR4", "FR4: not a metal or another conductor"),
    ("nylon", "plastic: not a metal or another conductor"),
    ("NBR 70", "rubber: not a metal or another conductor"),
    ("glass", "ceramic or glass: not a metal or another conductor"),
    ("wood", "wood, paper or textile: not a metal or another conductor"),
    ("PTFE", "plastic: not a metal or another conductor"),
    ("PEEK", "PEEK: not a metal or another conductor"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason


@pytest.mark.parametrize("text", ["PETG", "EPDM", "PMMA", "glass", "wood", "PVC insulated wire"])
def test_what_does_not_conduct_is_told_from_what_is_not_understood(text: str, resolver: Resolver) -> None:
    assert resolver.resolve(text).is_insulator


@pytest.mark.parametrize("text", ["antistatic ABS", "carbon-filled nylon", "metallised PET", "qqxj wvvk"])
def test_a_plastic_that_may_conduct_stays_open(text: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert not reading.is_insulator
