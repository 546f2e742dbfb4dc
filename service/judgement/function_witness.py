"""What a couple does to the function of its joint: contact, radio frequency, bond, seal, section.

Initial figures only. How corrosion raises resistance is said in words, because no model of it is
good enough for a figure; each result says what it neglects.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Measurement
from service.catalogue.surfaces import Surface
from service.chemistry.bonding import BOND_LIMITS
from service.chemistry.contact import constriction_resistance_ohm, minimum_force_N
from service.chemistry.contact_heat import heat_W, share_of_budget_left, spot_temperature_C, voltage_drop_V
from service.chemistry.errors import ChemistryError
from service.chemistry.intermodulation import products_in_bands
from service.judgement.couples import Couple, Function
from service.judgement.exposed import insulating_finish, outer_electrode_id
from service.judgement.findings import Condition, Confidence, Finding, Witness

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

WIRING_CAUTION = (
    "Wiring and protective earthing are subject to the local electrical code and to licensed persons; an "
    "overheated joint can start a fire."
)


@dataclass(frozen=True, slots=True)
class _Metal:
    resistivity: Measurement
    hardness: Measurement

    @property
    def hardness_Pa(self) -> float:
        """Hardness as a pressure; Brinell and Vickers are taken as alike."""
        value = self.hardness.value if self.hardness.value is not None else self.hardness.low
        return float(value or 0.0) * PASCAL_PER_VICKERS

    @property
    def resistivity_ohm_m(self) -> float:
        return float(self.resistivity.value or self.resistivity.low or 0.0)


def function_findings(couple: Couple, environment: Environment, catalogue: Catalogue) -> Finding:
    """Report on every declared function; a remark with figures, conditions and cautions."""
    declared = set(couple.functions)
    if not declared & ELECTRICAL:
        return Finding(
            Witness.FUNCTION,
            "No electrical function is declared.",
            abstains="no electrical function",
        )
    figures: dict[str, Any] = {}
    statements: list[str] = []
    conditions: list[Condition] = []
    missing: list[str] = []
    evidence: list[tuple[str, str]] = []
    _insulated(couple, catalogue, statements, conditions)
    _contact(couple, environment, catalogue, figures, statements, missing, evidence)
    _bond(couple, figures, statements)
    _radio(couple, figures, statements, missing)
    statements.append(
        "Corrosion products at the joint raise its resistance with time; by how much is not computed."
    )
    return Finding(
        Witness.FUNCTION,
        " ".join(statements),
        confidence=Confidence.LOW,
        grade="D",
        figures=figures,
        evidence=tuple(evidence),
        conditions=tuple(conditions),
        cautions=(WIRING_CAUTION,) if declared & {Function.PROTECTIVE_EARTH, Function.POWER_CONTACT} else (),
        missing=tuple(missing),
    )


def _insulated(
    couple: Couple, catalogue: Catalogue, statements: list[str], conditions: list[Condition]
) -> None:
    for name, surface in (("first", couple.first), ("second", couple.second)):
        finish = insulating_finish(surface, catalogue)
        if finish is None:
            continue
        statements.append(f"The {name} side carries an insulating finish ({finish.name}).")
        conditions.append(
            Condition(
                code="bare-contact-face",
                action=f"Leave the contact face of the {name} side free of {finish.name.lower()} and protect "
                "it after assembly.",
                who="manufacturer",
                how_verified="resistance across the joint after assembly",
            )
        )


def _contact(
    couple: Couple,
    environment: Environment,
    catalogue: Catalogue,
    figures: dict[str, Any],
    statements: list[str],
    missing: list[str],
    evidence: list[tuple[str, str]],
) -> None:
    force = couple.contact.force_N
    metals = [_metal(surface, catalogue) for surface in (couple.first, couple.second)]
    if force is None:
        missing.append("contact force, for the resistance of the joint")
        return
    first, second = metals
    if first is None or second is None:
        missing.append("hardness and resistivity of both contact metals")
        return
    softer = min(first.hardness_Pa, second.hardness_Pa)
    resistance = float(
        constriction_resistance_ohm(first.resistivity_ohm_m, second.resistivity_ohm_m, softer, force)
    )
    figures["contact_resistance_mOhm"] = resistance * 1e3
    figures["contact_neglects"] = NEGLECTS_CONTACT
    evidence.extend(
        ("measurements", row.id) for metal in (first, second) for row in (metal.resistivity, metal.hardness)
    )
    statements.append(f"Initial constriction resistance is about {resistance * 1e3:.3g} mOhm at {force:g} N.")
    _heat(couple, environment, resistance, figures, statements)
    if couple.contact.bond_limit_ohm:
        figures["minimum_force_N"] = float(
            minimum_force_N(
                first.resistivity_ohm_m, second.resistivity_ohm_m, softer, couple.contact.bond_limit_ohm
            )
        )


def _heat(
    couple: Couple,
    environment: Environment,
    resistance_ohm: float,
    figures: dict[str, Any],
    statements: list[str],
) -> None:
    current = couple.contact.current_A
    if current is None:
        return
    body_C = (
        couple.joint_temperature_C if couple.joint_temperature_C is not None else environment.temperature_C
    )
    drop = float(voltage_drop_V(current, resistance_ohm))
    spot = float(spot_temperature_C(drop, body_C if body_C is not None else 20.0))
    figures["voltage_drop_mV"] = drop * 1e3
    figures["heat_W"] = float(heat_W(current, resistance_ohm))
    figures["hottest_spot_C"] = spot
    statements.append(
        f"At {current:g} A it drops {drop * 1e3:.3g} mV and its hottest spot is near {spot:.3g} degC."
    )
    if couple.contact.voltage_budget_V:
        left = float(share_of_budget_left(drop, couple.contact.voltage_budget_V))
        figures["voltage_budget_left_pct"] = left * 100.0
        statements.append(f"{left * 100.0:.3g} % of the voltage budget is left when new.")


def _bond(couple: Couple, figures: dict[str, Any], statements: list[str]) -> None:
    resistance = figures.get("contact_resistance_mOhm")
    if resistance is None:
        return
    limit = couple.contact.bond_limit_ohm
    if limit is not None:
        meets = resistance * 1e-3 <= limit
        figures["meets_bond_limit"] = meets
        statements.append(
            f"That is {'within' if meets else 'above'} the stated limit of {limit * 1e3:g} mOhm."
        )
    figures["bond_classes"] = [
        {
            "name": bond.name,
            "limit_mOhm": bond.limit_ohm * 1e3,
            "is_met": resistance * 1e-3 <= bond.limit_ohm,
            "source": bond.source,
            "obtained": bond.obtained,
        }
        for bond in BOND_LIMITS
    ]


def _radio(couple: Couple, figures: dict[str, Any], statements: list[str], missing: list[str]) -> None:
    if Function.RF not in couple.functions:
        return
    contact = couple.contact
    if len(contact.carriers_MHz) < 2 or not contact.receive_bands_MHz:  # noqa: PLR2004 - products need two
        missing.append("carriers and receive bands, for intermodulation products")
        return
    try:
        products = products_in_bands(contact.carriers_MHz, contact.receive_bands_MHz, HIGHEST_ORDER)
    except ChemistryError as error:
        missing.append(f"carriers and bands within the supported size ({error})")
        return
    figures["intermodulation_products"] = [
        {"order": product.order, "frequency_MHz": product.frequency_Hz / 1e6} for product in products
    ]
    figures["intermodulation_neglects"] = NEGLECTS_RF
    lowest = min((product.order for product in products), default=None)
    statements.append(
        "No product up to order 7 falls into the receive bands."
        if lowest is None
        else f"{len(products)} products up to order 7 fall into the receive bands, the lowest of order "
        f"{lowest}: a film-covered contact of this couple can make them."
    )


def _metal(surface: Surface, catalogue: Catalogue) -> _Metal | None:
    """Figures of the contact metal: the outermost coat's pure metal, or the base material itself."""
    material_id = surface.material_id
    if surface.layers:
        electrode_id = outer_electrode_id(surface, catalogue)
        material_id = catalogue.electrodes[electrode_id].representative_material_id if electrode_id else None
    rows = catalogue.measurements_of.get(("material", material_id or ""), ())
    found = {row.quantity: row for row in rows if not row.quarantine_reason}
    if "resistivity" in found and "hardness" in found:
        return _Metal(found["resistivity"], found["hardness"])
    return None
