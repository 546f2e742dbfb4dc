"""From a request to the inquiry that the judgement room answers; figures become SI here."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from service.callouts.reading import Match
from service.catalogue.catalogue import Catalogue
from service.catalogue.nearness import nearest_ids
from service.catalogue.records import Environment, Obtained
from service.catalogue.surfaces import Condition, Layer, Surface
from service.catalogue.tables import record_from_row
from service.chemistry.errors import OutOfRangeError
from service.judgement import (
    DEFAULT_TEMPERATURE_C,
    REPLACES,
    Contact,
    Function,
    Inquiry,
    InvalidInquiryError,
    Reported,
    Side,
)
from service.web.errors import Fault, InconsistentRequestError
from service.web.faults import pointer_to
from service.web.schemas.couples import ContactRequest, CoupleRequest, MatchLevel
from service.web.schemas.exposures import EnvironmentRequest
from service.web.schemas.surfaces import SurfaceRequest

CUSTOM = "custom"
"""Identifier of an environment that was given by figures."""

_STRICTEST = {MatchLevel.ANY: None, MatchLevel.STRICT: Match.NORMALISED, MatchLevel.EXACT: Match.EXACT}
_FUNCTIONS = tuple(Function)
_CM2_PER_M2 = 1e4
_MM_PER_M = 1e3
_CLIMATE = {"temperature_C", "relative_humidity_pct", "so2_mg_per_m2_d", "chloride_mg_per_m2_d"}
_BOUNDED = {
    "temperature_C": ("temperature_low_C", "temperature_high_C"),
    "conductivity_S_per_m": ("conductivity_low_S_per_m", "conductivity_high_S_per_m"),
    "pH": ("pH_low", "pH_high"),
    "film_thickness_um": ("film_thickness_low_um", "film_thickness_high_um"),
}


def inquiry_of(request: CoupleRequest, catalogue: Catalogue) -> Inquiry:
    """Translate a request.

    Raises
    ------
    InvalidInquiryError
        If the environment is to be changed and is not known.
    """
    return Inquiry(
        first=side_of(request.first),
        second=side_of(request.second),
        environment=environment_of(request.environment, catalogue),
        first_area_m2=_divided(request.first_area_cm2, _CM2_PER_M2),
        second_area_m2=_divided(request.second_area_cm2, _CM2_PER_M2),
        geometry=request.geometry,
        fastener_radius_m=_divided(request.fastener_radius_mm, _MM_PER_M),
        bore_m=_divided(request.bore_mm, _MM_PER_M),
        functions=tuple(sorted(request.functions, key=_FUNCTIONS.index)),
        design_life_years=request.design_life_years,
        section_allowance_um=request.section_allowance_um,
        compound_id=request.compound,
        joint_temperature_C=_plain(request.joint_temperature_C),
        wear_cycles=_plain(request.wear_cycles),
        is_isolated=request.is_isolated,
        contact=contact_of(request.contact),
        strictest_match=_STRICTEST[request.match],
        min_grade=request.min_grade or "",
        find_tipping_point=request.would_change_if,
    )


def _divided(value: float | None, by: float) -> float | None:
    return None if value is None else value / by


def _plain(value: float | None) -> float | None:
    """Write minus zero as zero: the same question shall have the same digest."""
    return None if value is None else value + 0.0


def contact_of(request: ContactRequest | None) -> Contact:
    """Translate the electrical duty of a joint."""
    if request is None:
        return Contact()
    return Contact(**{field.name: getattr(request, field.name) for field in fields(Contact)})


def side_of(request: SurfaceRequest) -> Side:
    """Translate one surface."""
    surface = None
    if request.material_id or request.layers or request.basis_family:
        surface = Surface(
            material_id=request.material_id or None,
            layers=tuple(
                Layer(layer.finish_id, layer.thickness_um, layer.thickness_max_um) for layer in request.layers
            ),
            condition=request.condition or Condition.INTACT,
            basis_family=request.basis_family,
            temper=request.temper,
            strength_class=request.strength_class,
        )
    return Side(
        text=request.text,
        material=request.material,
        finish=request.finish,
        surface=surface,
        thickness_um=request.thickness_um,
        condition=request.condition,
    )


def environment_of(
    request: EnvironmentRequest, catalogue: Catalogue, path: tuple[str, ...] = ("environment",)
) -> str | Environment:
    """Translate a place: a known environment by its identifier, another one as a record.

    Raises
    ------
    InvalidInquiryError
        If a known one is to be changed and is not known.
    InconsistentRequestError
        If reported figures do not fit together.
    """
    if request.id and request.model_fields_set == {"id"}:
        return request.id  # by far the most, and to write a model out takes long
    given = request.model_dump(exclude={"id"}, exclude_unset=True, exclude_none=True)
    if request.id and not given:
        return request.id
    known = known_environment(request.id, catalogue, path) if request.id else None
    warmth = given.get("temperature_C", known.temperature_C if known else None)
    given = _in_standard_terms(given, DEFAULT_TEMPERATURE_C if warmth is None else warmth, path)
    return _changed(known, given) if known else _described(given)


def _in_standard_terms(given: dict[str, Any], temperature_C: float, path: tuple[str, ...]) -> dict[str, Any]:
    """Replace reported figures by those that are judged by."""
    reported = {name: figure for name, figure in given.items() if name in REPLACES}
    for name in reported:
        if REPLACES[name] in given:
            detail = f"Give {REPLACES[name]} or {name}, not both"
            raise InconsistentRequestError(Fault("body", pointer_to((*path, name)), "given_twice", detail))
    try:
        figures = Reported(**reported).figures(temperature_C)
    except OutOfRangeError as error:
        pointer = pointer_to((*path, error.quantity))
        raise InconsistentRequestError(Fault("body", pointer, "out_of_range", str(error))) from error
    return {name: figure for name, figure in given.items() if name not in reported} | figures


def known_environment(
    environment_id: str, catalogue: Catalogue, path: tuple[str, ...] = ("environment",)
) -> Environment:
    """Return an environment of the catalogue.

    Raises
    ------
    InvalidInquiryError
        If there is none of that name.
    """
    known = catalogue.environments.get(environment_id)
    if known is None:
        near = nearest_ids(environment_id, catalogue.environments)
        detail = f"no environment with id {environment_id!r}"
        raise InvalidInquiryError(pointer_to((*path, "id")), detail, near)
    return known


def _changed(known: Environment, given: dict[str, Any]) -> Environment:
    """A known environment with some figures replaced, and with them whatever was derived from them."""
    derived: dict[str, Any] = {}
    for name, bounds in _BOUNDED.items():
        if name in given:
            derived.update(dict.fromkeys(bounds))
    if _CLIMATE & set(given):
        derived["iso9223_category"] = ""
    name = given.get("name") or f"{known.name}, with other figures"
    return replace(known, **{**derived, **given, "id": CUSTOM, "name": name})


def _described(given: dict[str, Any]) -> Environment:
    row: dict[str, Any] = {field.name: None for field in fields(Environment)}
    row |= {"screening_class": "harsh", "is_sheltered": False, "tags": ()} | given
    row |= {
        "id": CUSTOM,
        "name": given.get("name") or "as described by the caller",
        "obtained": Obtained.COMMON_PRACTICE,
        "note": "figures of the caller",
    }
    environment: Environment = record_from_row("environments", row)
    return environment
