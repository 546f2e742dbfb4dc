"""The functions whose root is a mixed potential."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.anchoring import Anchored, anchor
from service.chemistry.arrays import FloatArray
from service.chemistry.balance import Balance, ResistiveBalance
from service.chemistry.branches import flattened, stack
from tests.factories.random_joints import STEEL, ZINC, random_branches

RNG = np.random.default_rng(2)
LANES = 50
ELECTRODES: Anchored = anchor(
    flattened(
        stack([random_branches(RNG, LANES, -1.0, -0.3), random_branches(RNG, LANES, -0.3, 0.4)]), 2, (LANES,)
    )
)
AREAS: FloatArray = RNG.uniform(0.1, 10.0, (2, LANES))
MIDDLE: FloatArray = ELECTRODES.corrosion_potential.mean(axis=0)


@pytest.mark.parametrize("resistance", [None, 1e-3, 10.0, 1e5])
def test_the_derivative_is_that_of_the_value(resistance: float | None) -> None:
    def value(x: FloatArray) -> FloatArray:
        return balance().evaluate(x)[0]

    def balance() -> Balance | ResistiveBalance:
        if resistance is None:
            return Balance(ELECTRODES.scaled(AREAS))
        return ResistiveBalance(ELECTRODES, AREAS, np.full((2, 1), resistance))

    _, slope = balance().evaluate(MIDDLE)
    assert (slope > 0.0).all()
    step = 1e-5
    assert (value(MIDDLE + step) - value(MIDDLE - step)) / (2.0 * step) == pytest.approx(slope, rel=2e-3)


def test_narrowing_keeps_the_lanes_asked_for() -> None:
    keep = np.array([3, 40])
    for balance in (
        Balance(ELECTRODES.scaled(AREAS)),
        ResistiveBalance(ELECTRODES, AREAS, np.full((2, LANES), 5.0)),
    ):
        whole = balance.evaluate(MIDDLE)[0]
        part = balance.narrowed(keep).evaluate(MIDDLE[keep])[0]
        assert part == pytest.approx(whole[keep], rel=1e-9)


def test_narrowing_before_the_first_evaluation_has_nothing_to_carry() -> None:
    fresh = ResistiveBalance(ELECTRODES, AREAS, np.full((2, LANES), 5.0)).narrowed(np.array([1]))
    assert fresh.logit is None


def test_net_currents_add_up_to_nothing_however_far_from_the_root() -> None:
    pair = anchor(flattened(stack([ZINC, STEEL]), 2, (1,)))
    currents = Balance(pair.scaled(np.array([[1e-12], [1e6]]))).currents(np.array([-0.4000001]))
    assert currents.net.sum() == 0.0
    assert currents.net[0, 0] == pytest.approx((currents.anodic - currents.cathodic)[0, 0])
