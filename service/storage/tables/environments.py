"""Electrolytes and named exposures."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row


class ElectrolyteRow(Row):
    """A solution with known figures."""

    __tablename__ = "electrolytes"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    electrolyte_class: Mapped[str]
    conductivity_S_per_m: Mapped[float | None]
    pH: Mapped[float | None]
    chloride_mg_per_L: Mapped[float | None]
    oxygen_mg_per_L: Mapped[float | None]
    temperature_C: Mapped[float | None]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]


class EnvironmentRow(Row):
    """A named exposure."""

    __tablename__ = "environments"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    exposure: Mapped[str]
    electrolyte_class: Mapped[str]
    screening_class: Mapped[str]
    temperature_C: Mapped[float | None]
    temperature_low_C: Mapped[float | None]
    temperature_high_C: Mapped[float | None]
    relative_humidity_pct: Mapped[float | None]
    wetness_h_per_year: Mapped[float | None]
    so2_mg_per_m2_d: Mapped[float | None]
    chloride_mg_per_m2_d: Mapped[float | None]
    salt_load_g_per_m2: Mapped[float | None]
    is_sheltered: Mapped[bool]
    conductivity_S_per_m: Mapped[float | None]
    conductivity_low_S_per_m: Mapped[float | None]
    conductivity_high_S_per_m: Mapped[float | None]
    pH: Mapped[float | None]
    pH_low: Mapped[float | None]
    pH_high: Mapped[float | None]
    oxygen_mg_per_L: Mapped[float | None]
    film_thickness_um: Mapped[float | None]
    film_thickness_low_um: Mapped[float | None]
    film_thickness_high_um: Mapped[float | None]
    hours_rain_per_year: Mapped[float | None]
    hours_deliquesced_per_year: Mapped[float | None]
    hours_drying_per_year: Mapped[float | None]
    flow_m_per_s: Mapped[float | None]
    iso9223_category: Mapped[str]
    iso11844_category: Mapped[str]
    isa7104_level: Mapped[str]
    tags: Mapped[list[str]]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]
