"""A compound as a subject of its own: what it harms, what it helps, and where."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Compound, Rule
from service.judgement import Function
from service.judgement.compound_effect import FILLS_GAPS, STAYS_BETWEEN
from service.judgement.evidence import citation
from service.judgement.function_witness import ELECTRICAL
from service.judgement.triggers import parse
from service.remedies.plain import Document


@dataclass(frozen=True, slots=True)
class Harm:
    """What a compound does to a metal. ``severity`` is empty for a remark, ``when`` empty for always."""

    metals: tuple[str, ...]
    severity: str
    when: str
    statement: str
    advice: str
    caution: str
    rule_id: str
    citation: str


@dataclass(frozen=True, slots=True)
class Compatibility:
    """A compound with the families that it harms and helps.

    ``ends_functions`` are those that it takes away where it stays between the faces.
    """

    compound: Compound
    harms: tuple[Harm, ...]
    helps: tuple[str, ...]
    ends_functions: tuple[Function, ...]
    fills_gaps: bool


def compatibility(compound: Compound, catalogue: Catalogue) -> Compatibility:
    """Collect what the knowledge base says of a compound.

    Parameters
    ----------
    compound : Compound
    catalogue : Catalogue

    Returns
    -------
    Compatibility
        Rules that name the compound first, then families of its own record that no rule speaks of.
    """
    named = tuple(_by_rules(compound, catalogue))
    spoken_of = {metal for harm in named for metal in harm.metals}
    general = tuple(
        _by_record(compound, family, catalogue) for family in compound.attacks if family not in spoken_of
    )
    stays = not compound.is_conductive and compound.kind in STAYS_BETWEEN
    return Compatibility(
        compound,
        (*named, *general),
        compound.helps,
        tuple(function for function in Function if stays and function in ELECTRICAL),
        compound.kind in FILLS_GAPS and compound.blocks_electrolyte,
    )


def compatibility_document(found: Compatibility, catalogue: Catalogue) -> Document:
    """Build the document of a compound.

    Parameters
    ----------
    found : Compatibility
    catalogue : Catalogue

    Returns
    -------
    dict
        JSON values.
    """
    compound = found.compound
    return {
        "release": {"label": catalogue.label, "content_hash": catalogue.content_hash},
        "compound": {
            "id": compound.id,
            "name": compound.name,
            "kind": compound.kind,
            "composition": compound.composition,
            "is_conductive": compound.is_conductive,
            "temperature_min_C": compound.temperature_min_C,
            "temperature_max_C": compound.temperature_max_C,
            "reapplication": compound.reapplication or None,
            "directions": compound.directions,
            "caution": compound.caution or None,
            "note": compound.note or None,
            "citation": citation(catalogue.sources[compound.source_id], compound.locator),
        },
        "harms": [
            {
                "metals": list(harm.metals),
                "severity": harm.severity or None,
                "when": harm.when or None,
                "statement": harm.statement,
                "advice": harm.advice,
                "caution": harm.caution or None,
                "rule_id": harm.rule_id or None,
                "citation": harm.citation,
            }
            for harm in found.harms
        ],
        "helps": [{"family": family, "materials": _materials(family, catalogue)} for family in found.helps],
        "ends_functions": [function.value for function in found.ends_functions],
        "fills_gaps": found.fills_gaps,
    }


def _by_rules(compound: Compound, catalogue: Catalogue) -> Iterator[Harm]:
    for rule in catalogue.rules.values():
        trigger = parse(rule.id, rule.trigger)
        wanted = trigger.get("joint", {}).get("compound")
        if isinstance(wanted, list) and compound.id in wanted:
            yield Harm(
                tuple(_metals(trigger, catalogue)),
                rule.severity,
                _when(trigger),
                rule.statement,
                rule.advice,
                rule.caution,
                rule.id,
                _cited(rule, catalogue),
            )


def _by_record(compound: Compound, family: str, catalogue: Catalogue) -> Harm:
    return Harm(
        (family,),
        "moderate",
        "where water can come" if compound.is_conductive else "",
        f"{compound.name} attacks {family}. {compound.note}".strip(),
        f"Use another compound on {family}.",
        compound.caution,
        "",
        citation(catalogue.sources[compound.source_id], compound.locator),
    )


def _metals(trigger: Mapping[str, Any], catalogue: Catalogue) -> list[str]:
    """Families that a trigger names, or that the electrodes it names stand for; any metal if none."""
    sides = [trigger.get("one", {}), *trigger.get("pair", ())]
    found: dict[str, None] = {}
    for side in sides:
        for family in _listed(side.get("family")):
            found[family] = None
        for electrode_id in _listed(side.get("electrode")):
            found[_family(electrode_id, catalogue)] = None
    return list(found) or ["any metal"]


def _family(electrode_id: str, catalogue: Catalogue) -> str:
    electrode = catalogue.electrodes[electrode_id]
    representative = catalogue.materials.get(electrode.representative_material_id)
    return representative.family if representative else electrode.family


def _listed(matcher: object) -> list[str]:
    if isinstance(matcher, list):
        return [str(entry) for entry in matcher]
    return [matcher] if isinstance(matcher, str) else []


def _when(trigger: Mapping[str, Any]) -> str:
    """Where and for what a rule holds, in words."""
    joint = {fact: matcher for fact, matcher in trigger.get("joint", {}).items() if fact != "compound"}
    facts = {**trigger.get("environment", {}), **joint}
    return "; ".join(f"{fact} {_in_words(matcher)}" for fact, matcher in facts.items())


def _in_words(matcher: Any) -> str:
    if isinstance(matcher, dict):
        operator, operand = next(iter(matcher.items()))
        return f"{operator.replace('_', ' ')} {_in_words(operand)}"
    return " or ".join(map(str, matcher)) if isinstance(matcher, list) else str(matcher)


def _cited(rule: Rule, catalogue: Catalogue) -> str:
    return citation(catalogue.sources[rule.source_id], rule.locator)


def _materials(family: str, catalogue: Catalogue) -> list[str]:
    return [material.id for material in catalogue.materials.values() if material.family == family]
