"""Single figures and the publications that they come from."""

from __future__ import annotations

from service.catalogue.records import Fitness, Plausibility, SourceStatus
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Measurement(Provenance):
    """One figure with its conditions and source."""

    id: str = described("Identifier of the measurement.", "flowing-ranges-graphite")
    subject_kind: str = described(
        "`material`, `electrode`, `finish`, `compound` or `electrolyte`.", "electrode"
    )
    subject_id: str = described("Identifier of what was measured.", "zinc")
    quantity: str = described("What was measured.", "corrosion_potential")
    state: str = described("State of the surface; empty if none applies.", "active")
    value: float | None = described("The figure.", -1.03)
    low: float | None = described("Lower end of a published range.", -1.06)
    high: float | None = described("Upper end of a published range.", -1.0)
    unit: str = described("Unit of the figures.", "V")
    reference_electrode: str = described("Reference of a potential; empty for other quantities.", "SCE")
    scale_id: str = described("Published series that the figure belongs to; empty if none.", "")
    electrolyte_id: str = described("Solution in which it was measured; empty if unknown.", "sea-water")
    temperature_C: float | None = described("Temperature of the measurement.", 20.0)
    conditions: str = described("Other conditions, in words.", "flowing, 2.5 to 4 m/s")
    fitness: Fitness = described("How well the conditions match the use of the figure.", "close")
    plausibility: Plausibility = described("Outcome of the plausibility gate.", "passed")
    quarantine_reason: str = described("Why it is shown and never used; empty if it is used.", "")


class MeasurementPage(Page):
    """One page of measurements."""

    items: tuple[Measurement, ...] = nested("Measurements in the order of their identifiers.")


class Source(Schema):
    """A bibliographic entry."""

    id: str = described("Identifier of the source.", "astm-b633")
    kind: str = described(
        "`standard`, `specification`, `paper`, `handbook`, `report`, `web`, `dataset`, `practice` (common "
        "practice, nothing published) or `memory`.",
        "standard",
    )
    title: str = described("Title of the publication.", "Electrodeposited coatings of zinc on iron and steel")
    authors: str = described("Authors; empty if the publisher speaks.", "")
    publisher: str = described("Who published it.", "ASTM International")
    year: int | None = described("Year of publication.", 2019)
    edition: str = described("Edition or revision.", "B633-19")
    status: SourceStatus = described("Standing of the publication on the day it was entered.", "active")
    doi: str = described("Digital object identifier; empty if none.", "")
    url: str = described("Address; empty if none.", "")
    note: str = described("Remark of the editors; empty if none.", "")


class SourcePage(Page):
    """One page of sources."""

    items: tuple[Source, ...] = nested("Sources in the order of their identifiers.")
