"""Film joints of linear electrodes against their closed form.

Two electrodes of polarization resistance R that meet under a film of sheet conductance S have
``g = sqrt(S/R)``, ``E_j = (E_a g_a + E_c g_c)/(g_a + g_c)`` and ``I = g_a (E_j - E_a)``; with
insulated ends ``g tanh(w/l)`` takes the place of ``g`` and ``l = sqrt(S R)``. J. T. Waber, B. Fagan,
J. Electrochem. Soc. 103 (1956) 64 treat this case (from memory). The figures were computed from
the closed form with 8 digits; the first was confirmed with a mesh of 60001 points.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.thin_film import FilmJoint, round_joint, strip_joint
from tests.factories.random_joints import linear

E_ANODE, E_CATHODE = -0.75, -0.15
CASES = [
    # conductivity S/m, film m, R anode, R cathode ohm m2; E_j V, I A/m, peak A/m2, l anode m, l cathode m
    (5.0, 28.5e-6, 0.05, 1.0, -0.64035360, 5.85351589e-3, 2.192928, 2.669270e-3, 11.937336e-3),
    (21.5, 3.7e-6, 0.05, 1.0, -0.64035360, 4.37350333e-3, 2.192928, 1.994367e-3, 8.919081e-3),
    (0.005, 100e-6, 0.2, 2.0, -0.60584816, 2.27924078e-4, 0.720759, 0.316228e-3, 1.000000e-3),
    (5.4, 1000e-6, 0.05, 1.0, -0.64035360, 3.60334835e-2, 2.192928, 16.431677e-3, 73.484692e-3),
    (0.001, 50e-6, 0.5, 5.0, -0.60584816, 4.55848156e-5, 0.288304, 0.158114e-3, 0.500000e-3),
]


def solved(
    conductivity: float, film: float, anode: float, cathode: float, widths: tuple[float, float]
) -> FilmJoint:
    sides = linear(E_ANODE, anode), linear(E_CATHODE, cathode)
    return strip_joint(*sides, conductivity, film, *widths)


@pytest.mark.parametrize("case", CASES)
def test_endless_sides(case: tuple[float, ...]) -> None:
    conductivity, film, anode, cathode, potential, current, peak, anodic_decay, cathodic_decay = case
    joint = solved(conductivity, film, anode, cathode, (np.inf, np.inf))
    assert joint.joint_potential == pytest.approx(potential, abs=2e-8)
    assert joint.current_per_metre == pytest.approx(current, rel=1e-7)
    rest = float(np.asarray(linear(E_ANODE, anode).corrosion_current))
    net = 2.0 * (float(joint.peak_anodic_current_density) - rest)
    assert net == pytest.approx(peak, rel=5e-6)
    assert joint.anodic_reach == pytest.approx(anodic_decay * np.log(10.0), rel=1e-4)
    assert joint.cathodic_reach == pytest.approx(cathodic_decay * np.log(10.0), rel=1e-4)


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("lengths", [(0.3, 2.0), (1.0, 0.1), (4.0, 3.0), (1e-3, 1.0)])
def test_sides_with_ends(case: tuple[float, ...], lengths: tuple[float, float]) -> None:
    conductivity, film, *resistances = case[:4]
    decays = case[7:]
    widths = (lengths[0] * decays[0], lengths[1] * decays[1])
    joint = solved(conductivity, film, resistances[0], resistances[1], widths)
    sheet = conductivity * film
    leads = [
        np.sqrt(sheet / resistance) * np.tanh(length)
        for resistance, length in zip(resistances, lengths, strict=True)
    ]
    potential = (leads[0] * E_ANODE + leads[1] * E_CATHODE) / sum(leads)
    assert joint.joint_potential == pytest.approx(potential, abs=2e-6)
    assert joint.current_per_metre == pytest.approx(leads[0] * (potential - E_ANODE), rel=1e-5)


def test_a_disk_in_a_plate() -> None:
    """Flux ``S E' = S eta/l`` times I1/I0 inside and K1/K0 outside, by scipy.special."""
    from scipy.special import iv, kv  # type: ignore[import-untyped]

    sheet, radius, resistances = 1.425e-4, 5e-3, (0.05, 1.0)
    decays = [np.sqrt(sheet * resistance) for resistance in resistances]
    disk = iv(1, radius / decays[0]) / iv(0, radius / decays[0])
    plate = kv(1, radius / decays[1]) / kv(0, radius / decays[1])
    leads = sheet / decays[0] * disk, sheet / decays[1] * plate
    potential = (leads[0] * E_ANODE + leads[1] * E_CATHODE) / sum(leads)
    joint = round_joint(
        linear(E_ANODE, resistances[0]), linear(E_CATHODE, resistances[1]), 5.0, 28.5e-6, radius
    )
    assert joint.joint_potential == pytest.approx(potential, abs=1e-6)
    assert joint.current_per_metre == pytest.approx(leads[0] * (potential - E_ANODE), rel=2e-6)
