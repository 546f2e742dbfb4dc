"""Lanes that were solved before are not solved again, and nothing else changes."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from service.catalogue.catalogue import Catalogue
from service.judgement import Couple
from service.judgement.attack import attack_of, forget_lanes
from service.judgement.lane_memory import LaneMemory
from service.judgement.lanes import lanes_of, pairings_of
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, STAINLESS, STEEL

FIGURES = ("galvanic_density", "peak_density", "unchoked_density", "potential", "reach", "is_solved")


def solver(keys: list[bytes], asked: list[bytes]) -> Callable[[list[int]], list[bytes]]:
    """Solve by turning keys into capitals, and note which are asked for."""

    def solve(places: list[int]) -> list[bytes]:
        asked.extend(keys[place] for place in places)
        return [keys[place].upper() for place in places]

    return solve


def asked_for(memory: LaneMemory[bytes], *keys: bytes) -> list[bytes]:
    """Keys that the memory does not know; every answer must be the right one."""
    asked: list[bytes] = []
    assert memory.each(keys, solver(list(keys), asked)) == [key.upper() for key in keys]
    return asked


def test_only_what_is_not_remembered_is_solved() -> None:
    memory: LaneMemory[bytes] = LaneMemory()
    assert asked_for(memory, b"a", b"b") == [b"a", b"b"]
    assert asked_for(memory, b"c", b"b", b"d") == [b"c", b"d"]
    assert asked_for(memory, b"d", b"a") == []


def test_the_oldest_lanes_are_forgotten() -> None:
    memory: LaneMemory[bytes] = LaneMemory(most=2)
    asked_for(memory, b"a", b"b")
    asked_for(memory, b"c")
    assert asked_for(memory, b"b", b"c") == []
    assert asked_for(memory, b"a") == [b"a"]


def test_more_lanes_than_are_remembered_are_all_solved() -> None:
    memory: LaneMemory[bytes] = LaneMemory(most=1)
    assert asked_for(memory, b"a", b"b", b"c") == [b"a", b"b", b"c"]
    assert asked_for(memory, b"c") == []


def test_remembered_lanes_attack_to_the_last_bit_as_solved_ones(catalogue: Catalogue) -> None:
    couples = [Couple(ALUMINIUM, COPPER), Couple(STEEL, STAINLESS), Couple(ALUMINIUM, STEEL)]
    for place in (COAST, SEA):
        environment = catalogue.environments[place]
        lanes = lanes_of(pairings_of(couples, environment, catalogue)[0], catalogue)
        forget_lanes()
        fresh = attack_of(lanes, environment, catalogue)
        attack_of(lanes.narrowed(np.array([1])), environment, catalogue)
        remembered = attack_of(lanes, environment, catalogue)
        assert remembered.wet_share == fresh.wet_share
        for name in (
            "galvanic_density",
            "peak_density",
            "unchoked_density",
            "potential",
            "reach",
            "is_solved",
        ):
            np.testing.assert_array_equal(getattr(remembered, name), getattr(fresh, name))
