"""Policies and waivers from and to plain JSON values, every fault with a pointer to it."""

from __future__ import annotations

import datetime as dt
import difflib
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import MISSING, Field, asdict, fields
from typing import Any, TypeVar

from service.assemblies.errors import InvalidAssemblyError
from service.assemblies.house_policy import AcceptanceRules, Ban, HousePolicy, Limit, Requirement, Scope
from service.assemblies.waivers import Waiver
from service.judgement import DEFAULT_POLICY, Function, Policy, Severity, Verdict

Record = TypeVar("Record")

_MEMBERS = {"Function": Function, "Severity": Severity, "Verdict": Verdict}
_NESTED = {
    "Scope": Scope,
    "AcceptanceRules": AcceptanceRules,
    "Limit": Limit,
    "Ban": Ban,
    "Requirement": Requirement,
}
_BANDS = {"name", "severity_bounds", "default_design_life_years", "section_allowances_um", "limits_V"}


def house_policy_of(document: object) -> HousePolicy:
    """Read a policy.

    Raises
    ------
    InvalidAssemblyError
        At the first member that cannot be used.
    """
    if not isinstance(document, Mapping):
        raise InvalidAssemblyError("", "a policy is an object")
    given = dict(document)
    bands = _bands(given.pop("bands", {}))
    policy = _record(HousePolicy, given, "", {"bands": bands})
    seen: set[str] = set()
    for table in ("limits", "bans", "requirements"):
        for place, rule in enumerate(getattr(policy, table)):
            if rule.id in seen:
                raise InvalidAssemblyError(f"/{table}/{place}/id", f"{rule.id!r} stands already above")
            seen.add(rule.id)
    return policy


def waivers_of(document: object) -> tuple[Waiver, ...]:
    """Read a list of waivers.

    Raises
    ------
    InvalidAssemblyError
        At the first member that cannot be used.
    """
    return _records(Waiver, document, "")


def document_of_policy(policy: HousePolicy) -> dict[str, object]:
    """Write a policy so that ``house_policy_of`` reads it back."""
    document = _plain(asdict(policy))
    document["bands"] = {
        "name": policy.bands.name,
        "severity_bounds": list(policy.bands.severity_bounds),
        "default_design_life_years": policy.bands.default_design_life_years,
        "section_allowances_um": _plain(policy.bands.section_allowances_um),
        "limits_V": _plain(policy.bands.limits_V),
    }
    return dict(document)


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {str(key): _plain(entry) for key, entry in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(entry) for entry in value]
    return value.isoformat() if isinstance(value, dt.date) else value


def _bands(given: object) -> Policy:
    if not isinstance(given, Mapping):
        raise InvalidAssemblyError("/bands", "bands are an object")
    _known(given, _BANDS, "/bands")
    bounds = given.get("severity_bounds", DEFAULT_POLICY.severity_bounds)
    is_rising = isinstance(bounds, Sequence) and len(bounds) == 3 and list(bounds) == sorted(bounds)  # noqa: PLR2004
    if not is_rising or not all(_is_positive(bound) for bound in bounds):
        raise InvalidAssemblyError("/bands/severity_bounds", "three positive figures in rising order")
    years = given.get("default_design_life_years", DEFAULT_POLICY.default_design_life_years)
    if not _is_positive(years):
        raise InvalidAssemblyError("/bands/default_design_life_years", "is no positive figure")
    allowances = dict(DEFAULT_POLICY.section_allowances_um)
    for name, value in _figures(given, "section_allowances_um").items():
        allowances[_member(Function, name, f"/bands/section_allowances_um/{name}")] = value
    return Policy(
        name=str(given.get("name", DEFAULT_POLICY.name)),
        severity_bounds=(float(bounds[0]), float(bounds[1]), float(bounds[2])),
        default_design_life_years=float(years),
        section_allowances_um=allowances,
        limits_V=_figures(given, "limits_V"),
    )


def _figures(given: Mapping[str, Any], name: str) -> dict[str, float]:
    table = given.get(name, {})
    if not isinstance(table, Mapping):
        raise InvalidAssemblyError(f"/bands/{name}", "is no object")
    return {str(key): _figure(value, f"/bands/{name}/{key}") for key, value in table.items()}


def _is_positive(value: object) -> bool:
    is_figure = isinstance(value, int | float) and not isinstance(value, bool)
    return is_figure and math.isfinite(value) and value > 0  # type: ignore[arg-type,operator]


def _records(kind: type[Record], document: object, pointer: str) -> tuple[Record, ...]:
    if not isinstance(document, Sequence) or isinstance(document, str):
        raise InvalidAssemblyError(pointer, "is no list")
    return tuple(_record(kind, entry, f"{pointer}/{place}", {}) for place, entry in enumerate(document))


def _record(kind: type[Record], given: object, pointer: str, ready: Mapping[str, Any]) -> Record:
    if not isinstance(given, Mapping):
        raise InvalidAssemblyError(pointer, "is no object")
    columns: dict[str, Field[Any]] = {each.name: each for each in fields(kind)}  # type: ignore[arg-type]
    _known(given, columns.keys() - ready.keys(), pointer)
    values = dict(ready)
    for name, column in columns.items():
        if given.get(name) is not None:
            values[name] = _value(str(column.type), given[name], f"{pointer}/{name}")
        elif name not in values and column.default is MISSING and column.default_factory is MISSING:
            raise InvalidAssemblyError(f"{pointer}/{name}", "is missing")
    return kind(**values)


def _known(given: Mapping[Any, Any], names: Any, pointer: str) -> None:
    for name in given:
        if name not in names:
            near = tuple(difflib.get_close_matches(str(name), list(names), 1))
            raise InvalidAssemblyError(f"{pointer}/{name}", "is not known here", near)


def _value(kind: str, value: object, pointer: str) -> Any:
    kind = kind.removesuffix(" | None")
    if kind.startswith("tuple["):
        inner = kind.removeprefix("tuple[").removesuffix(", ...]")
        if inner in _NESTED:
            return _records(_NESTED[inner], value, pointer)
        if not isinstance(value, Sequence) or isinstance(value, str):
            raise InvalidAssemblyError(pointer, "is no list")
        return tuple(_value(inner, entry, f"{pointer}/{place}") for place, entry in enumerate(value))
    if kind in _NESTED:
        return _record(_NESTED[kind], value, pointer, {})
    if kind in _MEMBERS:
        return _member(_MEMBERS[kind], value, pointer)
    return _SCALARS[kind](value, pointer)


def _figure(value: object, pointer: str) -> float:
    if not _is_positive(value):
        raise InvalidAssemblyError(pointer, "is no positive figure")
    return float(value)  # type: ignore[arg-type]  # checked above


def _truth(value: object, pointer: str) -> bool:
    if not isinstance(value, bool):
        raise InvalidAssemblyError(pointer, "is neither true nor false")
    return value


def _text(value: object, pointer: str) -> str:
    if not isinstance(value, str):
        raise InvalidAssemblyError(pointer, "is no text")
    return value


def _date(value: object, pointer: str) -> dt.date:
    try:
        return dt.date.fromisoformat(str(value))
    except ValueError:
        raise InvalidAssemblyError(pointer, "is no date like 2026-11-25") from None


def _member(kind: Any, value: object, pointer: str) -> Any:
    try:
        return kind(value)
    except ValueError:
        near = tuple(difflib.get_close_matches(str(value), list(kind), 1))
        raise InvalidAssemblyError(pointer, f"{value!r} is none of {', '.join(kind)}", near) from None


_SCALARS: dict[str, Callable[[object, str], Any]] = {
    "float": _figure,
    "bool": _truth,
    "str": _text,
    "dt.date": _date,
}
