"""What lists can be asked for; every filter keeps the records that hold exactly this value."""

from __future__ import annotations

from typing import Any

from service.catalogue.records import (
    ElectrodeState,
    ElectrolyteClass,
    Exposure,
    FinishRole,
    RuleKind,
    SourceStatus,
)
from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import Schema, described

_NOT_FILTERS = {"as_of", "cursor", "limit"}


class AsOf(Schema):
    """Which release to read."""

    as_of: str | None = described(
        "Label of the release to read; the current one if absent.", "2026.11.25-1", None, max_length=64
    )


class ListQuery(AsOf):
    """What every list takes."""

    limit: int = described("Most items in this page.", 20, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described(
        "Place to go on from, out of the `next` link of the page before.", None, None, max_length=1024
    )

    def filters(self) -> dict[str, Any]:
        """Return the filters that were given."""
        return self.model_dump(mode="json", exclude=_NOT_FILTERS, exclude_none=True)


class SearchQuery(ListQuery):
    """A list that can be searched by words."""

    q: str | None = described(
        "Words that identifier, name, designation or specification must hold.", "6082", None, max_length=200
    )


class MaterialQuery(SearchQuery):
    """Filters of materials."""

    family: str | None = described("Family of the material.", "wrought aluminium", None)
    electrode_id: str | None = described("Electrode that an electrolyte sees.", "aluminium-6xxx", None)
    temper: str | None = described("Temper.", "T6", None)
    is_conductive: bool | None = described("Whether it conducts.", example=True, default=None)
    source_id: str | None = described("Source of the record.", "from-memory", None)


class FinishQuery(SearchQuery):
    """Filters of finishes."""

    role: FinishRole | None = described("What it does to the surface.", "metallic", None)
    outer_electrode_id: str | None = described("Electrode that the electrolyte sees.", "zinc", None)
    is_conductive: bool | None = described("Whether current passes through it.", example=True, default=None)
    contact_grade: bool | None = described("Whether it serves as a contact.", example=True, default=None)
    solderable: str | None = described("`yes`, `limited` or `no`.", "yes", None)
    rohs: str | None = described("Standing under the RoHS directive.", "compliant", None)
    substances: str | None = described("Regulated substance that it holds or needs.", "CrVI", None)
    specifications: str | None = described("Specification that calls it up.", "ISO 2081", None)
    source_id: str | None = described("Source of the record.", "astm-b633", None)


class CompoundQuery(SearchQuery):
    """Filters of compounds."""

    kind: str | None = described("Kind of compound.", "sealant", None)
    is_conductive: bool | None = described("Whether it conducts.", example=False, default=None)
    attacks: str | None = described("Family that it harms.", "copper", None)
    helps: str | None = described("Family that it protects.", "wrought aluminium", None)
    source_id: str | None = described("Source of the record.", "common-practice", None)


class EnvironmentQuery(SearchQuery):
    """Filters of environments."""

    exposure: Exposure | None = described("How the electrolyte meets the joint.", "atmosphere", None)
    electrolyte_class: ElectrolyteClass | None = described("Family of its electrolyte.", "chloride", None)
    screening_class: str | None = described("Which permissible difference applies.", "harsh", None)
    iso9223_category: str | None = described("Corrosivity category of ISO 9223.", "C5", None)
    tags: str | None = described("Fact that rules ask for.", "sulfide", None)


class ElectrolyteQuery(SearchQuery):
    """Filters of electrolytes."""

    electrolyte_class: ElectrolyteClass | None = described("Family of the electrolyte.", "chloride", None)


class ElectrodeQuery(SearchQuery):
    """Filters of electrodes."""

    family: str | None = described("Family of the metals that it stands for.", "zinc", None)
    iso9223_metal: str | None = described("Standard metal whose rate in air it follows.", "zinc", None)
    is_inert: bool | None = described("Whether it does not dissolve.", example=False, default=None)


class KineticsQuery(ListQuery):
    """Filters of kinetic parameters."""

    electrode_id: str | None = described("Electrode that they describe.", "zinc", None)
    state: ElectrodeState | None = described("State of the surface.", "active", None)
    electrolyte_class: ElectrolyteClass | None = described(
        "Electrolytes for which they hold.", "chloride", None
    )
    source_id: str | None = described("Source of the record.", "from-memory", None)


class MeasurementQuery(SearchQuery):
    """Filters of measurements."""

    subject_kind: str | None = described("Kind of thing that was measured.", "electrode", None)
    subject_id: str | None = described("Identifier of what was measured.", "zinc", None)
    quantity: str | None = described("What was measured.", "corrosion_potential", None)
    scale_id: str | None = described("Published series that the figure belongs to.", "anodic-index", None)
    electrolyte_id: str | None = described("Solution in which it was measured.", "sea-water", None)
    obtained: str | None = described("How the figure was obtained.", "read", None)
    source_id: str | None = described("Source of the figure.", "aca-seawater-bulletin", None)


class SourceQuery(SearchQuery):
    """Filters of sources."""

    kind: str | None = described("Kind of publication.", "standard", None)
    status: SourceStatus | None = described("Standing of the publication.", "active", None)
    year: int | None = described("Year of publication.", 2019, None, ge=1000, le=9999)


class ScaleQuery(ListQuery):
    """Filters of scales."""

    kind: str | None = described("`potential`, `index` or `rank`.", "potential", None)
    electrolyte_class: ElectrolyteClass | None = described(
        "Electrolytes for which it may be used.", "chloride", None
    )


class PermissibleDifferenceQuery(ListQuery):
    """Filters of permissible differences."""

    scale_id: str | None = described("Scale on which the difference is taken.", "anodic-index", None)
    screening_class: str | None = described("Severity of service.", "harsh", None)


class RuleQuery(SearchQuery):
    """Filters of rules."""

    kind: RuleKind | None = described("Which witness evaluates it.", "hazard", None)
    severity: str | None = described("`none`, `slight`, `moderate` or `severe`.", "severe", None)
    refuses: bool | None = described("Whether it alone refuses a couple.", example=True, default=None)
    affects: str | None = described("Function of a joint that it concerns.", "protective earth", None)


class MitigationQuery(SearchQuery):
    """Filters of mitigations."""

    transform: str | None = described("Change that is applied to the joint.", "isolate", None)
    ends_functions: str | None = described("Function that it takes away.", "electrical bond", None)
    has_sourced_efficacy: bool | None = described(
        "Whether a source shows that it works.", example=True, default=None
    )
