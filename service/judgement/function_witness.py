"""What a couple does to the function of its joint: contact, radio frequency, bond, seal, section.

Initial figures only. How corrosion raises resistance is said in words, because no model of it is
good enough for a figure; each result says what it neglects.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Measurement
from service.catalogue.surfaces import Surface
from service.chemistry.bonding import BOND_LIMITS
from service.chemistry.contact import constriction_resistance_ohm, minimum_force_N
from service.chemistry.contact_heat import heat_W, share_of_budget_left, spot_temperature_C, voltage_drop_V
from service.chemistry.errors import ChemistryError
from service.chemistry.intermodulation import products_in_bands
from service.chemistry.rounding import three_significant
from service.judgement.couples import Couple, Function
from service.judgement.exposed import insulating_finish, outer_electrode_id
from service.judgement.findings import Condition, Confidence, Finding, Witness
from service.judgement.measured import best_measurement, figure_of

ELECTRICAL = frozenset(
    {
        Function.ELECTRICAL_BOND,
        Function.PROTECTIVE_EARTH,
        Function.POWER_CONTACT,
        Function.SIGNAL_CONTACT,
        Function.RF,
    }
)
NEGLECTS_CONTACT = (
    "initial metallic contact only: films, fretting, relaxation, more than one spot and the bulk of the "
    "members are neglected"
)
NEGLECTS_RF = (
    "which products fall into the bands only: no level is claimed, and a clean tight joint may make none"
)
HIGHEST_ORDER = 7
PASCAL_PER_VICKERS = 9.80665e6
ROOM_C = 20.0

_INDENTATION_UNITS = frozenset({"HV", "HB"})
"""Hardness numbers that are a pressure in kgf/mm2; Brinell and Vickers are taken as alike, Rockwell
scales are not pressures."""

WIRING_CAUTION = (
    "Wiring and protective earthing are subject to the local electrical code and to licensed persons; an "
    "overheated joint can start a fire."
)


SPREAD_THE_CONTACT = Condition(
    code="spread-the-contact",
    action="Raise the contact force or add contacts in parallel: at this current the contact metal softens.",
    who="designer",
    how_verified="voltage drop at rated current, measured on the finished joint",
)


@dataclass(frozen=True, slots=True)
class _Metal:
    """What a contact face is made of."""

    resistivity_ohm_m: float
    hardness_Pa: float
    softening: Measurement | None
    evidence: tuple[tuple[str, str], ...]


@dataclass(slots=True)
class _Report:
    """What is said about the functions of a joint, filled step by step."""

    figures: dict[str, Any] = field(default_factory=dict)
    statements: list[str] = field(default_factory=list)
    conditions: list[Condition] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)
    evidence: list[tuple[str, str]] = field(default_factory=list)


def function_findings(couple: Couple, environment: Environment, catalogue: Catalogue) -> Finding:
    """Report on every declared function; a remark with figures, conditions and cautions.

    Parameters
    ----------
    couple : Couple
        Its functions and electrical duty: current [A], force [N], limits [ohm, V], bands [MHz].
    environment : Environment
        Gives the temperature of the joint where the couple states none [degC].
    catalogue : Catalogue
        Gives resistivity [ohm m] and hardness [HV, HB].

    Returns
    -------
    Finding
        Resistance [mOhm], voltage drop [mV], heat [W], temperature of the spot and of softening
        [degC] with the margin between them [K], products
        [MHz]; abstains where no electrical function is declared.
    """
    declared = set(couple.functions)
    if not declared & ELECTRICAL:
        return _SILENT
    report = _Report()
    _insulated(couple, catalogue, report)
    _contact(couple, environment, catalogue, report)
    _bond(couple, report)
    _radio(couple, report)
    report.statements.append(
        "Corrosion products at the joint raise its resistance with time; by how much is not computed."
    )
    return Finding(
        Witness.FUNCTION,
        " ".join(report.statements),
        confidence=Confidence.LOW,
        grade="D",
        figures=report.figures,
        evidence=tuple(dict.fromkeys(report.evidence)),
        conditions=tuple(report.conditions),
        cautions=(WIRING_CAUTION,) if declared & {Function.PROTECTIVE_EARTH, Function.POWER_CONTACT} else (),
        missing=tuple(report.missing),
    )


_SILENT = Finding(Witness.FUNCTION, "No electrical function is declared.", abstains="no electrical function")


def _insulated(couple: Couple, catalogue: Catalogue, report: _Report) -> None:
    for name, surface in (("first", couple.first), ("second", couple.second)):
        finish = insulating_finish(surface, catalogue)
        if finish is None:
            continue
        report.statements.append(f"The {name} side carries an insulating finish ({finish.name}).")
        report.conditions.append(
            Condition(
                code="bare-contact-face",
                action=f"Leave the contact face of the {name} side free of {finish.name.lower()} and protect "
                "it after assembly.",
                who="manufacturer",
                how_verified="resistance across the joint after assembly",
            )
        )


def _contact(couple: Couple, environment: Environment, catalogue: Catalogue, report: _Report) -> None:
    force = couple.contact.force_N
    if force is None:
        report.missing.append("contact force, for the resistance of the joint")
        return
    first, second = (_metal(surface, catalogue) for surface in (couple.first, couple.second))
    if first is None or second is None:
        report.missing.append("hardness and resistivity of both contact metals")
        return
    softer = min(first.hardness_Pa, second.hardness_Pa)
    rho = first.resistivity_ohm_m, second.resistivity_ohm_m
    resistance = float(three_significant(constriction_resistance_ohm(*rho, softer, force)))
    report.figures["contact_resistance_mOhm"] = resistance * 1e3
    report.figures["contact_neglects"] = NEGLECTS_CONTACT
    report.evidence.extend((*first.evidence, *second.evidence))
    report.statements.append(
        f"Initial constriction resistance is about {resistance * 1e3:.3g} mOhm at {force:g} N."
    )
    _heat(couple, environment, resistance, report)
    _softening((first, second), report)
    if couple.contact.bond_limit_ohm:
        needed = float(minimum_force_N(*rho, softer, couple.contact.bond_limit_ohm))
        report.figures["minimum_force_N"] = needed


def _heat(couple: Couple, environment: Environment, resistance_ohm: float, report: _Report) -> None:
    current = couple.contact.current_A
    if current is None:
        return
    stated = couple.joint_temperature_C
    body_C = environment.temperature_C if stated is None else stated
    drop = float(voltage_drop_V(current, resistance_ohm))
    spot = float(spot_temperature_C(drop, ROOM_C if body_C is None else body_C))
    report.figures["voltage_drop_mV"] = drop * 1e3
    report.figures["heat_W"] = float(heat_W(current, resistance_ohm))
    report.figures["hottest_spot_C"] = spot
    report.statements.append(
        f"At {current:g} A it drops {drop * 1e3:.3g} mV and its hottest spot is near {spot:.3g} degC."
    )
    if couple.contact.voltage_budget_V:
        left = float(share_of_budget_left(drop, couple.contact.voltage_budget_V))
        report.figures["voltage_budget_left_pct"] = left * 100.0
        report.statements.append(f"{left * 100.0:.3g} % of the voltage budget is left when new.")


def _softening(metals: tuple[_Metal, _Metal], report: _Report) -> None:
    """How far the hottest spot is from the temperature at which the softer-when-hot metal yields."""
    spot, known = report.figures.get("hottest_spot_C"), [metal.softening for metal in metals]
    voltages = {row.id: figure_of(row) or 0.0 for row in known if row is not None}
    if spot is None or not voltages:
        return
    softens = float(three_significant(spot_temperature_C(min(voltages.values()), ROOM_C)))
    report.evidence.extend(("measurements", row_id) for row_id in voltages)
    report.figures["softening_temperature_C"] = softens
    report.figures["softening_margin_K"] = softens - spot
    if spot < softens:
        report.statements.append(f"A contact metal softens near {softens:.3g} degC.")
        return
    report.statements.append(
        f"A contact metal softens near {softens:.3g} degC, so the spot spreads and heats on."
    )
    report.conditions.append(SPREAD_THE_CONTACT)


def _bond(couple: Couple, report: _Report) -> None:
    resistance = report.figures.get("contact_resistance_mOhm")
    if resistance is None:
        return
    limit = couple.contact.bond_limit_ohm
    if limit is not None:
        meets = resistance * 1e-3 <= limit
        report.figures["meets_bond_limit"] = meets
        report.statements.append(
            f"That is {'within' if meets else 'above'} the stated limit of {limit * 1e3:g} mOhm."
        )
    report.figures["bond_classes"] = [
        {
            "name": bond.name,
            "limit_mOhm": bond.limit_ohm * 1e3,
            "is_met": resistance * 1e-3 <= bond.limit_ohm,
            "source": bond.source,
            "obtained": bond.obtained,
        }
        for bond in BOND_LIMITS
    ]


def _radio(couple: Couple, report: _Report) -> None:
    if Function.RF not in couple.functions:
        return
    contact = couple.contact
    if len(contact.carriers_MHz) < 2 or not contact.receive_bands_MHz:  # noqa: PLR2004 - products need two
        report.missing.append("carriers and receive bands, for intermodulation products")
        return
    try:
        products = products_in_bands(contact.carriers_MHz, contact.receive_bands_MHz, HIGHEST_ORDER)
    except ChemistryError as error:
        report.missing.append(f"carriers and bands within the supported size ({error})")
        return
    report.figures["intermodulation_products"] = [
        {"order": product.order, "frequency_MHz": product.frequency_Hz / 1e6} for product in products
    ]
    report.figures["intermodulation_neglects"] = NEGLECTS_RF
    lowest = min((product.order for product in products), default=None)
    report.statements.append(
        f"No product up to order {HIGHEST_ORDER} falls into the receive bands."
        if lowest is None
        else f"{len(products)} products up to order {HIGHEST_ORDER} fall into the receive bands, the lowest "
        f"of order {lowest}: a film-covered contact of this couple can make them."
    )


def _metal(surface: Surface, catalogue: Catalogue) -> _Metal | None:
    """Figures of the contact metal: the outermost coat's pure metal, or the base material itself."""
    material_id = surface.material_id
    if surface.layers:
        electrode_id = outer_electrode_id(surface, catalogue)
        material_id = catalogue.electrodes[electrode_id].representative_material_id if electrode_id else None
    resistivity = best_measurement(material_id or "", "resistivity", catalogue)
    hardness = best_measurement(material_id or "", "hardness", catalogue, _INDENTATION_UNITS)
    if resistivity is None or hardness is None:
        return None
    return _Metal(
        resistivity_ohm_m=figure_of(resistivity) or 0.0,
        hardness_Pa=(figure_of(hardness) or 0.0) * PASCAL_PER_VICKERS,
        softening=best_measurement(material_id or "", "softening_voltage", catalogue),
        evidence=(("measurements", resistivity.id), ("measurements", hardness.id)),
    )
