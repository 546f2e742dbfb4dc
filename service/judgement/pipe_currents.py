"""Couples in a pipe full of electrolyte: the current runs along the bore, so its length counts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from service.chemistry.branches import Branches
from service.chemistry.thin_film import pipe_bore
from service.judgement.currents import Array, Currents
from service.judgement.draws import SAMPLE_SIZE
from service.judgement.film_currents import record
from service.judgement.lanes import Lanes


def pipe_currents(sides: Sequence[Branches], lanes: Lanes, conductivity: Array) -> Currents:
    """Solve lanes whose sides are two lengths of pipe that meet end to end.

    Parameters
    ----------
    sides : sequence of Branches
        Both sides, fields of shape ``(lanes, SAMPLE_SIZE)`` [units of ``Branches``].
    lanes : Lanes
        Bores and, as widths, the lengths of the lanes [m].
    conductivity : ndarray, shape (SAMPLE_SIZE,)
        Conductivity of the electrolyte [S/m].

    Returns
    -------
    Currents
        Net current densities over the engaged length [A/m2] and that length [m].

    Notes
    -----
    The potential is taken as even across the bore. Where the reach is shorter than the bore, in soft
    water or wide pipes, the rate beside the joint still holds and the true reach is the longer one
    (``tests/published/test_pipe_bores.py``). Oxygen that is used up on its way along the pipe is not
    taken off, which errs towards attack.
    """
    currents = Currents.unsolved(lanes.rows.shape[1], SAMPLE_SIZE)
    lengths = lanes.widths_m[:, :, None]
    bore = lanes.bores_m[:, None]
    joint = pipe_bore(sides[0], sides[1], conductivity, bore, lengths[0], lengths[1], has_mean=False)
    record(currents, np.arange(lanes.bores_m.size), sides, joint, lengths, None, None)
    return currents
