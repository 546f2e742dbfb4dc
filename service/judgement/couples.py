"""What is asked: two surfaces, their joint, and how long it must last."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from service.catalogue.surfaces import Surface


class Function(StrEnum):
    """What a joint is for."""

    STRUCTURAL = "structural"
    ELECTRICAL_BOND = "electrical bond"
    PROTECTIVE_EARTH = "protective earth"
    POWER_CONTACT = "power contact"
    SIGNAL_CONTACT = "signal contact"
    RF = "rf"
    SEAL = "seal"
    THERMAL = "thermal"


class Geometry(StrEnum):
    """Shape of the wetted joint line."""

    STRIP = "strip"
    FASTENER = "fastener"
    PIPE = "pipe"
    IMMERSED = "immersed"


@dataclass(frozen=True, slots=True)
class Contact:
    """Electrical duty of a joint; every figure optional."""

    current_A: float | None = None
    force_N: float | None = None
    bond_limit_ohm: float | None = None
    voltage_budget_V: float | None = None
    carriers_MHz: tuple[float, ...] = ()
    receive_bands_MHz: tuple[tuple[float, float], ...] = ()


NO_DUTY = Contact()
"""A joint of which no electrical figure is known."""


@dataclass(frozen=True, slots=True)
class Couple:
    """Two surfaces that touch.

    ``area_*_m2`` are wetted areas (default equal), ``fastener_radius_m`` the radius of a round
    second member, ``bore_m`` the inside diameter of a pipe, ``section_allowance_um`` the loss
    that the joint can stand (default by function), ``is_isolated`` a joint without an electronic path.
    """

    first: Surface
    second: Surface
    first_area_m2: float | None = None
    second_area_m2: float | None = None
    geometry: Geometry = Geometry.STRIP
    fastener_radius_m: float | None = None
    bore_m: float | None = None
    functions: tuple[Function, ...] = (Function.STRUCTURAL,)
    design_life_years: float | None = None
    section_allowance_um: float | None = None
    compound_id: str = ""
    joint_temperature_C: float | None = None
    wear_cycles: float | None = None
    is_isolated: bool = False
    contact: Contact = NO_DUTY
