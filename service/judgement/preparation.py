"""From an inquiry to the couples that have to be judged for it."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.callouts.reading import Reading
from service.catalogue.catalogue import Catalogue
from service.catalogue.nearness import nearest_ids
from service.catalogue.records import Environment
from service.catalogue.surfaces import Condition, Surface
from service.judgement.couples import Couple, Geometry
from service.judgement.errors import InconsistentInquiryError, InvalidInquiryError
from service.judgement.inquiry import Inquiry
from service.judgement.readings import is_refused, reading_of, surfaces_of

MOST_COMBINATIONS = 9
"""Pairs of readings that are judged for one inquiry."""


@dataclass(frozen=True, slots=True)
class Prepared:
    """An inquiry that has been read.

    ``couples`` holds one couple for each pair of readings, the leading one first, and none where a
    surface is not known; ``by_condition`` the leading couple with its finishes worn and damaged.
    """

    inquiry: Inquiry
    environment: Environment
    readings: tuple[Reading, Reading]
    couples: tuple[Couple, ...]
    by_condition: tuple[tuple[Condition, Couple], ...]


def prepare(inquiry: Inquiry, catalogue: Catalogue) -> Prepared:
    """Read an inquiry.

    Parameters
    ----------
    inquiry : Inquiry
    catalogue : Catalogue

    Returns
    -------
    Prepared

    Raises
    ------
    InvalidInquiryError
        If a part of the inquiry names nothing usable; an unknown text is not an error.
    InconsistentInquiryError
        If it states a bore and is no pipe.
    """
    environment = environment_of(inquiry, catalogue)
    if inquiry.compound_id and inquiry.compound_id not in catalogue.compounds:
        raise InvalidInquiryError(
            "/compound",
            f"no compound with id {inquiry.compound_id!r}",
            nearest_ids(inquiry.compound_id, catalogue.compounds),
        )
    if inquiry.bore_m is not None and inquiry.geometry is not Geometry.PIPE:
        raise InconsistentInquiryError(
            "/bore_mm",
            f"a bore belongs to the geometry 'pipe' and not to {inquiry.geometry.value!r}",
            (Geometry.PIPE.value,),
        )
    readings = (
        reading_of(inquiry.first, "/first", catalogue),
        reading_of(inquiry.second, "/second", catalogue),
    )
    refused = any(is_refused(reading, inquiry.strictest_match) for reading in readings)
    pairs = () if refused else itertools.product(*(surfaces_of(reading) for reading in readings))
    couples = tuple(
        couple_of(inquiry, first, second) for first, second in itertools.islice(pairs, MOST_COMBINATIONS)
    )
    by_condition = tuple(_by_condition(couples[0])) if couples else ()
    return Prepared(inquiry, environment, readings, couples, by_condition)


def environment_of(inquiry: Inquiry, catalogue: Catalogue) -> Environment:
    """Environment of an inquiry.

    Parameters
    ----------
    inquiry : Inquiry
    catalogue : Catalogue

    Returns
    -------
    Environment

    Raises
    ------
    InvalidInquiryError
        If the catalogue has none with this identifier.
    """
    if isinstance(inquiry.environment, Environment):
        return inquiry.environment
    if inquiry.environment not in catalogue.environments:
        raise InvalidInquiryError(
            "/environment",
            f"no environment with id {inquiry.environment!r}",
            nearest_ids(inquiry.environment, catalogue.environments),
        )
    return catalogue.environments[inquiry.environment]


def couple_of(inquiry: Inquiry, first: Surface, second: Surface) -> Couple:
    """Couple of an inquiry under one pair of readings.

    Parameters
    ----------
    inquiry : Inquiry
        Gives the joint: areas [m2], radius and bore [m], life [years], temperature [degC].
    first, second : Surface

    Returns
    -------
    Couple
    """
    return Couple(
        first=first,
        second=second,
        first_area_m2=inquiry.first_area_m2,
        second_area_m2=inquiry.second_area_m2,
        geometry=inquiry.geometry,
        fastener_radius_m=inquiry.fastener_radius_m,
        bore_m=inquiry.bore_m,
        functions=inquiry.functions,
        design_life_years=inquiry.design_life_years,
        section_allowance_um=inquiry.section_allowance_um,
        compound_id=inquiry.compound_id,
        joint_temperature_C=inquiry.joint_temperature_C,
        wear_cycles=inquiry.wear_cycles,
        is_isolated=inquiry.is_isolated,
        contact=inquiry.contact,
    )


def _by_condition(couple: Couple) -> list[tuple[Condition, Couple]]:
    """The couple with its finishes worn and damaged, where it has any and all are intact."""
    coated = [side for side in (couple.first, couple.second) if side.layers]
    if not coated or any(side.condition is not Condition.INTACT for side in coated):
        return []
    return [
        (
            condition,
            replace(couple, first=_worn(couple.first, condition), second=_worn(couple.second, condition)),
        )
        for condition in (Condition.WORN, Condition.DAMAGED)
    ]


def _worn(surface: Surface, condition: Condition) -> Surface:
    return replace(surface, condition=condition) if surface.layers else surface


def distinct_couples(prepared: Sequence[Prepared]) -> dict[Environment, list[Couple]]:
    """Couples of many inquiries, each once, by environment.

    Parameters
    ----------
    prepared : sequence of Prepared

    Returns
    -------
    dict of Environment to list of Couple
        In the order in which they are first met.
    """
    wanted: dict[Environment, dict[Couple, None]] = {}
    for item in prepared:
        couples = wanted.setdefault(item.environment, {})
        couples.update(dict.fromkeys((*item.couples, *(couple for _, couple in item.by_condition))))
    return {environment: list(couples) for environment, couples in wanted.items()}
