"""The words of the API are those of the rooms behind it."""

from __future__ import annotations

import re
import typing

from service.catalogue.tables import TABLES
from service.curation import Decision, Kind, State
from service.storage.releases import LABEL as STORED_LABEL
from service.web.schemas.proposals import KindWord, ReviewRequest, StateWord, TableName
from service.web.schemas.releases import LABEL


def test_closed_sets_are_the_same() -> None:
    assert set(typing.get_args(TableName)) == set(TABLES)
    assert set(typing.get_args(KindWord)) == set(Kind)
    assert set(typing.get_args(StateWord)) == set(State)
    assert set(typing.get_args(ReviewRequest.model_fields["decision"].annotation)) == set(Decision)


def test_a_label_is_what_storage_takes_for_one() -> None:
    assert f"^{STORED_LABEL.pattern}$" == LABEL
    assert re.match(LABEL, "2026.11.25-1")
