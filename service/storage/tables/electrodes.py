"""What an electrolyte sees, and its kinetics."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.columns import optional_reference
from service.storage.tables.metadata import Row


class ElectrodeRow(Row):
    """A metal or alloy class that shares potentials and kinetics."""

    __tablename__ = "electrodes"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    family: Mapped[str]
    representative_material_id: Mapped[str] = optional_reference("materials.id", is_deferred=True)
    dissolution: Mapped[str]
    iso9223_metal: Mapped[str]
    iso9223_factor: Mapped[float | None]
    pitting_factor_low: Mapped[float | None]
    pitting_factor_high: Mapped[float | None]
    decay_exponent_low: Mapped[float | None]
    decay_exponent_high: Mapped[float | None]
    is_inert: Mapped[bool]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]


class KineticsRow(Row):
    """Parameters of one electrode state in one class of electrolyte."""

    __tablename__ = "kinetics"

    id: Mapped[str] = mapped_column(primary_key=True)
    electrode_id: Mapped[str] = mapped_column(ForeignKey("electrodes.id"))
    state: Mapped[str]
    electrolyte_class: Mapped[str]
    corrosion_potential_V: Mapped[float]
    corrosion_potential_low_V: Mapped[float]
    corrosion_potential_high_V: Mapped[float]
    corrosion_current_A_per_m2: Mapped[float]
    corrosion_current_low_A_per_m2: Mapped[float]
    corrosion_current_high_A_per_m2: Mapped[float]
    anodic_slope_V: Mapped[float | None]
    cathodic_slope_V: Mapped[float]
    oxygen_efficiency: Mapped[float]
    oxygen_efficiency_low: Mapped[float]
    oxygen_efficiency_high: Mapped[float]
    passive_current_A_per_m2: Mapped[float | None]
    breakdown_potential_V: Mapped[float | None]
    breakdown_potential_low_V: Mapped[float | None]
    breakdown_potential_high_V: Mapped[float | None]
    water_reduction_A_per_m2: Mapped[float | None]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    fitness: Mapped[str]
    plausibility: Mapped[str]
    quarantine_reason: Mapped[str]
    note: Mapped[str]
