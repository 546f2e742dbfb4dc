"""How much is tried: a little in every run of the suite, much where there is time (``make soak``)."""

from __future__ import annotations

import os

THOROUGH = os.environ.get("THOROUGH") == "1"
TIMES_MORE = 25


def examples(number: int) -> int:
    """Return how many examples a property is tried on, given the number of a usual run."""
    return number * TIMES_MORE if THOROUGH else number
