"""The private overlay of a tenant: what it lays on top of every release."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from service.web.schemas.fields import LOOSE, BodySchema, Schema, described, nested
from service.web.schemas.proposals import Key

MAX_ROWS = 2000
OverlayTable = Literal[
    "sources", "materials", "designations", "finishes", "finish_substrates", "limits", "bans", "preferences"
]
TABLE = (
    "Table: `sources`, `materials`, `designations`, `finishes`, `finish_substrates` or `limits` in the shape "
    "of the release's own records, `bans` or `preferences` with `finish_id` and `reason`."
)
HASH = "7c" * 32
EXAMPLE: dict[str, Any] = {
    "table": "bans",
    "record": {"finish_id": "zn-plain", "reason": "House rule 7: white rust in store."},
}


class PrivateRow(BodySchema):
    """A row of the overlay; one with the key of a published record takes its place for this tenant."""

    table: OverlayTable = described(TABLE, "bans")
    record: dict[str, Any] = described(
        "All fields of the row.",
        EXAMPLE["record"],
        min_length=1,
        max_length=60,
    )


class PrivateRowName(BodySchema):
    """A row that is to go."""

    table: OverlayTable = described(TABLE, "bans")
    key: Key = described(
        "Key of the row; of a ban or preference the finish.", ["zn-plain"], min_length=1, max_length=3
    )


class OverlayReplacement(BodySchema):
    """The whole overlay."""

    rows: Annotated[tuple[PrivateRow, ...], LOOSE] = described(
        "Every row; what is not among them goes.", [EXAMPLE], max_length=MAX_ROWS
    )


class OverlayChange(BodySchema):
    """Rows that come, are replaced or go, together or not at all."""

    put: Annotated[tuple[PrivateRow, ...], LOOSE] = described(
        "Rows to add, or to replace where the key is there already.", [EXAMPLE], (), max_length=MAX_ROWS
    )
    remove: Annotated[tuple[PrivateRowName, ...], LOOSE] = nested(
        "Rows to take away first.", (), max_length=MAX_ROWS
    )


class OverlayRow(Schema):
    """A row of the overlay."""

    table: str = described("Its table.", "bans")
    key: tuple[str, ...] = described("Its key.", ["zn-plain"])
    record: dict[str, Any] = described("Its fields.", EXAMPLE["record"])


class OverlayDocument(Schema):
    """The overlay of the caller's tenant."""

    overlay_hash: str = described(
        "Part of the identity of every answer that is given with it; empty where there is none.", HASH
    )
    release: str = described("Release on which it was checked to fit.", "2026.11.25-1")
    rows: tuple[OverlayRow, ...] = nested("Its rows by table and key.")
