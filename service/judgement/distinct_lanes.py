"""Lanes that are alike are solved once: a search over finishes meets the same metals again and again."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.judgement.lanes import Lanes


def distinct_lanes(lanes: Lanes) -> tuple[Lanes, NDArray[np.intp]]:
    """Lanes without repetition, and where each lane's twin stands among them.

    Parameters
    ----------
    lanes : Lanes
        Electrodes, areas, radii, widths and bores [m2, m].

    Returns
    -------
    distinct : Lanes
        In order of first appearance.
    places : ndarray of int, shape (lanes,)
        Lane of ``distinct`` that is solved for each lane [-].
    """
    seen: dict[bytes, int] = {}
    chosen: list[int] = []
    places = np.empty(lanes.bores_m.size, dtype=np.intp)
    for lane, key in enumerate(lane_keys(lanes)):
        place = seen.setdefault(key, len(chosen))
        if place == len(chosen):
            chosen.append(lane)
        places[lane] = place
    return lanes.narrowed(np.array(chosen, dtype=np.intp)), places


def lane_keys(lanes: Lanes) -> list[bytes]:
    """What tells lanes apart.

    Parameters
    ----------
    lanes : Lanes
        Electrodes, areas, radii, widths and bores [m2, m].

    Returns
    -------
    list of bytes
        One for each lane, the same for lanes that are alike.
    """
    figures = (lanes.rows, lanes.draws, lanes.areas_m2, lanes.radii_m, lanes.widths_m, lanes.bores_m[None])
    keys = np.concatenate([np.asarray(figure, dtype=np.float64) for figure in figures])
    return [key.tobytes() for key in keys.T]
