"""Published limits for bonds."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.bonding import BOND_LIMITS, meets_bond_limit
from service.chemistry.errors import OutOfRangeError


def test_every_limit_says_where_it_stands_and_how_it_was_obtained() -> None:
    assert len({limit.name for limit in BOND_LIMITS}) == len(BOND_LIMITS)
    for limit in BOND_LIMITS:
        assert limit.limit_ohm > 0.0
        assert limit.purpose
        assert limit.source
        assert limit.obtained.startswith(("read", "from memory"))


def test_a_limit_is_met_up_to_itself() -> None:
    strictest = min(BOND_LIMITS, key=lambda limit: limit.limit_ohm)
    assert strictest.limit_ohm == 2.5e-3
    assert meets_bond_limit(np.array([0.0, 2.5e-3, 2.6e-3]), strictest).tolist() == [True, True, False]


def test_a_negative_resistance_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        meets_bond_limit(-1.0, BOND_LIMITS[0])
