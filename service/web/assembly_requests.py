"""From a request to the assembly, policy and waivers that the assemblies room works on."""

from __future__ import annotations

import base64
import binascii
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Any

from service.assemblies import Assembly, File, read_assembly
from service.assemblies.assembly import Place, Programme
from service.assemblies.errors import (
    AssemblyError,
    FileTooLargeError,
    InvalidAssemblyError,
    MalformedTableError,
    ReleaseMismatchError,
)
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY, HousePolicy
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.policy_documents import house_policy_of, waivers_of
from service.assemblies.reading import ReadAssembly
from service.assemblies.substitution import Substitute
from service.assemblies.tables import Limits
from service.assemblies.waivers import Waiver
from service.catalogue.catalogue import Catalogue
from service.judgement.couples import NO_DUTY
from service.web.errors import Fault, InconsistentRequestError, UnreadableFileError
from service.web.inquiries import contact_of, environment_of, side_of
from service.web.schemas.assemblies import (
    MAX_JOINTS,
    MAX_PARTS,
    AssemblyFields,
    AssemblyRequest,
    CheckQuery,
    JointRequest,
    PartRequest,
    SubstituteRequest,
    SubstitutionRequest,
)

FILE_LIMITS = Limits(rows=MAX_PARTS + 1_000)
_CM2_PER_M2 = 1e4
_MM_PER_M = 1e3


@dataclass(frozen=True, slots=True)
class Asked:
    """An assembly as it was asked about; ``read`` tells how files were read, if there were any."""

    assembly: Assembly
    read: ReadAssembly | None


def release_label(request: AssemblyFields, query: CheckQuery) -> str | None:
    """Return the release that a request asks for: its own, that of its programme, or the current one.

    Raises
    ------
    InconsistentRequestError
        If the programme is pinned to another release than the one that is asked for.
    """
    asked = request.as_of or query.as_of
    pinned = request.programme.release if request.programme else ""
    if asked and pinned and asked != pinned:
        detail = f"The programme is pinned to release {pinned!r}, and {asked!r} is asked for."
        raise InconsistentRequestError(Fault("body", "/programme/release", "pinned", detail))
    return asked or pinned or None


def assembly_of(request: AssemblyFields, query: CheckQuery, catalogue: Catalogue) -> Asked:
    """Translate an assembly; files are read here.

    Raises
    ------
    UnreadableFileError
        If a file is no table.
    InconsistentRequestError
        If something in it does not fit together.
    InvalidInquiryError
        If a place is to be changed that does not exist.
    """
    read = _read(request) if request.files else None
    found = read.assembly if read else Assembly(_parts(request), ())
    joints = (*found.joints, *_joints(request))
    if len(joints) > MAX_JOINTS:
        detail = f"There are more than {MAX_JOINTS} joints."
        raise InconsistentRequestError(Fault("body", "/files", "too_large", detail))
    zones = {name: environment_of(place, catalogue, ("zones", name)) for name, place in request.zones.items()}
    programme = _programme(request, query, found.programme, catalogue)
    return Asked(
        replace(
            found,
            joints=joints,
            zones={**found.zones, **zones},
            name=request.name or found.name,
            programme=programme,
        ),
        read,
    )


def policy_of(request: AssemblyFields) -> HousePolicy:
    """Translate a house policy; without one the default holds."""
    if request.policy is None:
        return DEFAULT_HOUSE_POLICY
    with pointing("/policy"):
        return house_policy_of(given_in(request.policy))


def waivers_in(request: AssemblyRequest) -> tuple[Waiver, ...]:
    """Translate waivers."""
    with pointing("/waivers"):
        return waivers_of([given_in(waiver) for waiver in request.waivers])


def substitutes_of(request: SubstitutionRequest) -> list[Substitute]:
    """Translate what is offered."""
    return [
        Substitute(
            each.ref,
            Part(
                id=each.ref,
                number=each.part_number,
                description=each.description,
                wetted_area_m2=_divided(each.wetted_area_cm2, _CM2_PER_M2),
                **_surface(each),
            ),
        )
        for each in request.substitutes
    ]


@contextmanager
def pointing(prefix: str = "") -> Iterator[None]:
    """Let what the assemblies room refuses be told as faults of the request."""
    try:
        yield
    except InvalidAssemblyError as error:
        fault = Fault("body", prefix + error.pointer, "inconsistent", error.detail, error.suggestions)
        raise InconsistentRequestError(fault) from error
    except ReleaseMismatchError as error:
        raise InconsistentRequestError(Fault("body", "/programme/release", "pinned", str(error))) from error
    except AssemblyError as error:
        code = "too_large" if isinstance(error, FileTooLargeError) else "unreadable"
        near = error.suggestions if isinstance(error, MalformedTableError) else ()
        raise UnreadableFileError(Fault("body", "/files", code, str(error), near)) from error


def given_in(model: Any) -> dict[str, Any]:
    """Return what a caller has stated of a model, as plain JSON values."""
    given: dict[str, Any] = model.model_dump(mode="json", exclude_unset=True, exclude_none=True)
    return given


def _read(request: AssemblyFields) -> ReadAssembly:
    files = []
    for place, file in enumerate(request.files):
        try:
            data = base64.b64decode("".join(file.content.split()), validate=True)
        except binascii.Error as error:
            detail = "The content is no base64."
            raise UnreadableFileError(Fault("body", f"/files/{place}/content", "encoding", detail)) from error
        files.append(File(file.name, data))
    with pointing():
        return read_assembly(files, FILE_LIMITS)


def _parts(request: AssemblyFields) -> dict[str, Part]:
    parts: dict[str, Part] = {}
    for place, each in enumerate(request.parts):
        name = each.id or each.part_number
        if name in parts:
            detail = f"A part {name!r} stands already above; give each place an id of its own."
            raise InconsistentRequestError(Fault("body", f"/parts/{place}", "repeated", detail))
        parts[name] = Part(
            id=name,
            number=each.part_number,
            description=each.description,
            revision=each.revision,
            effectivity=each.effectivity,
            parent=each.parent,
            quantity=each.quantity,
            wetted_area_m2=_divided(each.wetted_area_cm2, _CM2_PER_M2),
            net=each.net,
            is_isolated=each.is_isolated,
            zone=each.zone,
            note=each.note,
            **_surface(each),
        )
    return parts


def _surface(request: PartRequest | SubstituteRequest) -> dict[str, Any]:
    if request.surface is None:
        return {}
    side = side_of(request.surface)
    return {
        "text": side.text,
        "material": side.material,
        "finish": side.finish,
        "surface": side.surface,
        "thickness_um": side.thickness_um,
        "condition": side.condition,
    }


def _joints(request: AssemblyFields) -> tuple[Joint, ...]:
    return tuple(_joint(each) for each in request.joints)


def _joint(request: JointRequest) -> Joint:
    return Joint(
        id=request.id,
        first=request.first,
        second=request.second,
        zone=request.zone,
        name=request.name,
        functions=request.functions,
        geometry=request.geometry,
        first_area_m2=_divided(request.first_area_cm2, _CM2_PER_M2),
        second_area_m2=_divided(request.second_area_cm2, _CM2_PER_M2),
        fastener_radius_m=_divided(request.fastener_radius_mm, _MM_PER_M),
        bore_m=_divided(request.bore_mm, _MM_PER_M),
        contact=contact_of(request.contact) if request.contact else NO_DUTY,
        design_life_years=request.design_life_years,
        section_allowance_um=request.section_allowance_um,
        compound=request.compound,
        joint_temperature_C=request.joint_temperature_C,
        wear_cycles=request.wear_cycles,
        is_isolated=request.is_isolated,
    )


def _programme(
    request: AssemblyFields, query: CheckQuery, in_files: Programme, catalogue: Catalogue
) -> Programme:
    """What the body says goes before what files say, and both before query parameters."""
    given = request.programme
    environment: Place = ""
    if given and given.environment:
        environment = environment_of(given.environment, catalogue, ("programme", "environment"))
    life = given.design_life_years if given else None
    return Programme(
        name=(given.name if given else "") or in_files.name,
        release=(given.release if given else "") or in_files.release,
        environment=environment or in_files.environment or query.environment,
        design_life_years=life or in_files.design_life_years or query.design_life_years,
        effective_at=(given.effective_at if given else "") or in_files.effective_at,
    )


def _divided(value: float | None, by: float) -> float | None:
    return None if value is None else value / by
