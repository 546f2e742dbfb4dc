"""Small typed factories for the tests of remedies: an aluminium plate on copper by the sea by default."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Couple, Judgement, judge
from service.remedies.arrangement import Arrangement, Situation, as_it_is
from service.remedies.constraints import Constraints
from service.remedies.search import Question

SEA_FRONT = "marine-atmosphere-0-100-m"
ALUMINIUM = Surface("al-6082-t6")
COPPER = Surface("cu-etp")
STEEL = Surface("steel-s235")
STAINLESS = Surface("ss-316")


def coated(material_id: str, finish_id: str, thickness_um: float | None = None) -> Surface:
    return Surface(material_id, (Layer(finish_id, thickness_um),))


def couple_of(first: Surface = ALUMINIUM, second: Surface = COPPER, **changes: Any) -> Couple:
    return replace(Couple(first, second), **changes)


def place(catalogue: Catalogue, environment_id: str = SEA_FRONT, **changes: Any) -> Environment:
    return replace(catalogue.environments[environment_id], **changes)


def judged(catalogue: Catalogue, couple: Couple | None = None, environment_id: str = SEA_FRONT) -> Judgement:
    return judge([couple or couple_of()], catalogue.environments[environment_id], catalogue)[0]


def question(
    catalogue: Catalogue,
    couple: Couple | None = None,
    environment_id: str = SEA_FRONT,
    **constraints: Any,
) -> Question:
    return Question(
        couple or couple_of(),
        catalogue.environments[environment_id],
        Constraints(**constraints),
        catalogue,
        DEFAULT_POLICY,
    )


def situation(
    catalogue: Catalogue,
    couple: Couple | None = None,
    environment_id: str = SEA_FRONT,
    **constraints: Any,
) -> Situation:
    before = judged(catalogue, couple, environment_id)
    return Situation(before, Constraints(**constraints), catalogue, DEFAULT_POLICY)


def arrangement(given: Situation) -> Arrangement:
    return as_it_is(given.before)
