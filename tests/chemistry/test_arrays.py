"""Lanes, blocks and rows."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.arrays import behind_first, blocks, flat_rows, kept, lanes_behind_first, take


@pytest.mark.parametrize(("count", "size"), [(0, 4), (1, 4), (4, 4), (9, 4)])
def test_blocks_cover_every_lane_once(count: int, size: int) -> None:
    seen = [number for block in blocks(count, size) for number in range(block.start, block.stop)]
    assert seen == list(range(count))
    assert all(block.stop - block.start <= size for block in blocks(count, size))


def test_missing_lane_axes_go_behind_the_electrodes() -> None:
    assert behind_first(np.ones(3), 3).shape == (3, 1, 1)
    assert behind_first(2.0, 2).shape == (1, 1)
    assert lanes_behind_first(np.ones(3), np.ones((3, 1, 5)), np.ones((3, 4, 1)), 2.0) == (4, 5)


def test_rows_keep_what_all_lanes_share_in_one_column() -> None:
    assert flat_rows(7.0, 2, (3, 4)).shape == (2, 1)
    assert flat_rows(np.array([1.0, 2.0]), 2, (3, 4))[:, 0].tolist() == [1.0, 2.0]


def test_rows_of_full_shape_are_views_and_of_partial_shape_are_spread() -> None:
    full = np.arange(24.0).reshape(2, 3, 4)
    rows = flat_rows(full, 2, (3, 4))
    assert rows.shape == (2, 12)
    assert np.shares_memory(rows, full)
    assert flat_rows(full[:, :1], 2, (3, 4))[0].tolist() == [0.0, 1.0, 2.0, 3.0] * 3


def test_taking_and_keeping_leave_shared_columns_alone() -> None:
    rows, shared = np.arange(6.0).reshape(2, 3), np.ones((2, 1))
    assert take(rows, slice(0, 2)).shape == (2, 2)
    assert take(shared, slice(0, 2)) is shared
    assert kept(rows, np.array([2])).tolist() == [[2.0], [5.0]]
    assert kept(shared, np.array([0])) is shared
