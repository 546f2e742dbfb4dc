"""Materials and the names under which drawings call them."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.columns import optional_reference
from service.storage.tables.metadata import Row


class MaterialRow(Row):
    """A base metal, alloy or conductive non-metal in one temper."""

    __tablename__ = "materials"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    family: Mapped[str]
    electrode_id: Mapped[str] = optional_reference("electrodes.id")
    composition: Mapped[str]
    temper: Mapped[str]
    strength_MPa: Mapped[float | None]
    is_conductive: Mapped[bool]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]


class DesignationRow(Row):
    """A name of a material."""

    __tablename__ = "designations"

    material_id: Mapped[str] = mapped_column(ForeignKey("materials.id"), primary_key=True)
    system: Mapped[str] = mapped_column(primary_key=True)
    text: Mapped[str] = mapped_column(primary_key=True)
    note: Mapped[str]
