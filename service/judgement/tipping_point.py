"""The sensitivity answer: the single input whose smallest change flips the verdict, and where."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement.areas import wetted_areas_m2
from service.judgement.couples import Couple
from service.judgement.judge import Judgement, judge
from service.judgement.policy import Policy
from service.judgement.severity import Verdict

FACTORS = tuple(float(f"{factor:.3g}") for factor in np.geomspace(0.01, 100.0, 33))
"""Factors by which each input is tried, a fifth of a decade... up to a hundredfold either way."""


@dataclass(frozen=True, slots=True)
class TippingPoint:
    """Where the verdict flips.

    The input, its present figure, the figure beyond which the verdict is another one, and that verdict.
    """

    quantity: str
    unit: str
    present: float
    flips_at: float
    becomes: Verdict


def find_tipping_point(judgement: Judgement, catalogue: Catalogue, policy: Policy) -> TippingPoint | None:
    """Search each input by factors up to a hundred either way and return the nearest flip.

    Parameters
    ----------
    judgement : Judgement
        The judgement to vary.
    catalogue : Catalogue
    policy : Policy

    Returns
    -------
    TippingPoint or None
        ``None`` where no single input within the search flips the verdict.
    """
    trials: list[tuple[_Input, float, Couple]] = []
    for varied in _inputs(judgement.couple, policy):
        trials.extend(
            (varied, factor, varied.apply(varied.present * factor)) for factor in FACTORS if factor != 1.0
        )
    judged = judge([couple for _, _, couple in trials], judgement.environment, catalogue, policy)
    flips = [
        (
            abs(float(np.log(factor))),
            TippingPoint(
                varied.quantity, varied.unit, varied.present, _figure(varied, factor), result.outcome.verdict
            ),
        )
        for (varied, factor, _), result in zip(trials, judged, strict=True)
        if result.outcome.verdict is not judgement.outcome.verdict
    ]
    return min(flips, key=lambda flip: (flip[0], flip[1].quantity))[1] if flips else None


@dataclass(frozen=True, slots=True)
class _Input:
    quantity: str
    unit: str
    present: float
    apply: Callable[[float], Couple]


def _figure(varied: _Input, factor: float) -> float:
    return float(f"{varied.present * factor:.3g}")


def _inputs(couple: Couple, policy: Policy) -> Iterator[_Input]:
    life = policy.life_years(couple)
    yield _Input("design life", "years", life, lambda value: replace(couple, design_life_years=value))
    first, second = wetted_areas_m2(couple)
    yield _Input(
        "wetted area of the first side",
        "m2",
        first,
        lambda value: replace(couple, first_area_m2=value, second_area_m2=second),
    )
    yield _Input(
        "wetted area of the second side",
        "m2",
        second,
        lambda value: replace(couple, first_area_m2=first, second_area_m2=value),
    )
    allowance = policy.section_allowance_um(couple)
    yield _Input(
        "section allowance", "um", allowance, lambda value: replace(couple, section_allowance_um=value)
    )
    for name, surface in (("first", couple.first), ("second", couple.second)):
        if surface.layers and surface.layers[0].thickness_um:
            yield _Input(
                f"coat thickness of the {name} side",
                "um",
                surface.layers[0].thickness_um,
                _thickness_setter(couple, name, surface),
            )


def _thickness_setter(couple: Couple, name: str, surface: Surface) -> Callable[[float], Couple]:
    def apply(value: float) -> Couple:
        coat = Layer(surface.layers[0].finish_id, value)
        changed = replace(surface, layers=(coat, *surface.layers[1:]))
        return replace(couple, first=changed) if name == "first" else replace(couple, second=changed)

    return apply
