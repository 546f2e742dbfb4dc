"""Operations that are looked up where there is no request: by workers."""

from __future__ import annotations

from functools import cache

from service.web.operations import Operation


@cache
def couple_operation() -> Operation:
    """Return the operation that judges one couple; its document knows the near names of its fields."""
    from service.web.api import assemble

    return Operation.of(assemble(), "/v1/couples", "POST")
