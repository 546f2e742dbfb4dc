"""What each side loses by itself: no other partner would change it, so it only sets conditions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement.couples import Couple
from service.judgement.exposed import insulating_finish, outer_electrode_id
from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.json_values import figure
from service.judgement.metals import metal_figures
from service.judgement.policy import Policy
from service.judgement.uncoupled import FirstYearLoss, first_year_loss, growth


@dataclass(frozen=True, slots=True)
class _Alone:
    """First-year loss of an electrode that follows a standard metal."""

    name: str
    um_per_year: float
    standard: FirstYearLoss


def self_corrosion(couple: Couple, environment: Environment, catalogue: Catalogue, policy: Policy) -> Finding:
    """Report the ISO 9223 loss of both sides over the design life, as a remark without severity.

    Parameters
    ----------
    couple : Couple
        Its design life [years] and section allowance [um] count.
    environment : Environment
    catalogue : Catalogue
    policy : Policy
        Default life [years] and allowances [um].

    Returns
    -------
    Finding
        First-year rates [um/y] and losses over the design life [um]; abstains outside ISO 9223. A
        side that loses more than the section can stand must be protected.
    """
    alone = _alone(environment, catalogue)
    years, allowance_um = policy.life_years(couple), policy.section_allowance_um(couple)
    figures: dict[str, object] = {}
    sentences, conditions = [], []
    for side, surface in ((Anode.FIRST, couple.first), (Anode.SECOND, couple.second)):
        metal = alone.get(outer_electrode_id(surface, catalogue) or "")
        if metal is None or insulating_finish(surface, catalogue) is not None:
            continue
        total = figure(metal.um_per_year * growth(metal.standard.exponent, years)) or 0.0
        figures[f"{side.value}_um_per_year"] = metal.um_per_year
        figures[f"{side.value}_um"] = total
        figures[f"{side.value}_category"] = metal.standard.category
        basis = metal.standard.basis
        sentences.append(f"{metal.name} loses about {total:.3g} µm by itself in {years:.3g} years ({basis})")
        if total > allowance_um:
            conditions.append(_PROTECT[side])
    if not sentences:
        return _SILENT
    return Finding(
        Witness.SELF_CORROSION,
        "; ".join(sentences) + ".",
        confidence=Confidence.MEDIUM,
        grade="C",
        figures=figures,
        conditions=tuple(conditions),
    )


@lru_cache(maxsize=1024)
def _alone(environment: Environment, catalogue: Catalogue) -> Mapping[str, _Alone]:
    """Loss of every electrode that ISO 9223 covers in an environment."""
    found = {}
    for electrode_id, metal in metal_figures(catalogue).items():
        loss = first_year_loss(metal.standard_metal, environment) if metal.standard_metal else None
        if loss is not None:
            name = catalogue.electrodes[electrode_id].name
            found[electrode_id] = _Alone(name, loss.um_per_year * metal.standard_factor, loss)
    return found


_PROTECT = {
    side: Condition(
        code="protect-bare-metal",
        action=f"Protect the {side.value} side or add a corrosion allowance: by itself it loses more than "
        "the joint can stand, whatever it touches.",
        who="designer",
        how_verified="protection system or allowance on the drawing",
    )
    for side in (Anode.FIRST, Anode.SECOND)
}

_SILENT = Finding(
    Witness.SELF_CORROSION,
    "ISO 9223 does not cover this exposure or these metals.",
    abstains="outside ISO 9223",
)
