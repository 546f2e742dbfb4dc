"""Published series and their permissible differences."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row


class ScaleRow(Row):
    """A published series of metals."""

    __tablename__ = "scales"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    kind: Mapped[str]
    electrolyte_class: Mapped[str]
    reference_electrode: Mapped[str]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    note: Mapped[str]


class LimitRow(Row):
    """A permissible difference on a scale."""

    __tablename__ = "limits"

    id: Mapped[str] = mapped_column(primary_key=True)
    scale_id: Mapped[str] = mapped_column(ForeignKey("scales.id"))
    screening_class: Mapped[str]
    limit_V: Mapped[float]
    rule: Mapped[str]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]
