"""The one way in which a function of this room refuses an input."""

from __future__ import annotations

import numpy as np

from service.chemistry.arrays import BoolLike
from service.chemistry.errors import OutOfRangeError


def require(holds: BoolLike, quantity: str, requirement: str) -> None:
    """Refuse an input unless ``holds`` is true everywhere.

    Parameters
    ----------
    holds : bool or ndarray of bool
        What must be true; write it so that not-a-number makes it false [-].
    quantity : str
        What the caller knows the input as [-].
    requirement : str
        What it must be, to follow "must be" [-].

    Raises
    ------
    OutOfRangeError
        When it is false anywhere.

    Examples
    --------
    >>> require(np.array([1.0, 2.0]) > 0.0, "force", "positive")
    """
    if not np.all(holds):
        raise OutOfRangeError(quantity, requirement)
