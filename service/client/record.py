"""What every result is made of."""

from __future__ import annotations

import msgspec


class Record(msgspec.Struct, frozen=True, kw_only=True):
    """A result as the service sends it. Members that this version does not know are passed over."""
