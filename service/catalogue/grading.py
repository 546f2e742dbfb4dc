"""The grade of a figure: access to its source x fitness x plausibility.

``A`` read in the document itself and measured under matching conditions, ``B`` read, of near
conditions or in a reproduction, ``C`` computed or of a class, ``D`` remembered or customary,
``E`` doubtful. ``None``: unfit or failed, never used. "Read" does not outrank "right": the
weakest of the three decides.
"""

from __future__ import annotations

from service.catalogue.records import Fitness, Obtained, Plausibility

GRADES = "ABCDE"

_ACCESS = {
    Obtained.READ: 0,
    Obtained.READ_IN_REPRODUCTION: 1,
    Obtained.COMPUTED: 2,
    Obtained.FROM_MEMORY: 3,
    Obtained.COMMON_PRACTICE: 3,
}
_FITNESS = {Fitness.EXACT: 0, Fitness.CLOSE: 1, Fitness.CLASS_DEFAULT: 2}
_PLAUSIBILITY = {Plausibility.PASSED: 0, Plausibility.DOUBTFUL: 4}


def grade(
    obtained: Obtained,
    fitness: Fitness = Fitness.EXACT,
    plausibility: Plausibility = Plausibility.PASSED,
) -> str | None:
    """Return the letter of a figure, or ``None`` if it may not be used.

    Examples
    --------
    >>> grade(Obtained.READ, Fitness.CLOSE)
    'B'
    >>> grade(Obtained.FROM_MEMORY)
    'D'
    >>> grade(Obtained.READ, Fitness.UNFIT) is None
    True
    """
    if fitness is Fitness.UNFIT or plausibility is Plausibility.FAILED:
        return None
    return GRADES[max(_ACCESS[obtained], _FITNESS[fitness], _PLAUSIBILITY[plausibility])]


def is_read(obtained: Obtained) -> bool:
    """Whether a figure was seen on a page rather than remembered or assumed."""
    return obtained in {Obtained.READ, Obtained.READ_IN_REPRODUCTION, Obtained.COMPUTED}


def worst(grades: list[str]) -> str | None:
    """Return the weakest letter, ``None`` for an empty list."""
    return max(grades, default=None)
