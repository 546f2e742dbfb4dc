"""What the compound between two surfaces does to them.

A compound can attack a metal, insulate a joint that must conduct, or be used beyond its temperature: each
makes the hazards worse. Its sealing is counted with care: galvanic current still runs along the wet edge
outside the joint, so the computed loss stays as it is, and a filled gap turns a severe crevice into a
moderate one at best, on the condition that it stays filled.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade, is_read
from service.catalogue.records import Compound, ElectrolyteClass, Environment, Exposure
from service.catalogue.surfaces import Surface
from service.judgement.couples import Couple, Function
from service.judgement.exposed import outer_electrode_id
from service.judgement.findings import Condition, Confidence, Finding, Witness
from service.judgement.rules import Hit
from service.judgement.severity import Severity, worst
from service.judgement.triggers import parse

FILLS_GAPS = frozenset({"sealant", "adhesive", "grease"})
"""Kinds that fill the gap between faying surfaces; gaskets and tapes make crevices of their own."""

STAYS_BETWEEN = frozenset({"sealant", "adhesive", "tape", "coating", "locker", "gasket"})
"""Kinds that stay between the faces; greases and preventives are pressed out of contact spots."""

_CONDUCTS = frozenset(
    {
        Function.ELECTRICAL_BOND,
        Function.PROTECTIVE_EARTH,
        Function.POWER_CONTACT,
        Function.SIGNAL_CONTACT,
        Function.RF,
    }
)


@dataclass(frozen=True, slots=True)
class _Harm:
    code: str
    statement: str
    advice: str


def with_compound(
    findings: Mapping[Witness, Finding],
    couple: Couple,
    environment: Environment,
    catalogue: Catalogue,
    found: Sequence[Hit],
) -> dict[Witness, Finding]:
    """Findings of a couple with what its compound does.

    Parameters
    ----------
    findings : mapping of Witness to Finding
        Hazards and crevice among them.
    couple : Couple
        Names the compound, or none.
    environment : Environment
    catalogue : Catalogue
    found : sequence of Hit
        Rules that apply; where one names the compound, it speaks instead of the general statement.

    Returns
    -------
    dict of Witness to Finding
        The same findings; those of hazards and crevice may be changed.
    """
    changed = dict(findings)
    compound = catalogue.compounds.get(couple.compound_id)
    if compound is None:
        return changed
    harms = () if _is_named(compound, found) else _harms(compound, couple, environment, catalogue)
    if harms:
        changed[Witness.HAZARDS] = _worsened(changed[Witness.HAZARDS], compound, harms)
    elif compound.kind in FILLS_GAPS and compound.blocks_electrolyte:
        changed[Witness.CREVICE] = _filled(changed[Witness.CREVICE], compound, environment)
    return changed


def attacked_family(surface: Surface, compound: Compound, catalogue: Catalogue) -> str:
    """Family of a surface's outer metal if the compound attacks it.

    Parameters
    ----------
    surface : Surface
    compound : Compound
    catalogue : Catalogue

    Returns
    -------
    str
        Empty where it does not.
    """
    family = outer_family(surface, catalogue)
    return family if family in compound.attacks else ""


def outer_family(surface: Surface, catalogue: Catalogue) -> str:
    """Family of the metal that a compound meets: that of the outermost metallic coat, else the base's.

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    str
    """
    material = catalogue.materials.get(surface.material_id or "")
    electrode = catalogue.electrodes.get(outer_electrode_id(surface, catalogue) or "")
    if electrode is not None and (material is None or material.electrode_id != electrode.id):
        representative = catalogue.materials.get(electrode.representative_material_id)
        return representative.family if representative else electrode.family
    return material.family if material else surface.basis_family


def _is_named(compound: Compound, found: Sequence[Hit]) -> bool:
    return any(
        hit.match.is_certain
        and compound.id in parse(hit.rule.id, hit.rule.trigger).get("joint", {}).get("compound", ())
        for hit in found
    )


def _harms(
    compound: Compound, couple: Couple, environment: Environment, catalogue: Catalogue
) -> tuple[_Harm, ...]:
    harms = []
    needs_water = compound.is_conductive and environment.electrolyte_class is ElectrolyteClass.NONE
    for surface in (couple.first, couple.second):
        family = attacked_family(surface, compound, catalogue)
        if family and not needs_water:
            statement = f"{compound.name} attacks {family}. {compound.note}".strip()
            harms.append(_Harm("change-compound", statement, f"Use another compound on {family}."))
    if not compound.is_conductive and compound.kind in STAYS_BETWEEN and _CONDUCTS & set(couple.functions):
        harms.append(
            _Harm(
                "bond-through-compound",
                f"{compound.name} insulates, and this joint must conduct.",
                "Clean the contact faces and bond metal to metal, then apply the compound around the joint.",
            )
        )
    harms.extend(_too_hot_or_cold(compound, couple, environment))
    return tuple(dict.fromkeys(harms))


def _too_hot_or_cold(compound: Compound, couple: Couple, environment: Environment) -> list[_Harm]:
    stated = couple.joint_temperature_C
    temperature = stated if stated is not None else environment.temperature_C
    low, high = compound.temperature_min_C, compound.temperature_max_C
    if temperature is None or ((low is None or temperature >= low) and (high is None or temperature <= high)):
        return []
    return [
        _Harm(
            "compound-temperature",
            f"{compound.name} is used at {temperature:g} degC, outside its range.",
            f"Use a compound made for {temperature:g} degC.",
        )
    ]


def _worsened(finding: Finding, compound: Compound, harms: Sequence[_Harm]) -> Finding:
    severities = [Severity.MODERATE, *([finding.severity] if finding.severity else [])]
    statements = [finding.statement] if finding.applies else []
    conditions = tuple(
        Condition(harm.code, harm.advice, "designer", "compound named on the drawing and at assembly")
        for harm in harms
    )
    return replace(
        finding,
        statement=" ".join([*statements, *(harm.statement for harm in harms)]),
        severity=worst(severities),
        abstains="",
        confidence=Confidence.HIGH if is_read(compound.obtained) else Confidence.MEDIUM,
        grade=max(filter(None, (finding.grade, grade(compound.obtained))), default=None),
        evidence=(*finding.evidence, ("compounds", compound.id)),
        conditions=(*finding.conditions, *conditions),
        cautions=(*finding.cautions, *([compound.caution] if compound.caution else [])),
    )


def _filled(finding: Finding, compound: Compound, environment: Environment) -> Finding:
    if finding.severity is not Severity.SEVERE or environment.exposure is Exposure.IMMERSED:
        return finding
    keep = Condition(
        "keep-gap-filled",
        f"Keep the gap filled with {compound.name.lower()} ({compound.reapplication or 'inspect'}).",
        "maintainer",
        "no gap, crack or loose edge at inspection",
    )
    return replace(
        finding,
        statement=f"{finding.statement} {compound.name} fills the gap.",
        severity=Severity.MODERATE,
        evidence=(*finding.evidence, ("compounds", compound.id)),
        conditions=(*finding.conditions, keep),
    )
