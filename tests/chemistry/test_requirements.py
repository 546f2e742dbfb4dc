"""Refusing inputs."""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.errors import OutOfRangeError
from service.chemistry.requirements import require


def test_what_holds_everywhere_passes() -> None:
    require(np.array([True, True]), "force", "positive")
    require(True, "force", "positive")  # noqa: FBT003


def test_one_false_refuses_and_names_the_quantity() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        require(np.array([True, False]), "force", "positive")
    assert (caught.value.quantity, caught.value.requirement) == ("force", "positive")
