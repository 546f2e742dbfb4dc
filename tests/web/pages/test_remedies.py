from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import pytest

from service.judgement import Inquiry, Side
from service.remedies import UnreadableSurfaceError
from service.web.pages.remedies import alternatives, mitigations
from tests.seed_catalogue import seed_catalogue

COUPLE = Inquiry(Side(text="EN AW-6082-T6"), Side(text="A4-80"), "marine-atmosphere-0-100-m")
FEW = ("anod-ii-clear", "ivd-al")
"""Finishes that are searched here: all of them take several seconds."""


def test_other_finishes_lead_to_answers_of_their_own() -> None:
    whole = seed_catalogue()
    catalogue = replace(whole, finishes=MappingProxyType({name: whole.finishes[name] for name in FEW}))
    table = alternatives(COUPLE, catalogue, lambda first, second: f"{first}|{second}")
    assert table["rows"]
    for place, row in enumerate(table["rows"], start=1):
        assert row["rank"] == place
        assert row["verdict"] in {"suitable", "conditional"}
        assert "6082" in row["address"].split("|")[0]


def test_a_side_that_keeps_its_material_is_told_by_its_coats() -> None:
    whole = seed_catalogue()
    catalogue = replace(whole, finishes=MappingProxyType({name: whole.finishes[name] for name in FEW}))
    rows = alternatives(COUPLE, catalogue, lambda first, second: f"{first}|{second}")["rows"]
    assert all(row["name"].startswith(("First side: ", "Second side: ")) for row in rows)
    assert not any("6082" in row["name"] for row in rows if row["surfaces"] == "the second side stays")


def test_measures_are_shown_before_and_after() -> None:
    table = mitigations(COUPLE, seed_catalogue())
    assert table["before"]["verdict"] in {"unsuitable", "conditional"}
    assert table["rows"][0]["rank"] == 1
    assert all(row["name"] and row["verdict"] for row in table["rows"])
    assert any(text.startswith("Caution: ") for row in table["rows"] for text in row["conditions"])


def test_a_surface_that_is_not_known_has_no_measures() -> None:
    with pytest.raises(UnreadableSurfaceError):
        mitigations(replace(COUPLE, first=Side(text="no such metal")), seed_catalogue())
