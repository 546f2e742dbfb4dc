"""Kinds of work are found by name."""

from __future__ import annotations

import pytest

from service.jobs.errors import UnknownKindError
from service.jobs.kinds import Outcome, kind_named, nothing
from tests.factories.work import Shouting


def test_a_kind_is_found_by_its_name() -> None:
    kind = Shouting()
    assert kind_named({"shouting": kind}, "shouting") is kind
    with pytest.raises(UnknownKindError) as raised:
        kind_named({"shouting": kind}, "whispering")
    assert raised.value.known == ("shouting",)


def test_an_outcome_writes_nothing_unless_told() -> None:
    assert Outcome(b"").effect is nothing
