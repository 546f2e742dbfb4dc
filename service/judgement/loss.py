"""From current densities to loss over a design life, for all lanes at once.

Outdoors the anchor is ISO 9223: ``r(t) = r_ISO t^B + galvanic``. Severity is judged on what the
couple adds, at the engaged zone beside the joint; what a metal loses by itself is reported by a
witness of its own, because no other partner would change it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.chemistry.faraday import deepest_attack, dissolved_current, loss_after, plating_life_years
from service.judgement.attack import Attack
from service.judgement.couples import Couple, Function
from service.judgement.draws import kinetic_arrays, scores
from service.judgement.exposed import ExposedElectrode
from service.judgement.lanes import Pairing
from service.judgement.metals import MAGNESIUM_EFFICIENCY, MetalFigures, metal_figures
from service.judgement.policy import Policy
from service.judgement.uncoupled import FirstYearLoss, first_year_loss

Array = NDArray[np.float64]

FALLBACK_UM_PER_YEAR_PER_A_PER_M2 = 1500.0
"""Penetration taken where a metal's composition or density is not known: between iron and zinc."""

DEEPEST_COUNTS = frozenset({Function.SEAL})
"""Functions for which the deepest point decides rather than the mean."""

_BOUND = 1.6449
_STATED = 1.96
_NO_LOSS = 1e-9


@dataclass(frozen=True, slots=True)
class Losses:
    """Loss of both sides of all lanes, ``(2, lanes, SAMPLE_SIZE)`` in micrometres or um/y.

    ``galvanic_rate`` and ``uncoupled_rate`` are first-year figures at the engaged zone;
    ``galvanic``, ``deepest`` and ``uncoupled`` hold over the design life; ``judged`` is the one
    that severity looks at. ``allowance_um`` and ``is_coat`` have the shape ``(2, lanes)``;
    ``life_low`` and ``life_high`` are years until a coat is gone, without and with decay of the
    current, infinite where there is no coat.
    """

    galvanic_rate: Array
    uncoupled_rate: Array
    galvanic: Array
    deepest: Array
    uncoupled: Array
    judged: Array
    allowance_um: Array
    allowance_basis: tuple[tuple[str, ...], tuple[str, ...]]
    is_coat: NDArray[np.bool_]
    life_low: Array
    life_high: Array

    @property
    def ratio(self) -> Array:
        """Judged loss over allowance [-]."""
        return self.judged / self.allowance_um[:, :, None]


def losses(
    pairings: Sequence[Pairing],
    attack: Attack,
    couples: Sequence[Couple],
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy,
) -> Losses:
    """Loss of both sides of every lane."""
    metals = _Metals(pairings, catalogue)
    years = np.array(
        [
            couples[pairing.couple].design_life_years or policy.default_design_life_years
            for pairing in pairings
        ]
    )[None, :, None]
    penetration = metals.column(penetration_of)
    decay = between(
        metals.column(lambda metal: metal.decay_low),
        metals.column(lambda metal: metal.decay_high),
        scores("decay"),
    )
    rate = attack.galvanic_density * penetration
    galvanic = loss_after(years, rate, decay)
    pitting = np.exp(
        between(
            np.log(metals.column(lambda metal: metal.pitting_low)),
            np.log(metals.column(lambda metal: metal.pitting_high)),
            scores("pitting"),
        )
    )
    deepest = deepest_attack(galvanic, pitting)
    uncoupled_rate, uncoupled = _uncoupled(metals, attack, penetration, decay, environment, years, catalogue)
    allowances = [
        [allowance_of(pairing.electrodes[side], couples[pairing.couple], policy) for pairing in pairings]
        for side in (0, 1)
    ]
    is_coat = np.array([[entry[2] for entry in side] for side in allowances])
    allowance = np.array([[entry[0] for entry in side] for side in allowances])
    seals = np.array([bool(DEEPEST_COUNTS & set(couples[pairing.couple].functions)) for pairing in pairings])
    counts_deepest = (seals[None, :] & ~is_coat)[:, :, None]
    life = plating_life_years(allowance[:, :, None], np.maximum(rate + uncoupled_rate, _NO_LOSS), decay)
    return Losses(
        galvanic_rate=rate,
        uncoupled_rate=uncoupled_rate,
        galvanic=galvanic,
        deepest=deepest,
        uncoupled=uncoupled,
        judged=np.where(counts_deepest, deepest, galvanic),
        allowance_um=allowance,
        allowance_basis=(
            tuple(entry[1] for entry in allowances[0]),
            tuple(entry[1] for entry in allowances[1]),
        ),
        is_coat=is_coat,
        life_low=np.where(is_coat[:, :, None], life.undecayed, np.inf),
        life_high=np.where(is_coat[:, :, None], life.decayed, np.inf),
    )


class _Metals:
    """Figures of the metals of all lanes, by side."""

    def __init__(self, pairings: Sequence[Pairing], catalogue: Catalogue) -> None:
        table = metal_figures(catalogue)
        self.pairings = pairings
        self.figures = [
            [table[pairing.electrodes[side].electrode_id] for pairing in pairings] for side in (0, 1)
        ]

    def column(self, figure: Callable[[MetalFigures], float]) -> Array:
        """One figure, shape ``(2, lanes, 1)``."""
        return np.array([[figure(metal) for metal in side] for side in self.figures])[:, :, None]


def penetration_of(metal: MetalFigures) -> float:
    """Penetration of one ampere per square metre of net current all year round [um/y]."""
    if metal.is_inert:
        return 0.0
    figure = metal.um_per_year_per_A_per_m2 or FALLBACK_UM_PER_YEAR_PER_A_PER_M2
    return float(dissolved_current(figure, MAGNESIUM_EFFICIENCY)) if metal.is_magnesium else figure


def between(low: Array, high: Array, normal: Array) -> Array:
    """Spread a range over the normal scores, 5 % at its low and 95 % at its high end."""
    return np.clip((low + high) / 2.0 + normal / _BOUND * (high - low) / 2.0, low, high)


def _uncoupled(
    metals: _Metals,
    attack: Attack,
    penetration: Array,
    decay: Array,
    environment: Environment,
    years: Array,
    catalogue: Catalogue,
) -> tuple[Array, Array]:
    """What each side loses by itself: by ISO 9223 in open air, else by its corrosion current."""
    if environment.exposure is Exposure.ATMOSPHERE and not environment.is_sheltered:
        rate = metals.column(
            lambda metal: _first_year(metal, environment, "um_per_year", 0.0) * metal.standard_factor
        )
        spread = metals.column(lambda metal: _first_year(metal, environment, "spread", 1.0))
        exponent = metals.column(lambda metal: _first_year(metal, environment, "exponent", 1.0))
        drawn = rate * spread ** (scores("atmosphere") / _STATED)
        return drawn, drawn * years**exponent
    rows = np.array([pairing.rows for pairing in metals.pairings]).T
    steady = (
        kinetic_arrays(catalogue).current.central[rows][:, :, None]
        * attack.wet_share
        * penetration
        * np.ones_like(decay)
    )
    return steady, loss_after(years, steady, decay)


def _first_year(metal: MetalFigures, environment: Environment, figure: str, default: float) -> float:
    loss: FirstYearLoss | None = None
    if metal.standard_metal is not None:
        loss = first_year_loss(metal.standard_metal, environment)
    return default if loss is None else float(getattr(loss, figure))


def allowance_of(electrode: ExposedElectrode, couple: Couple, policy: Policy) -> tuple[float, str, bool]:
    """What an electrode may lose [um], on which ground, and whether it is a coat."""
    if electrode.thickness_um:
        return electrode.thickness_um, "thickness of the coat", True
    if couple.section_allowance_um is not None:
        return couple.section_allowance_um, "stated by the caller", False
    return policy.allowance_um(couple.functions), f"{policy.name} for the joint's functions", False
