"""Environments, and the electrolytes that measurements were made in."""

from __future__ import annotations

from service.catalogue.records import ElectrolyteClass, Exposure
from service.web.schemas.fields import described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Environment(Provenance):
    """A named exposure; `*_low` and `*_high` bound the central figure."""

    id: str = described("Identifier of the environment.", "marine-atmosphere-0-100-m")
    name: str = described("Name for people.", "Open air, sea front, 0-100 m from the surf")
    exposure: Exposure = described("How the electrolyte meets the joint.", "atmosphere")
    electrolyte_class: ElectrolyteClass = described("Family of its electrolyte.", "chloride")
    screening_class: str = described("Which permissible difference applies.", "harsh")
    temperature_C: float | None = described("Mean temperature of the year.", 11.0)
    temperature_low_C: float | None = described("Lower bound of the mean temperature.", 5.0)
    temperature_high_C: float | None = described("Upper bound of the mean temperature.", 16.0)
    relative_humidity_pct: float | None = described("Mean relative humidity.", 82.0)
    wetness_h_per_year: float | None = described("Hours in which surfaces are wet.", 4500.0)
    so2_mg_per_m2_d: float | None = described("Deposition of sulfur dioxide.", 5.0)
    chloride_mg_per_m2_d: float | None = described("Deposition of chloride.", 120.0)
    salt_load_g_per_m2: float | None = described("Salt that stays on the surface.", 1.0)
    is_sheltered: bool = described("Whether rain does not wash the surface.", example=False)
    conductivity_S_per_m: float | None = described("Conductivity of the electrolyte.", 5.0)
    conductivity_low_S_per_m: float | None = described("Lower bound of the conductivity.", 2.0)
    conductivity_high_S_per_m: float | None = described("Upper bound of the conductivity.", 15.0)
    pH: float | None = described("pH of the electrolyte.", 7.0)
    pH_low: float | None = described("Lower bound of the pH.", 6.0)
    pH_high: float | None = described("Upper bound of the pH.", 8.2)
    oxygen_mg_per_L: float | None = described("Dissolved oxygen.", 8.0)
    film_thickness_um: float | None = described("Thickness of the electrolyte film.", 50.0)
    film_thickness_low_um: float | None = described("Lower bound of the film thickness.", 10.0)
    film_thickness_high_um: float | None = described("Upper bound of the film thickness.", 200.0)
    hours_rain_per_year: float | None = described("Hours under a film of rain.", 900.0)
    hours_deliquesced_per_year: float | None = described("Hours under a film of deliquesced salt.", 3500.0)
    hours_drying_per_year: float | None = described("Hours in which the film dries.", 1200.0)
    flow_m_per_s: float | None = described("Speed of the water past the surface.", None)
    iso9223_category: str = described("Corrosivity category of ISO 9223; empty if it does not apply.", "C5")
    iso11844_category: str = described("Indoor category of ISO 11844; empty if it does not apply.", "")
    isa7104_level: str = described("Severity level of ISA 71.04; empty if it does not apply.", "")
    tags: tuple[str, ...] = described("Facts that rules ask for.", ["rain_washed", "uv"])


class EnvironmentPage(Page):
    """One page of environments."""

    items: tuple[Environment, ...] = nested("Environments in the order of their identifiers.")


class Electrolyte(Provenance):
    """A solution with known figures, named by measurements and environments."""

    id: str = described("Identifier of the electrolyte.", "sea-water")
    name: str = described("Name for people.", "Natural sea water")
    electrolyte_class: ElectrolyteClass = described("Family of the electrolyte.", "chloride")
    conductivity_S_per_m: float | None = described("Conductivity.", 4.8)
    pH: float | None = described("pH.", 8.1)
    chloride_mg_per_L: float | None = described("Chloride content.", 19400.0)
    oxygen_mg_per_L: float | None = described("Dissolved oxygen.", 8.0)
    temperature_C: float | None = described("Temperature to which the figures belong.", 20.0)


class ElectrolytePage(Page):
    """One page of electrolytes."""

    items: tuple[Electrolyte, ...] = nested("Electrolytes in the order of their identifiers.")
