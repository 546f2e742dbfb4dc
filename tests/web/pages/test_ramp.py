from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest

from service.web.pages.ramp import STEPS, bounds_of, colours, contrasts, inks, oklab, step_of, style_rules


def test_neighbours_look_equally_far_apart() -> None:
    gaps = np.linalg.norm(np.diff(oklab(), axis=0), axis=1)
    assert np.ptp(gaps) < 1e-12
    assert gaps[0] > 0.05


def test_each_step_is_darker_than_the_one_before() -> None:
    assert np.all(np.diff(oklab()[:, 0]) < 0.0)


def test_no_step_needs_red_and_green_told_apart() -> None:
    assert np.ptp(oklab()[:, 1]) < 0.01


def test_text_stands_out_on_each_step() -> None:
    # WCAG 2.2, success criterion 1.4.3: 4.5 for text.
    assert min(contrasts()) >= 4.5


def test_known_colours_come_back() -> None:
    assert len(colours()) == len(inks()) == STEPS
    assert all(len(colour) == 7 for colour in colours())
    assert style_rules().count("background") == STEPS


@pytest.mark.parametrize(("ratio", "step"), [(0.0, 0), (0.01, 0), (1.0, 4), (100.0, 8), (1e9, 8)])
def test_a_ratio_finds_its_step(ratio: float, step: int) -> None:
    assert step_of(ratio) == step


def test_steps_join_without_a_gap() -> None:
    bounds = [bounds_of(step) for step in range(STEPS)]
    assert bounds[0][0] == 0.0
    assert bounds[-1][1] == math.inf
    for (_, high), (low, _) in pairwise(bounds):
        assert high == pytest.approx(low)


@pytest.mark.parametrize("step", range(1, STEPS - 1))
def test_bounds_hold_what_falls_into_the_step(step: int) -> None:
    low, high = bounds_of(step)
    assert step_of(low * 1.001) == step_of(high * 0.999) == step
