"""Findings as plain JSON values, with no more digits than are known."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from typing import Any

_AS_THEY_ARE = frozenset({str, int, bool, type(None)})


def plain(value: Any) -> Any:
    """Reduce dataclasses, enumerations, mappings and sequences to JSON values.

    Parameters
    ----------
    value : Any
        Anything that findings, conditions or evidence hold.

    Returns
    -------
    Any
        Objects, lists, texts, truths and figures; figures hold three significant digits.
    """
    # Most values are of these very types, and to ask for the type is much quicker than for a base.
    kind = type(value)
    if kind in _AS_THEY_ARE:
        return value
    if kind is float:
        return figure(value)
    if kind is dict:
        return {str(key): plain(entry) for key, entry in value.items()}
    return _reduced(value)


def _reduced(value: Any) -> Any:
    if isinstance(value, float):
        return figure(value)
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, Mapping):
        return {str(key): plain(entry) for key, entry in value.items()}
    if isinstance(value, list | tuple):
        return [plain(entry) for entry in value]
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {name: plain(getattr(value, name)) for name in _field_names(type(value))}
    return value


@cache
def _field_names(kind: type[Any]) -> tuple[str, ...]:
    return tuple(field.name for field in dataclasses.fields(kind))


def figure(value: float) -> float | None:
    """Round a figure to three significant digits.

    Parameters
    ----------
    value : float
        Any figure [any].

    Returns
    -------
    float or None
        The figure [as given]; ``None`` where it is infinite or not a number, which JSON cannot say.

    Examples
    --------
    >>> figure(0.012345), figure(98765.0), figure(float("inf")) is None
    (0.0123, 98800.0, True)
    """
    return float(f"{value:.3g}") if math.isfinite(value) else None
