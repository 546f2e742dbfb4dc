"""Models whose fields come in groups of which exactly one may be used; told alike to people and programs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from pydantic import BaseModel
from pydantic_core import PydanticCustomError

from service.web.schemas.fields import add_units

Groups = Sequence[Sequence[str]]


def one_group_of(groups: Groups) -> Callable[[dict[str, Any]], None]:
    """Return what adds the rule to a model's JSON schema."""

    def add(schema: dict[str, Any]) -> None:
        add_units(schema)
        schema["oneOf"] = [_any_of(group) for group in groups]

    return add


def check_one_group(model: BaseModel, groups: Groups) -> None:
    """Refuse a model that uses no group, or more than one.

    Raises
    ------
    PydanticCustomError
        With the groups in words.
    """
    given = [group for group in groups if model.model_fields_set & set(group)]
    if len(given) != 1:
        ways = "; or ".join(" or ".join(group) for group in groups)
        reason = "one_way", "Use the fields of exactly one way: {ways}"
        raise PydanticCustomError(*reason, {"ways": ways})


def _any_of(group: Sequence[str]) -> dict[str, Any]:
    required = [{"required": [name]} for name in group]
    return required[0] if len(required) == 1 else {"anyOf": required}
