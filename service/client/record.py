"""What every result is made of."""

from __future__ import annotations

from typing import Any

import msgspec


class Record(msgspec.Struct, frozen=True, kw_only=True):
    """A result as the service sends it. Members that this version does not know are passed over."""

    def as_dict(self) -> dict[str, Any]:
        """Return the result as plain JSON values, to be stored beside a record."""
        plain: dict[str, Any] = msgspec.json.decode(msgspec.json.encode(self))
        return plain
