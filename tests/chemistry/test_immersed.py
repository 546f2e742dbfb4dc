"""Immersed couples: even or local, and their resistances."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.immersed import disk_resistance, wagner_length
from service.chemistry.kinetics import anodic_current_density
from tests.factories.random_joints import STEEL


def test_the_wagner_length_of_a_tafel_branch_is_its_slope_over_its_current() -> None:
    potential = -0.1
    current = float(anodic_current_density(potential, STEEL))
    expected = 5.0 * 0.06 / (np.log(10.0) * current)
    assert wagner_length(5.0, potential, STEEL) == pytest.approx(expected, rel=1e-6)


def test_a_disk_resists_the_less_the_larger_it_is_and_the_better_it_conducts() -> None:
    assert disk_resistance(np.array([5.0, 0.05]), 0.005).tolist() == [10.0, 1000.0]
