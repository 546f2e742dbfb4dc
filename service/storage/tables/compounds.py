"""Joint compounds, sealants, greases."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row


class CompoundRow(Row):
    """A generic compound."""

    __tablename__ = "compounds"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    kind: Mapped[str]
    composition: Mapped[str]
    is_conductive: Mapped[bool]
    temperature_min_C: Mapped[float | None]
    temperature_max_C: Mapped[float | None]
    blocks_electrolyte: Mapped[bool]
    inhibits: Mapped[str]
    reapplication: Mapped[str]
    attacks: Mapped[list[str]]
    helps: Mapped[list[str]]
    specifications: Mapped[list[str]]
    directions: Mapped[str]
    caution: Mapped[str]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]
