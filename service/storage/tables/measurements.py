"""Single figures with their conditions and source."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.columns import optional_reference
from service.storage.tables.metadata import Row


class MeasurementRow(Row):
    """One figure; its subject may lie in five tables, so ``read_package`` checks that reference."""

    __tablename__ = "measurements"

    id: Mapped[str] = mapped_column(primary_key=True)
    subject_kind: Mapped[str]
    subject_id: Mapped[str]
    quantity: Mapped[str]
    state: Mapped[str]
    value: Mapped[float | None]
    low: Mapped[float | None]
    high: Mapped[float | None]
    unit: Mapped[str]
    reference_electrode: Mapped[str]
    scale_id: Mapped[str] = optional_reference("scales.id")
    electrolyte_id: Mapped[str] = optional_reference("electrolytes.id")
    temperature_C: Mapped[float | None]
    conditions: Mapped[str]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    fitness: Mapped[str]
    plausibility: Mapped[str]
    quarantine_reason: Mapped[str]
    note: Mapped[str]
