"""What each side loses by itself: no other partner would change it, so it only sets conditions."""

from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement.couples import Couple
from service.judgement.exposed import insulating_finish, outer_electrode_id
from service.judgement.findings import Anode, Condition, Confidence, Finding, Witness
from service.judgement.metals import metal_figures
from service.judgement.policy import Policy
from service.judgement.uncoupled import first_year_loss


def self_corrosion(couple: Couple, environment: Environment, catalogue: Catalogue, policy: Policy) -> Finding:
    """Report the ISO 9223 loss of both sides over the design life, as a remark without severity."""
    years = couple.design_life_years or policy.default_design_life_years
    figures: dict[str, object] = {}
    sentences = []
    conditions = []
    for side, surface in ((Anode.FIRST, couple.first), (Anode.SECOND, couple.second)):
        electrode_id = outer_electrode_id(surface, catalogue)
        metal = metal_figures(catalogue).get(electrode_id or "")
        if metal is None or metal.standard_metal is None or insulating_finish(surface, catalogue):
            continue
        loss = first_year_loss(metal.standard_metal, environment)
        if loss is None:
            continue
        rate = loss.um_per_year * metal.standard_factor
        total = rate * years**loss.exponent
        figures[f"{side.value}_um_per_year"] = rate
        figures[f"{side.value}_um"] = total
        figures[f"{side.value}_category"] = loss.category
        name = catalogue.electrodes[electrode_id or ""].name
        sentences.append(f"{name} loses about {total:.3g} um by itself in {years:g} years ({loss.basis})")
        if total > policy.allowance_um(couple.functions):
            conditions.append(
                Condition(
                    code="protect-bare-metal",
                    action=f"Protect the {side.value} side or add a corrosion allowance: by itself it loses "
                    "more than the joint can stand, whatever it touches.",
                    who="designer",
                    how_verified="protection system or allowance on the drawing",
                )
            )
    if not sentences:
        return Finding(
            Witness.SELF_CORROSION,
            "ISO 9223 does not cover this exposure or these metals.",
            abstains="outside ISO 9223",
        )
    return Finding(
        Witness.SELF_CORROSION,
        "; ".join(sentences) + ".",
        confidence=Confidence.MEDIUM,
        grade="C",
        figures=figures,
        conditions=tuple(conditions),
    )
