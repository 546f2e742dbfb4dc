"""Electrode parameters put together."""

from __future__ import annotations

import numpy as np

from service.chemistry.branches import (
    PARAMETERS,
    Branches,
    block_of,
    electrodes_and_lanes,
    flattened,
    stack,
)
from tests.factories.random_joints import STAINLESS, STEEL, random_branches


def test_stacking_puts_electrodes_first_and_copies_no_more_than_needed() -> None:
    many = random_branches(np.random.default_rng(0), 6, -0.8, 0.0)
    pair = stack([STEEL, many])
    assert np.shape(pair.corrosion_potential) == (2, 6)
    assert np.shape(pair.water_slope) == (2,)
    assert np.asarray(pair.passive).dtype == np.bool_
    assert electrodes_and_lanes(pair) == (2, (6,))
    assert electrodes_and_lanes(pair, np.ones((2, 5, 1))) == (2, (5, 6))


def test_flattening_spreads_lanes_in_one_axis() -> None:
    wide = Branches(np.zeros((3, 4)), 0.1, 0.06, 0.12, np.ones(4), passive=np.ones((3, 1), np.bool_))
    rows = flattened(stack([wide, STAINLESS]), 2, (3, 4))
    shapes = {name: np.shape(getattr(rows, name)) for name in PARAMETERS}
    assert shapes["corrosion_potential"] == shapes["passive"] == shapes["limiting_current"] == (2, 12)
    assert shapes["anodic_slope"] == (2, 1)
    assert np.asarray(rows.passive).dtype == np.bool_


def test_a_block_is_a_view_of_its_lanes() -> None:
    many = random_branches(np.random.default_rng(0), 6, -0.8, 0.0)
    rows = flattened(stack([many]), 1, (6,))
    part = block_of(rows, slice(2, 5))
    assert np.array_equal(part.anodic_slope, np.asarray(many.anodic_slope)[None, 2:5])
    assert part.water_slope is rows.water_slope


def test_plain_figures_are_one_electrode_without_lanes() -> None:
    assert electrodes_and_lanes(STEEL) == (1, ())
