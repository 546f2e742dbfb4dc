"""A finite-volume mesh for joints under a film: the oracle of the closed-form solver.

It solves ``S E'' = i(E)`` on both sides of a joint, straight or round, on a grid that is fine at
the joint line, by Newton's method. It shares the partial currents with the solver, nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_banded  # type: ignore[import-untyped]

from service.chemistry.anchoring import Anchored, anchor
from service.chemistry.arrays import FloatArray
from service.chemistry.branches import Branches

_LARGEST_STEP = 0.05
_STRETCH = 8.0


@dataclass(frozen=True, slots=True)
class MeshJoint:
    """What the mesh finds; the current is per metre of joint line, positive out of the first side."""

    joint_potential: float
    current: float
    peak: float
    first_reach: float
    second_reach: float
    first_mean: float


@dataclass(frozen=True, slots=True)
class _Grid:
    nodes: FloatArray
    edges: FloatArray
    links: FloatArray
    first_volumes: FloatArray
    second_volumes: FloatArray
    joint: int


def solve_mesh(
    first: Branches,
    second: Branches,
    sheet_conductance: float,
    widths: tuple[float, float],
    *,
    radius: float = np.inf,
    cells: int = 3000,
) -> MeshJoint:
    """Solve one joint; with a radius the first side is a disk and ``widths[0]`` its radius."""
    grid = _grid(widths, cells, radius)
    sides = anchor(first), anchor(second)
    potential = _potential(grid, sides, sheet_conductance * grid.links)
    first_net, second_net = (_currents(side, potential)[0] for side in sides)
    out = np.abs(grid.first_volumes * first_net)
    into = np.abs(grid.second_volumes * second_net)
    sign = np.sign(first_net[grid.joint])
    collected = np.concatenate([[0.0], np.cumsum(out)])
    first_reach = -np.interp(0.1 * out.sum(), collected[: grid.joint + 2], grid.edges[: grid.joint + 2])
    collected = np.concatenate([[0.0], np.cumsum(into)])
    second_reach = np.interp(0.9 * into.sum(), collected, grid.edges)
    anodic = sides[0].partial_currents(potential)[0]
    zone = grid.first_volumes * (grid.nodes >= -first_reach)
    return MeshJoint(
        joint_potential=float(potential[grid.joint]),
        current=float(sign * out.sum()),
        peak=float(anodic[grid.joint]),
        first_reach=float(first_reach),
        second_reach=float(second_reach),
        first_mean=float((zone * anodic).sum() / zone.sum()),
    )


def _grid(widths: tuple[float, float], cells: int, radius: float) -> _Grid:
    shape = np.sinh(_STRETCH * np.linspace(0.0, 1.0, cells + 1)) / np.sinh(_STRETCH)
    nodes = np.concatenate([-widths[0] * shape[::-1], widths[1] * shape[1:]])
    faces = 0.5 * (nodes[1:] + nodes[:-1])
    edges = np.concatenate([nodes[:1], faces, nodes[-1:]])
    lengthened = np.isfinite(radius)
    swept = (edges + radius) ** 2 / (2.0 * radius) if lengthened else edges
    through = 1.0 + faces / radius if lengthened else np.ones_like(faces)
    line = 0.5 * radius if lengthened else 0.0
    volumes = np.diff(swept)
    first, second = volumes.copy(), volumes.copy()
    first[cells], second[cells] = line - swept[cells], swept[cells + 1] - line
    first[cells + 1 :], second[:cells] = 0.0, 0.0
    return _Grid(nodes, edges, through / np.diff(nodes), first, second, cells)


def _currents(side: Anchored, potential: FloatArray) -> tuple[FloatArray, FloatArray]:
    anodic, cathodic, rise, fall = side.partial_currents(potential)
    return anodic - cathodic, rise - fall


def _potential(grid: _Grid, sides: tuple[Anchored, Anchored], links: FloatArray) -> FloatArray:
    rest = [float(side.corrosion_potential) for side in sides]
    potential = np.where(grid.nodes < 0.0, rest[0], rest[1]) * 0.9 + 0.05 * (rest[0] + rest[1])
    for _ in range(500):
        (first, first_rise), (second, second_rise) = (_currents(side, potential) for side in sides)
        source = grid.first_volumes * first + grid.second_volumes * second
        rise = grid.first_volumes * first_rise + grid.second_volumes * second_rise
        flux = links * np.diff(potential)
        residual = -source
        residual[:-1] += flux
        residual[1:] -= flux
        bands = np.zeros((3, potential.size))
        bands[0, 1:], bands[2, :-1] = links, links
        bands[1] = -rise
        bands[1, :-1] -= links
        bands[1, 1:] -= links
        step = np.clip(solve_banded((1, 1), bands, -residual), -_LARGEST_STEP, _LARGEST_STEP)
        potential = np.asarray(np.clip(potential + step, min(rest), max(rest)))
        if np.abs(step).max() < 1e-12:
            return potential
    message = "the mesh did not settle"
    raise AssertionError(message)
