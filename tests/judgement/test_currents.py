from __future__ import annotations

import numpy as np

from service.chemistry.branches import Branches, stack
from service.judgement.currents import some_lanes

LANES = Branches(
    corrosion_potential=np.array([[-0.4], [-0.8], [0.1]]),
    corrosion_current=0.1,
    anodic_slope=0.06,
    cathodic_slope=np.array([[0.12]]),
    limiting_current=np.array([[0.3, 0.4], [0.5, 0.6], [0.7, 0.8]]),
)


def test_lanes_are_picked_and_what_they_share_is_left_alone() -> None:
    part = some_lanes(LANES, np.array([2, 0]), axis=0)
    assert np.asarray(part.corrosion_potential).tolist() == [[0.1], [-0.4]]
    assert np.asarray(part.limiting_current).tolist() == [[0.7, 0.8], [0.3, 0.4]]
    assert np.asarray(part.cathodic_slope).tolist() == [[0.12]]
    assert float(np.asarray(part.corrosion_current)) == 0.1


def test_lanes_of_stacked_sides_lie_on_the_second_axis() -> None:
    part = some_lanes(stack([LANES, LANES]), np.array([1]), axis=1)
    assert np.asarray(part.limiting_current).tolist() == [[[0.5, 0.6]], [[0.5, 0.6]]]
    assert np.asarray(part.anodic_slope).tolist() == [0.06, 0.06]
