"""The zone beside a joint line under a film."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad  # type: ignore[import-untyped]
from scipy.optimize import brentq  # type: ignore[import-untyped]

from service.chemistry.anchoring import anchor
from service.chemistry.branches import Branches, flattened, stack
from service.chemistry.film_side import ENDLESS, SHORT, Sides
from service.chemistry.film_zone import endless_zone, zone
from service.chemistry.kinetics import integral_of_net_current
from tests.factories.random_joints import ALUMINIUM, STAINLESS, STEEL, linear, random_branches

CONDUCTANCE = 1.5e-4


def sides(*electrodes: Branches, width: float = np.inf) -> Sides:
    rows = flattened(stack(electrodes), len(electrodes), (1,))
    return Sides(anchor(rows), np.array([[CONDUCTANCE]]), np.full((len(electrodes), 1), width))


def endless(side: Sides, drive: float) -> tuple[float, float]:
    """Reach and mean of one endless side."""
    polarization = np.full((1, 1), drive)
    net, integral = side.net_and_integral(side.electrodes.corrosion_potential + polarization)
    reach, mean = endless_zone(side, polarization, net, integral, 0.9)
    return reach.item(), mean.item()


@pytest.mark.parametrize(
    ("electrode", "drive"),
    [
        (STEEL, 0.12),
        (STEEL, -0.3),
        (STAINLESS, -0.4),
        (STAINLESS, 0.45),
        (ALUMINIUM, 0.05),
        (ALUMINIUM, -0.2),
    ],
)
def test_an_endless_zone_is_as_wide_as_adaptive_quadrature_says(electrode: Branches, drive: float) -> None:
    rest = float(electrode.corrosion_potential)

    def passed(polarization: float) -> float:
        return float(integral_of_net_current(rest, rest + polarization, electrode))

    def width(depth: float) -> float:
        left = drive * np.exp(-depth)
        return float(abs(left) * np.sqrt(CONDUCTANCE / 2.0 / passed(left)))

    whole = passed(drive)
    far = brentq(lambda depth: np.log(passed(drive * np.exp(-depth)) / whole / 0.01), 0.0, 12.0)
    wide, _ = quad(width, 0.0, far)
    assert endless(sides(electrode), drive)[0] == pytest.approx(wide, rel=2e-3)


@pytest.mark.parametrize("drive", [0.15, -0.15, 1e-6])
def test_the_endless_zone_of_linear_kinetics_reaches_to_the_logarithm_of_ten(drive: float) -> None:
    electrode = linear(-0.5, 2.0)
    reach, mean = endless(sides(electrode), drive)
    assert reach == pytest.approx(np.sqrt(CONDUCTANCE * 2.0) * np.log(10.0), rel=1e-5)
    net = 0.9 * drive / 2.0 / np.log(10.0)
    assert mean == pytest.approx(float(electrode.corrosion_current) + 0.5 * net, rel=1e-3)


def test_both_zones_agree_where_a_side_has_no_end() -> None:
    rng = np.random.default_rng(5)
    rows = flattened(stack([random_branches(rng, 400, -0.6, 0.1)]), 1, (400,))
    side = Sides(anchor(rows), np.full((1, 1), CONDUCTANCE), np.full((1, 1), np.inf))
    drive = rng.uniform(-0.4, 0.2, (1, 400))
    potential = (side.electrodes.corrosion_potential + drive)[0]
    net, integral = side.net_and_integral(potential)
    reach, mean = endless_zone(side, drive, net, integral, 0.9)
    other_reach, other_mean = zone(side, potential, np.full((1, 400), ENDLESS), 0.9)
    assert np.quantile(np.abs(reach / other_reach - 1.0), 0.95) < 1e-3
    assert np.quantile(np.abs(mean / other_mean - 1.0), 0.95) < 1e-3


@pytest.mark.parametrize("drive", [0.15, -0.15])
def test_the_zone_of_linear_kinetics_reaches_to_the_logarithm_of_ten(drive: float) -> None:
    electrode = linear(-0.5, 2.0)
    side = sides(electrode)
    reach, mean = zone(side, np.array([-0.5 + drive]), np.array([[ENDLESS]]), 0.9)
    decay = np.sqrt(CONDUCTANCE * 2.0)
    assert reach.item() == pytest.approx(decay * np.log(10.0), rel=2e-3)
    net = 0.9 * drive / 2.0 / np.log(10.0)
    assert mean.item() == pytest.approx(float(electrode.corrosion_current) + 0.5 * net, rel=1e-3)


def test_the_zone_of_a_short_side_is_its_share_of_the_width() -> None:
    side = sides(STEEL, width=1e-6)
    reach, mean = zone(side, np.array([-0.3]), np.array([[SHORT]]), 0.9)
    assert reach.item() == pytest.approx(0.9e-6)
    assert mean.item() == pytest.approx(0.1 * 10.0 ** (0.1 / 0.06))
