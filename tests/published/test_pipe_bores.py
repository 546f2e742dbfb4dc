"""Pipes full of electrolyte against closed forms, a mesh and the exact field in the bore.

Along a filled pipe of bore d the potential decays over ``l = sqrt(kappa d R / 4)`` where R is the
polarization resistance [ohm m2]. H. H. Uhlig and R. W. Revie give the same attenuation for the inside
of pipes, and J. T. Waber treats linear electrodes in series of this kind (both from memory).

The exact field of linear electrodes is that of heat in a long cylinder with a resistance at its wall
(H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 7.6; from memory): ``sum c_n J0(b_n r/a)
exp(-b_n z/a)`` with ``b J1(b) = B J0(b)`` and ``B = a/(kappa R)``.
"""

from __future__ import annotations

import numpy as np
import pytest

from service.chemistry.thin_film import pipe_bore
from tests.factories.film_mesh import solve_mesh
from tests.factories.random_joints import lane, linear, logarithmic, random_branches

E_ANODE, E_CATHODE = -0.60, -0.20
RNG = np.random.default_rng(1956)
LANES = 12
ANODES, CATHODES = random_branches(RNG, LANES, -0.9, -0.35), random_branches(RNG, LANES, -0.3, 0.3)
BORES = logarithmic(RNG, 5e-3, 0.5, LANES)
LENGTHS = np.stack([logarithmic(RNG, 0.02, 5.0, LANES) for _ in range(2)])


@pytest.mark.parametrize("bore", [0.008, 0.05, 0.6])
@pytest.mark.parametrize("conductivity", [0.05, 4.3])
@pytest.mark.parametrize("lengths", [(np.inf, np.inf), (0.3, 2.0), (1.0, 0.1)])
def test_linear_electrodes(bore: float, conductivity: float, lengths: tuple[float, float]) -> None:
    resistances = 0.2, 1.5
    decays = [np.sqrt(conductivity * bore / 4.0 * resistance) for resistance in resistances]
    leads = [
        conductivity * bore / 4.0 / decay * np.tanh(length)
        for decay, length in zip(decays, lengths, strict=True)
    ]
    potential = (leads[0] * E_ANODE + leads[1] * E_CATHODE) / sum(leads)
    sides = linear(E_ANODE, resistances[0]), linear(E_CATHODE, resistances[1])
    joint = pipe_bore(*sides, conductivity, bore, lengths[0] * decays[0], lengths[1] * decays[1])
    assert joint.joint_potential == pytest.approx(potential, abs=2e-6)
    assert joint.current_per_metre == pytest.approx(leads[0] * (potential - E_ANODE), rel=1e-5)


@pytest.mark.parametrize("number", range(LANES))
def test_tafel_electrodes_against_the_mesh(number: int) -> None:
    bore, lengths = float(BORES[number]), LENGTHS[:, number]
    sides = lane(ANODES, number), lane(CATHODES, number)
    joint = pipe_bore(*sides, 4.3, bore, *lengths)
    oracle = solve_mesh(*sides, 4.3 * bore / 4.0, (lengths[0], lengths[1]))
    assert joint.current_per_metre == pytest.approx(oracle.current, rel=1e-4)
    assert joint.joint_potential == pytest.approx(oracle.joint_potential, abs=2e-5)


def exact_share(biot: float) -> float:
    """Current of the exact field over that of an even potential across the bore."""
    from scipy.optimize import brentq  # type: ignore[import-untyped]
    from scipy.special import j0, j1, jn_zeros  # type: ignore[import-untyped]

    ends = np.concatenate([[0.0], jn_zeros(1, 4000)])
    roots = np.array(
        [
            brentq(lambda b: b * j1(b) - biot * j0(b), low, high)
            for low, high in zip(ends[:-1], jn_zeros(0, 4000), strict=True)
        ]
    )
    exact = float((2.0 * biot / ((roots**2 + biot**2) * roots)).sum())
    return float(exact * np.sqrt(2.0 * biot))


@pytest.mark.parametrize(
    ("decay_over_bore", "least", "most"), [(8.0, 0.9995, 1.0), (1.0, 0.98, 0.99), (0.25, 0.87, 0.89)]
)
def test_the_exact_field_carries_nearly_as_much(decay_over_bore: float, least: float, most: float) -> None:
    """The even potential errs to the high side, by little as long as attack reaches beyond the bore."""
    biot = 1.0 / (8.0 * decay_over_bore**2)
    assert least < exact_share(biot) < most
