"""How deeply JSON is nested: a limit that spares everything behind it from recursion without end."""

from __future__ import annotations

from collections.abc import Iterable

from service.web.errors import Fault, InvalidRequestError


def check_nesting(value: object, limit: int) -> None:
    """Refuse a body that is nested too deeply.

    Raises
    ------
    InvalidRequestError
        If it holds more than ``limit`` levels.
    """
    if is_deeper(value, limit):
        detail = f"The body is nested more than {limit} levels deep."
        raise InvalidRequestError(Fault("body", "", "too_deep", detail))


def is_deeper(value: object, limit: int) -> bool:
    """Tell whether lists and objects lie in each other more than ``limit`` levels deep."""
    level: list[object] = [value]
    for _ in range(limit):
        level = [member for node in level for member in _members(node)]
        if not level:
            return False
    return any(isinstance(node, dict | list) for node in level)


def _members(node: object) -> Iterable[object]:
    if isinstance(node, dict):
        return node.values()
    return node if isinstance(node, list) else ()
