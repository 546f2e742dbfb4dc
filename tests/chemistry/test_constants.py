"""Physical constants against scipy's copy of CODATA."""

from __future__ import annotations

import pytest
from scipy import constants as codata  # type: ignore[import-untyped]

from service.chemistry.constants import FARADAY, GAS_CONSTANT, SECONDS_PER_YEAR, ZERO_CELSIUS


def test_constants_are_those_of_codata() -> None:
    assert pytest.approx(codata.value("Faraday constant"), rel=1e-9) == FARADAY
    assert pytest.approx(codata.R, rel=1e-9) == GAS_CONSTANT
    assert codata.zero_Celsius == ZERO_CELSIUS
    assert codata.Julian_year == SECONDS_PER_YEAR
