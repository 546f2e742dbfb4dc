"""Published series of metals and the differences that they permit."""

from __future__ import annotations

from service.catalogue.records import ElectrolyteClass
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Scale(Schema):
    """A published series of metals."""

    id: str = described("Identifier of the scale.", "sea-water-flowing-ranges")
    name: str = described("Name for people.", "Corrosion potentials in flowing sea water")
    kind: str = described(
        "`potential`, `index` (positive towards the active end) or `rank` (1 is most active).", "potential"
    )
    electrolyte_class: ElectrolyteClass = described("Electrolytes for which it may be used.", "chloride")
    reference_electrode: str = described("Reference of its potentials; empty for ranks.", "SCE")
    source_id: str = described("Source of the series, a key of `/v1/sources`.", "aca-seawater-bulletin")
    note: str = described("Remark of the editors; empty if none.", "")


class ScalePage(Page):
    """One page of scales."""

    items: tuple[Scale, ...] = nested("Scales in the order of their identifiers.")


class PermissibleDifference(Provenance):
    """A published or customary permissible difference on a scale."""

    id: str = described("Identifier of the limit.", "anodic-index-harsh")
    scale_id: str = described("Scale on which the difference is taken.", "anodic-index")
    screening_class: str = described("Severity of service to which it applies.", "harsh")
    limit_V: float = described("Largest permissible difference.", 0.15)
    rule: str = described("The rule in words.", "Not above 0.15 V where salt and damp are usual.")


class PermissibleDifferencePage(Page):
    """One page of permissible differences."""

    items: tuple[PermissibleDifference, ...] = nested("Limits in the order of their identifiers.")
