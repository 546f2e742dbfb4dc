"""Pits behind openings."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.pits import pit_depth

MOUTH_M = 1e-4


def test_a_deep_pit_is_a_half_sphere_of_the_volume_that_left() -> None:
    lost = 5e-3
    depth = pit_depth(lost, MOUTH_M)
    assert 2.0 / 3.0 * np.pi * depth**3 == pytest.approx(np.pi * MOUTH_M**2 * lost)


def test_under_a_steady_current_it_deepens_with_the_cube_root_of_time() -> None:
    # Godard's law for aluminium in natural waters, depth ~ t^(1/3) (from memory, no page consulted).
    years = np.array([1.0, 8.0, 27.0])
    assert pit_depth(1e-2 * years, MOUTH_M) / pit_depth(1e-2, MOUTH_M) == pytest.approx([1.0, 2.0, 3.0])


def test_without_an_opening_there_is_no_pit() -> None:
    assert np.isnan(pit_depth(3.0, np.nan))
