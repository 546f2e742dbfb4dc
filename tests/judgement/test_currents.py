from __future__ import annotations

import numpy as np

from service.chemistry.branches import Branches, stack
from service.judgement.currents import Currents, some_lanes

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


def test_solved_lanes_are_written_in_their_places() -> None:
    whole, part = Currents.unsolved(3, 2), Currents.unsolved(1, 2)
    for name in ("anodic", "peak", "cathodic", "reach"):
        getattr(part, name)[:] = 1.0
    part.potential[:], part.has_converged[:] = -0.5, False
    whole.put(np.array([1]), part)
    assert whole.reach[:, :, 0].tolist() == [[0.0, 1.0, 0.0]] * 2
    assert whole.potential[:, 0].tolist() == [0.0, -0.5, 0.0]
    assert whole.has_converged[:, 0].tolist() == [True, False, True]


def test_a_part_of_the_lanes_is_a_view_of_them() -> None:
    whole = Currents.unsolved(3, 2)
    part = whole.part(slice(1, 3))
    part.anodic[:], part.potential[:] = 2.0, -0.3
    assert whole.anodic[0, :, 0].tolist() == [0.0, 2.0, 2.0]
    assert whole.potential[:, 1].tolist() == [0.0, -0.3, -0.3]
    assert part.has_converged.shape == (2, 2)


def test_lanes_of_stacked_sides_lie_on_the_second_axis() -> None:
    part = some_lanes(stack([LANES, LANES]), np.array([1]), axis=1)
    assert np.asarray(part.limiting_current).tolist() == [[[0.5, 0.6]], [[0.5, 0.6]]]
    assert np.asarray(part.anodic_slope).tolist() == [0.06, 0.06]
