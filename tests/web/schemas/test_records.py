"""A record has the same fields in the catalogue and in the API: one vocabulary."""

from __future__ import annotations

from dataclasses import fields

import pytest

from service.catalogue.records import Designation as DesignationRecord
from service.catalogue.records import FinishSubstrate as FinishSubstrateRecord
from service.catalogue.tables import TABLES
from service.web.routes.catalogue import LISTED, Listed
from service.web.schemas.finishes import FinishSubstrate
from service.web.schemas.materials import Designation

PARTS = {"materials": {"designations"}, "finishes": {"substrates"}}


@pytest.mark.parametrize("listed", LISTED, ids=lambda listed: listed.path)
def test_fields_of_records_are_fields_of_models(listed: Listed) -> None:
    expected = {field.name for field in fields(TABLES[listed.table])} | PARTS.get(listed.table, set())
    assert set(listed.record.model_fields) == expected


@pytest.mark.parametrize("listed", LISTED, ids=lambda listed: listed.path)
def test_filters_are_fields_of_the_record(listed: Listed) -> None:
    filters = set(listed.query.model_fields) - {"q", "as_of", "limit", "cursor"}
    assert filters <= set(listed.record.model_fields)
    assert "items" in listed.page.model_fields


def test_parts_of_records_leave_out_what_they_belong_to() -> None:
    assert set(Designation.model_fields) == {field.name for field in fields(DesignationRecord)} - {
        "material_id"
    }
    assert set(FinishSubstrate.model_fields) == {field.name for field in fields(FinishSubstrateRecord)} - {
        "finish_id"
    }
