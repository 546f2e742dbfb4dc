"""Finishes and what they may be put on."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.columns import optional_reference
from service.storage.tables.metadata import Row


class FinishRow(Row):
    """A plating, conversion coating, passivation, anodic film or organic coat."""

    __tablename__ = "finishes"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    process: Mapped[str]
    role: Mapped[str]
    outer_electrode_id: Mapped[str] = optional_reference("electrodes.id")
    is_conductive: Mapped[bool]
    is_looked_through: Mapped[bool]
    thickness_min_um: Mapped[float | None]
    thickness_typical_um: Mapped[float | None]
    thickness_max_um: Mapped[float | None]
    pore_free_above_um: Mapped[float | None]
    underplate_id: Mapped[str] = optional_reference("finishes.id", is_deferred=True)
    contact_grade: Mapped[bool]
    solderable: Mapped[str]
    max_temperature_C: Mapped[float | None]
    wear_class: Mapped[str]
    whisker_risk: Mapped[str]
    embrittlement_risk: Mapped[str]
    rohs: Mapped[str]
    reach: Mapped[str]
    substances: Mapped[list[str]]
    specifications: Mapped[list[str]]
    cost_tier: Mapped[int | None]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]


class FinishSubstrateRow(Row):
    """Whether a finish can be put on a family of substrates."""

    __tablename__ = "finish_substrates"

    finish_id: Mapped[str] = mapped_column(ForeignKey("finishes.id"), primary_key=True)
    substrate_family: Mapped[str] = mapped_column(primary_key=True)
    suitability: Mapped[str]
    polarity: Mapped[str]
    underplate_id: Mapped[str] = optional_reference("finishes.id")
    failure_mode: Mapped[str]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]
