"""What Prometheus is told of how things stand; most of it is checked beside the metrics themselves."""

from __future__ import annotations

import pytest

from service.web.gauges import Gauges
from tests.factories.http import Running

pytestmark = pytest.mark.anyio


async def test_nothing_waits_where_nothing_was_asked(started: Running) -> None:
    families = Gauges(started.services).collect()
    found = {sample.name: sample.value for family in families for sample in family.samples}
    assert found["faying_questions_waiting"] == found["faying_answers_unwritten"] == 0
    assert found["faying_ready"] == found["faying_release_info"] == 1


async def test_registering_asks_for_nothing(started: Running) -> None:
    assert list(Gauges(started.services).describe()) == []
