"""The sample of many electrodes: each metal has scores of its own, what they share is drawn once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from service.chemistry.branches import Branches
from service.judgement.draws import OWN, SAMPLE_SIZE, KineticArrays, in_one_water, scores

Array = NDArray[np.float64]

_ORDERS = (
    (1, 0),
    (1, 0),
    (17, 34),
    (23, 10),
    (31, 30),
    (9, 27),
    (15, 16),
    (61, 61),
    (3, 49),
    (3, 48),
    (3, 4),
    (41, 16),
)
"""Orders in which further electrodes take the scores of a couple's two sides: point ``k`` takes
``(factor k + offset) mod 64``. Found by search over all factors and offsets so that no two columns
correlate by more than 0.31; the first two are a couple's own, so that two electrodes are drawn as in
a couple."""


def own_scores(name: str, draw: int) -> Array:
    """Standard normal scores of a figure for the draw of one electrode.

    Parameters
    ----------
    name : str
        One of ``OWN``.
    draw : int
        Number of the distinct metal in its network [-]; after the last order they repeat.

    Returns
    -------
    ndarray, shape (SAMPLE_SIZE,)
        Scores [-].
    """
    factor, offset = _ORDERS[draw % len(_ORDERS)]
    return scores(name, draw % 2)[(factor * np.arange(SAMPLE_SIZE) + offset) % SAMPLE_SIZE]


def area_scores(member: int) -> Array:
    """Scores of an unknown wetted area, shape ``(SAMPLE_SIZE,)``; each member has its own order."""
    factor, offset = _ORDERS[2 + member % (len(_ORDERS) - 2)]
    return scores("pitting")[(factor * np.arange(SAMPLE_SIZE) + offset) % SAMPLE_SIZE]


def draws_of(electrode_ids: Sequence[str]) -> list[int]:
    """Draw of each electrode, whatever their order.

    Like metals share theirs, so that like on like has no current.
    """
    numbers = {electrode_id: number for number, electrode_id in enumerate(sorted(set(electrode_ids)))}
    return [numbers[electrode_id] for electrode_id in electrode_ids]


def sampled_branches(arrays: KineticArrays, rows: Sequence[int], draws: Sequence[int]) -> Branches:
    """Branches of all electrodes, with the share of the oxygen supply that each uses as its limit.

    Parameters
    ----------
    arrays : KineticArrays
        Usable kinetics of the catalogue [A/m2, V].
    rows : sequence of int
        State of each electrode, a column of ``arrays`` [-].
    draws : sequence of int
        Draw of each electrode [-].

    Returns
    -------
    Branches
        Fields of shape ``(electrodes, SAMPLE_SIZE)``.
    """
    own = {name: np.stack([own_scores(name, draw) for draw in draws]) for name in OWN}
    own["potential"] = in_one_water(own["potential"])
    return arrays.sampled(np.array(rows, dtype=np.intp), own)
