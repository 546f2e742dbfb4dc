"""Currents of all lanes while one spell of wetness lasts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.chemistry.branches import PARAMETERS, Branches

Array = NDArray[np.float64]
Index = NDArray[np.intp]


ENGAGED_SHARE = 0.9
"""Share of the current that the engaged zone carries, by the definition of reach."""


@dataclass(frozen=True, slots=True)
class Currents:
    """What flows in one spell; side first where a figure belongs to one, then lane, then sample.

    Attributes
    ----------
    anodic, peak : ndarray, shape (2, lanes, SAMPLE_SIZE)
        Net anodic current density in the mean of the engaged zone and at the joint line; zero on
        a cathode [A/m2].
    cathodic : ndarray, shape (2, lanes, SAMPLE_SIZE)
        Net cathodic current density in the mean of the engaged zone [A/m2].
    potential : ndarray, shape (lanes, SAMPLE_SIZE)
        Potential of the couple, under a film at the joint line [V vs SHE].
    reach : ndarray, shape (2, lanes, SAMPLE_SIZE)
        Width of the engaged zone [m].
    has_converged : ndarray of bool, shape (lanes, SAMPLE_SIZE)
        False where no answer was found [-].
    """

    anodic: Array
    peak: Array
    cathodic: Array
    potential: Array
    reach: Array
    has_converged: NDArray[np.bool_]

    @classmethod
    def unsolved(cls, lanes: int, samples: int) -> Currents:
        """Room for some lanes, without any current yet."""
        both, one = (2, lanes, samples), (lanes, samples)
        return cls(
            anodic=np.zeros(both),
            peak=np.zeros(both),
            cathodic=np.zeros(both),
            potential=np.zeros(one),
            reach=np.zeros(both),
            has_converged=np.ones(one, np.bool_),
        )

    def part(self, lanes: slice) -> Currents:
        """Views of some lanes."""
        return Currents(
            **{name: getattr(self, name)[:, lanes] for name in ("anodic", "peak", "cathodic", "reach")},
            potential=self.potential[lanes],
            has_converged=self.has_converged[lanes],
        )

    def put(self, chosen: Index, solved: Currents) -> None:
        """Write solved lanes in their places."""
        for name in ("anodic", "peak", "cathodic", "reach"):
            getattr(self, name)[:, chosen] = getattr(solved, name)
        self.potential[chosen] = solved.potential
        self.has_converged[chosen] = solved.has_converged


def some_lanes(branches: Branches, chosen: Index, axis: int) -> Branches:
    """Pick lanes of sampled branches; what all lanes share stays as it is.

    Parameters
    ----------
    branches : Branches
        Fields with lanes on ``axis`` and the sample behind it [units of ``Branches``].
    chosen : ndarray of int
        Numbers of the lanes wanted [-].
    axis : int
        0 for one side, 1 for stacked sides [-].

    Returns
    -------
    Branches
        Those lanes [units of ``Branches``].
    """
    fields = {name: np.asarray(getattr(branches, name)) for name in PARAMETERS}
    return Branches(
        **{
            name: values.take(chosen, axis) if values.ndim > axis + 1 and values.shape[axis] > 1 else values
            for name, values in fields.items()
        }
    )
