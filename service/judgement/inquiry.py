"""What a caller asks, in the words of their own records."""

from __future__ import annotations

from dataclasses import dataclass

from service.callouts.reading import Match
from service.catalogue.records import Environment
from service.catalogue.surfaces import Condition, Surface
from service.judgement.couples import NO_DUTY, Contact, Function, Geometry


@dataclass(frozen=True, slots=True)
class Side:
    """One surface as a caller names it: drawing text, separate notes, or a structure.

    Exactly one of ``text``, ``material`` (with an optional ``finish``) and ``surface`` is given;
    ``material`` and ``finish`` may be identifiers or drawing text. ``thickness_um`` and
    ``condition`` override what the text says.
    """

    text: str = ""
    material: str = ""
    finish: str = ""
    surface: Surface | None = None
    thickness_um: float | None = None
    condition: Condition | None = None


@dataclass(frozen=True, slots=True)
class Inquiry:
    """A couple as asked: sides, joint, place, life, and what evidence is acceptable.

    ``environment`` is a catalogue identifier or a record built from the caller's figures.
    ``strictest_match`` refuses readings below a level (``EXACT`` or ``NORMALISED``); ``min_grade``
    refuses evidence below a letter. ``find_tipping_point`` asks for the sensitivity answer.
    """

    first: Side
    second: Side
    environment: str | Environment
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
    strictest_match: Match | None = None
    min_grade: str = ""
    find_tipping_point: bool = False
