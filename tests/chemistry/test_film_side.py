"""One side of a film joint: its ends and widths."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad  # type: ignore[import-untyped]

from service.chemistry.anchoring import anchor
from service.chemistry.branches import Branches, flattened, stack
from service.chemistry.film_side import (
    ENDLESS,
    SHORT,
    Sides,
    ended_current,
    guessed_theta,
    width_integral,
)
from service.chemistry.kinetics import integral_of_net_current
from tests.factories.random_joints import ALUMINIUM, STAINLESS, STEEL, linear, random_branches

CONDUCTANCE = 1.5e-4


def sides(*electrodes: Branches, width: float = np.inf) -> Sides:
    rows = flattened(stack(electrodes), len(electrodes), (1,))
    return Sides(anchor(rows), np.array([[CONDUCTANCE]]), np.full((len(electrodes), 1), width))


@pytest.mark.parametrize(
    ("electrode", "drive"), [(STEEL, 0.12), (STAINLESS, -0.4), (ALUMINIUM, 0.05), (STEEL, -0.3)]
)
@pytest.mark.parametrize("theta", [0.1, 1.0, 3.0])
def test_the_width_is_that_of_adaptive_quadrature(electrode: Branches, drive: float, theta: float) -> None:
    side = sides(electrode)
    rest = float(electrode.corrosion_potential)
    end = rest + drive / np.cosh(theta)
    turn = np.sign(drive)

    def stretched(u: float) -> float:
        potential = end + turn * u * u
        passed = float(integral_of_net_current(end, potential, electrode))
        return float(2.0 * u / np.sqrt(2.0 * passed / CONDUCTANCE))

    expected, _ = quad(stretched, 0.0, np.sqrt(abs(rest + drive - end)), epsrel=1e-9)
    width, _, _ = width_integral(side, np.array([[drive]]), np.array([[theta]]))
    assert width.item() == pytest.approx(expected, rel=3e-3)
    assert theta > 1.0 or width.item() == pytest.approx(expected, rel=2e-5)


def test_derivatives_of_the_width_are_those_of_differences() -> None:
    side = sides(STEEL, STAINLESS)
    drive, theta, step = np.array([[0.1], [-0.3]]), np.array([[0.8], [1.5]]), 1e-5
    _, by_drive, by_theta = width_integral(side, drive, theta)
    more, less = (width_integral(side, drive * (1.0 + s), theta)[0] for s in (step, -step))
    assert (more - less) / (2.0 * step * drive) == pytest.approx(by_drive, rel=1e-4)
    more, less = (width_integral(side, drive, theta + s)[0] for s in (step, -step))
    assert (more - less) / (2.0 * step) == pytest.approx(by_theta, rel=1e-4)


def test_theta_of_linear_kinetics_is_width_over_decay_length() -> None:
    resistance, width = 2.0, 0.03
    side = sides(linear(-0.5, resistance), width=width)
    theta = width / np.sqrt(CONDUCTANCE * resistance)
    found, logarithm, slope = ended_current(side, np.array([-0.4]), np.array([theta]))
    assert found == pytest.approx(theta, rel=1e-3)
    current = 0.1 * np.sqrt(CONDUCTANCE / resistance) * np.tanh(theta)
    assert np.exp(logarithm) == pytest.approx(current, rel=1e-3)
    assert slope == pytest.approx(1.0 / 0.1, rel=1e-3)


def test_the_current_of_an_ended_side_rises_as_its_derivative_says() -> None:
    side = sides(STEEL, width=0.004)

    def settled(potential: float) -> tuple[float, float]:
        theta = np.array([1.0])
        for _ in range(12):
            theta, logarithm, slope = ended_current(side, np.array([potential]), theta)
        return logarithm.item(), slope.item()

    _, slope = settled(-0.3)
    difference = settled(-0.3 + 1e-5)[0] - settled(-0.3 - 1e-5)[0]
    assert difference / 2e-5 == pytest.approx(slope, rel=1e-4)


def test_ends_damp_the_current_as_the_hyperbolic_tangent_of_linear_kinetics() -> None:
    side = sides(linear(-0.5, 2.0), width=0.01)
    endless, _, _ = side.endless(np.array([-0.4]))
    damped, slope, ratio = side.damped(np.array([-0.4]))
    assert ratio.item() == pytest.approx(0.01 / np.sqrt(CONDUCTANCE * 2.0), rel=1e-3)
    assert np.exp(damped - endless) == pytest.approx(np.tanh(ratio), rel=1e-6)
    assert slope.item() == pytest.approx(10.0, rel=1e-2)


def test_the_first_guess_tells_endless_sides_from_ended_ones() -> None:
    many = random_branches(np.random.default_rng(1), 200, -0.9, 0.2)
    rows = flattened(stack([many]), 1, (200,))
    side = Sides(anchor(rows), np.array([[CONDUCTANCE]]), np.array([[np.inf]]))
    drive = np.full((1, 200), 0.1)
    with np.errstate(divide="ignore"):
        assert (guessed_theta(side, drive, np.full((1, 200), 1e3)) == ENDLESS).all()
        near = guessed_theta(side, drive, np.full((1, 200), 0.3))
    assert ((near >= SHORT) & (near < 1.0)).all()


def test_selected_sides_stand_in_one_row() -> None:
    side = sides(STEEL, STAINLESS, width=0.02)
    one = side.selected((2, 1), np.array([1]))
    assert one.electrodes.corrosion_potential.tolist() == [[0.0]]
    assert one.width.tolist() == [[0.02]]
