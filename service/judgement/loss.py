"""From current densities to loss over a design life, and from loss to severity.

Outdoors the anchor is ISO 9223: ``r(t) = r_ISO t^B + galvanic``. Severity is judged on what the
couple adds, at the engaged zone beside the joint; what a metal loses by itself is reported by a
witness of its own, because no other partner would change it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.judgement.attack import Attack
from service.judgement.couples import Couple, Function
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays, scores
from service.judgement.exposed import ExposedElectrode
from service.judgement.lanes import Pairing
from service.judgement.metals import MAGNESIUM_LOSS_FACTOR, MetalFigures, metal_figures
from service.judgement.policy import Policy
from service.judgement.uncoupled import first_year_loss

Array = NDArray[np.float64]

FALLBACK_UM_PER_YEAR_PER_A_PER_M2 = 1500.0
"""Penetration taken where a metal's composition or density is not known: between iron and zinc."""

DEEPEST_COUNTS = frozenset({Function.SEAL})
"""Functions for which the deepest point decides rather than the mean."""


@dataclass(frozen=True, slots=True)
class Loss:
    """Loss of one side of one lane, each array of shape ``(SAMPLE_SIZE,)`` in micrometres.

    ``galvanic_rate`` and ``uncoupled_rate`` are first-year figures in um/y at the engaged zone;
    ``galvanic`` and ``deepest`` are over the design life; ``allowance`` is what may be lost.
    """

    galvanic_rate: Array
    uncoupled_rate: Array
    galvanic: Array
    deepest: Array
    uncoupled: Array
    judged: Array
    allowance_um: float
    allowance_basis: str
    is_sacrificial_coat: bool
    life_years_low: Array | None
    life_years_high: Array | None

    @property
    def ratio(self) -> Array:
        """Judged loss over allowance [-]."""
        return self.judged / self.allowance_um


def losses(
    pairings: Sequence[Pairing],
    attack: Attack,
    couples: Sequence[Couple],
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy,
) -> list[tuple[Loss, Loss]]:
    """Loss of both sides of every lane."""
    metals = metal_figures(catalogue)
    return [
        (
            _side_loss(
                0, lane, pairing, attack, couples[pairing.couple], environment, metals, catalogue, policy
            ),
            _side_loss(
                1, lane, pairing, attack, couples[pairing.couple], environment, metals, catalogue, policy
            ),
        )
        for lane, pairing in enumerate(pairings)
    ]


def _side_loss(
    side: int,
    lane: int,
    pairing: Pairing,
    attack: Attack,
    couple: Couple,
    environment: Environment,
    metals: dict[str, MetalFigures],
    catalogue: Catalogue,
    policy: Policy,
) -> Loss:
    electrode = pairing.electrodes[side]
    metal = metals[electrode.electrode_id]
    years = couple.design_life_years or policy.default_design_life_years
    penetration = metal.um_per_year_per_A_per_m2 or FALLBACK_UM_PER_YEAR_PER_A_PER_M2
    if metal.is_inert:
        penetration = 0.0
    if metal.is_magnesium:
        penetration *= MAGNESIUM_LOSS_FACTOR
    rate = attack.galvanic_density[side, lane] * penetration
    decay = _between(metal.decay_low, metal.decay_high, scores("decay"))
    galvanic = rate * years ** (1.0 - decay)
    pitting = np.exp(_between(np.log(metal.pitting_low), np.log(metal.pitting_high), scores("pitting")))
    deepest = galvanic * pitting
    uncoupled_rate, uncoupled = _uncoupled(
        side, lane, pairing, attack, metal, penetration, environment, years, catalogue
    )
    allowance, basis, is_coat = _allowance(electrode, couple, policy)
    judged = deepest if DEEPEST_COUNTS & set(couple.functions) and not is_coat else galvanic
    low, high = _coat_life(electrode, rate + uncoupled_rate, decay)
    return Loss(
        rate, uncoupled_rate, galvanic, deepest, uncoupled, judged, allowance, basis, is_coat, low, high
    )


def _between(low: float, high: float, normal: Array) -> Array:
    """Spread a range over the normal scores, 5 % at its low and 95 % at its high end."""
    middle = (low + high) / 2.0
    return np.clip(middle + normal / 1.6449 * (high - low) / 2.0, low, high)


def _uncoupled(
    side: int,
    lane: int,
    pairing: Pairing,
    attack: Attack,
    metal: MetalFigures,
    penetration: float,
    environment: Environment,
    years: float,
    catalogue: Catalogue,
) -> tuple[Array, Array]:
    if environment.exposure is Exposure.ATMOSPHERE and not environment.is_sheltered:
        first_year = first_year_loss(metal.standard_metal, environment) if metal.standard_metal else None
        if first_year is None:
            return np.zeros(SAMPLE_SIZE), np.zeros(SAMPLE_SIZE)
        factor = first_year.spread ** (scores("atmosphere") / 1.96)
        rate = first_year.um_per_year * metal.standard_factor * factor
        return rate, rate * years**first_year.exponent
    record = kinetic_arrays(catalogue).records[pairing.rows[side]]
    current = np.full(SAMPLE_SIZE, record.corrosion_current_A_per_m2) * attack.wet_share
    rate = current * penetration
    return rate, rate * years ** (1.0 - _between(metal.decay_low, metal.decay_high, scores("decay")))


def _allowance(electrode: ExposedElectrode, couple: Couple, policy: Policy) -> tuple[float, str, bool]:
    if electrode.thickness_um:
        return electrode.thickness_um, "thickness of the coat", True
    if couple.section_allowance_um is not None:
        return couple.section_allowance_um, "stated by the caller", False
    return policy.allowance_um(couple.functions), f"{policy.name} for the joint's functions", False


def _coat_life(electrode: ExposedElectrode, rate: Array, decay: Array) -> tuple[Array | None, Array | None]:
    """Years until a coat is consumed: without decay of the current (low) and with it (high)."""
    if not electrode.thickness_um:
        return None, None
    with np.errstate(divide="ignore"):
        steady = electrode.thickness_um / np.maximum(rate, 1e-9)
    return steady, np.maximum(steady, steady ** (1.0 / (1.0 - decay)))
