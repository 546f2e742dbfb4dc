"""From current densities to loss over a design life, for all lanes at once.

Outdoors the anchor is ISO 9223: ``r(t) = r_ISO t^B + galvanic``. Severity is judged on what the
couple adds, at the engaged zone beside the joint; what a metal loses by itself is reported by a
witness of its own, because no other partner would change it.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.chemistry.atmosphere import cumulative_loss
from service.chemistry.faraday import deepest_attack, dissolved_current, loss_after, plating_life_years
from service.chemistry.pits import pit_depth
from service.judgement.attack import Attack
from service.judgement.couples import Couple, Function
from service.judgement.draws import kinetic_arrays, scores
from service.judgement.exposed import ExposedElectrode
from service.judgement.exposed import Exposure as Exposed
from service.judgement.lanes import Pairing
from service.judgement.metals import MAGNESIUM_EFFICIENCY, MetalFigures, metal_figures
from service.judgement.policy import Policy
from service.judgement.uncoupled import FirstYearLoss, first_year_loss

Array = NDArray[np.float64]

FALLBACK_UM_PER_YEAR_PER_A_PER_M2 = 1500.0
"""Penetration taken where a metal's composition or density is not known: between iron and zinc."""

PIT_DECAY = (0.5, 0.67)
"""An isolated pit deepens with the square to the cube root of time (Godard's law for aluminium,
from memory), so the current density at an opening dies down with these exponents."""

DEEPEST_COUNTS = frozenset({Function.SEAL})
"""Functions for which the deepest point decides rather than the mean."""

_BOUND = 1.6449
"""Normal score of 95 %."""

_STATED = 1.96
"""Normal score of the 95 % range within which ISO 9223 states its uncertainty."""

_NO_LOSS = 1e-9

COAT_BASIS = "thickness of the coat"
"""What a coat may lose: all of it."""


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
    """Loss of both sides of every lane.

    Parameters
    ----------
    pairings : sequence of Pairing
        One for each lane.
    attack : Attack
        Year-mean current densities of the lanes [A/m2].
    couples : sequence of Couple
        What the pairings belong to: design life [years], allowance [um], functions.
    environment : Environment
        Decides what a metal loses by itself.
    catalogue : Catalogue
        Gives penetration per current [um/y per A/m2], pitting factors and decay exponents [-].
    policy : Policy
        Default life [years] and allowances [um].

    Returns
    -------
    Losses
        Rates of the first year [um/y], losses over the design life [um], lives of coats [years].
    """
    metals = _Metals(pairings, catalogue)
    allowances = _allowances(pairings, couples, policy)
    years = np.array([policy.life_years(couples[pairing.couple]) for pairing in pairings])[:, None]
    penetration = metals.column(penetration_of)
    decay = _decay(metals, pairings)
    # A pit behind an opening cannot eat more than the current through the mouth; elsewhere it is no number.
    fed, radii_um = attack.unchoked_density * penetration, _opening_radii_um(pairings)
    straight = attack.galvanic_density * penetration
    rate = np.fmin(straight, pit_depth(fed, radii_um))
    galvanic = np.fmin(loss_after(years, straight, decay), pit_depth(fed * years, radii_um))
    deepest = deepest_attack(galvanic, _pitting(metals))
    if environment.exposure is Exposure.ATMOSPHERE and not environment.is_sheltered:
        alone, uncoupled = _by_standard(metals, environment, years)
    else:
        current = _rest_current(pairings, catalogue) * attack.wet_share
        alone = current * penetration * np.ones_like(decay)
        uncoupled = loss_after(years, alone, decay)
    is_coat = allowances.is_coat[:, :, None]
    life = plating_life_years(allowances.um[:, :, None], np.maximum(rate + alone, _NO_LOSS), decay)
    return Losses(
        galvanic_rate=rate,
        uncoupled_rate=alone,
        galvanic=galvanic,
        deepest=deepest,
        uncoupled=uncoupled,
        judged=np.where(allowances.counts_deepest[:, :, None], deepest, galvanic),
        allowance_um=allowances.um,
        allowance_basis=allowances.basis,
        is_coat=allowances.is_coat,
        life_low=np.where(is_coat, life.undecayed, np.inf),
        life_high=np.where(is_coat, life.decayed, np.inf),
    )


def _decay(metals: _Metals, pairings: Sequence[Pairing]) -> Array:
    """Exponent of the dying current: of the metal, or of an isolated pit at an opening."""
    is_pit = np.array(
        [[pairing.electrodes[side].exposure is not Exposed.OUTER for pairing in pairings] for side in (0, 1)]
    )[:, :, None]
    low, high = PIT_DECAY
    return between(
        np.where(is_pit, low, metals.column(lambda metal: metal.decay_low)),
        np.where(is_pit, high, metals.column(lambda metal: metal.decay_high)),
        scores("decay"),
    )


def _opening_radii_um(pairings: Sequence[Pairing]) -> Array:
    """Radius of the opening behind which a side lies [um], shape ``(2, lanes, 1)``; else not a number."""
    radii_m = [[pairing.electrodes[side].defect_radius_m for pairing in pairings] for side in (0, 1)]
    return np.asarray(np.array(radii_m, dtype=np.float64)[:, :, None] * 1e6)


class _Metals:
    """Figures of the metals of all lanes, by side."""

    def __init__(self, pairings: Sequence[Pairing], catalogue: Catalogue) -> None:
        table = metal_figures(catalogue)
        electrodes = [[pairing.electrodes[side].electrode_id for pairing in pairings] for side in (0, 1)]
        places: dict[str, int] = {}
        for electrode in itertools.chain.from_iterable(electrodes):
            places.setdefault(electrode, len(places))
        self.figures = [table[electrode] for electrode in places]
        self.places = np.array([[places[electrode] for electrode in side] for side in electrodes])

    def column(self, figure: Callable[[MetalFigures], float]) -> Array:
        """One figure, shape ``(2, lanes, 1)``."""
        values = np.array([figure(metal) for metal in self.figures], dtype=np.float64)
        return np.asarray(values[self.places][:, :, None])


@dataclass(frozen=True, slots=True)
class _Allowances:
    """What every side of every lane may lose, shape ``(2, lanes)``."""

    um: Array
    basis: tuple[tuple[str, ...], tuple[str, ...]]
    is_coat: NDArray[np.bool_]
    counts_deepest: NDArray[np.bool_]


def _allowances(pairings: Sequence[Pairing], couples: Sequence[Couple], policy: Policy) -> _Allowances:
    entries = [
        [allowance_of(pairing.electrodes[side], couples[pairing.couple], policy) for pairing in pairings]
        for side in (0, 1)
    ]
    is_coat = np.array([[is_coat for _, _, is_coat in side] for side in entries])
    must_be_tight = [not DEEPEST_COUNTS.isdisjoint(couples[pairing.couple].functions) for pairing in pairings]
    first, second = (tuple(basis for _, basis, _ in side) for side in entries)
    return _Allowances(
        um=np.array([[um for um, _, _ in side] for side in entries]),
        basis=(first, second),
        is_coat=is_coat,
        counts_deepest=np.array(must_be_tight) & ~is_coat,
    )


def _pitting(metals: _Metals) -> Array:
    """Deepest over mean attack [-]."""
    low = np.log(metals.column(lambda metal: metal.pitting_low))
    high = np.log(metals.column(lambda metal: metal.pitting_high))
    return np.asarray(np.exp(between(low, high, scores("pitting"))))


def _by_standard(metals: _Metals, environment: Environment, years: Array) -> tuple[Array, Array]:
    """First-year rate [um/y] and loss over the design life [um] by ISO 9223 and ISO 9224."""
    rate = metals.column(
        lambda metal: _first_year(metal, environment, "um_per_year", 0.0) * metal.standard_factor
    )
    scatter = metals.column(lambda metal: _first_year(metal, environment, "spread", 1.0))
    exponent = metals.column(lambda metal: _first_year(metal, environment, "exponent", 1.0))
    drawn = rate * scatter ** (scores("atmosphere") / _STATED)
    return drawn, cumulative_loss(drawn, exponent, years)


def _first_year(metal: MetalFigures, environment: Environment, figure: str, default: float) -> float:
    loss: FirstYearLoss | None = None
    if metal.standard_metal is not None:
        loss = first_year_loss(metal.standard_metal, environment)
    return default if loss is None else float(getattr(loss, figure))


def _rest_current(pairings: Sequence[Pairing], catalogue: Catalogue) -> Array:
    """Corrosion current density of every side by itself [A/m2], shape ``(2, lanes, 1)``."""
    rows = np.array([pairing.rows for pairing in pairings]).T
    return np.asarray(kinetic_arrays(catalogue).current.central[rows][:, :, None])


def penetration_of(metal: MetalFigures) -> float:
    """Penetration of one ampere per square metre of net current all year round.

    Parameters
    ----------
    metal : MetalFigures

    Returns
    -------
    float
        Penetration [um/y per A/m2]; zero for an inert metal, doubled for magnesium.
    """
    if metal.is_inert:
        return 0.0
    figure = metal.um_per_year_per_A_per_m2 or FALLBACK_UM_PER_YEAR_PER_A_PER_M2
    return float(dissolved_current(figure, MAGNESIUM_EFFICIENCY)) if metal.is_magnesium else figure


def between(low: Array, high: Array, normal: Array) -> Array:
    """Spread a range over the normal scores, 5 % at its low and 95 % at its high end.

    Parameters
    ----------
    low, high : ndarray
        Ends of the range [any].
    normal : ndarray
        Standard normal scores [-].

    Returns
    -------
    ndarray
        Figures within the range [unit of low].
    """
    return np.clip((low + high) / 2.0 + normal / _BOUND * (high - low) / 2.0, low, high)


def allowance_of(electrode: ExposedElectrode, couple: Couple, policy: Policy) -> tuple[float, str, bool]:
    """Say what an electrode may lose.

    Parameters
    ----------
    electrode : ExposedElectrode
        A coat may lose its thickness [um].
    couple : Couple
        May state an allowance of the section [um].
    policy : Policy
        Allowances by function [um].

    Returns
    -------
    tuple of (float, str, bool)
        Allowance [um], its ground, and whether the electrode is a coat.
    """
    if electrode.thickness_um:
        return electrode.thickness_um, COAT_BASIS, True
    is_stated = couple.section_allowance_um is not None
    basis = "stated by the caller" if is_stated else f"{policy.name} for the joint's functions"
    return policy.section_allowance_um(couple), basis, False
