"""Joint compounds, sealants, greases and what else comes between two surfaces."""

from __future__ import annotations

from service.web.schemas.fields import described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Compound(Provenance):
    """A generic joint compound, sealant, grease, preventive, gasket, locker or contaminant."""

    id: str = described("Identifier of the compound.", "sl-ps-inhib")
    name: str = described("Name for people.", "Polysulfide sealant, inhibited")
    kind: str = described("Kind of compound.", "sealant")
    composition: str = described("What it consists of, in general terms.", "polysulfide polymer")
    is_conductive: bool = described("Whether it conducts electrons.", example=False)
    temperature_min_C: float | None = described("Lowest temperature of service.", -55.0)
    temperature_max_C: float | None = described("Highest temperature of service.", 120.0)
    blocks_electrolyte: bool = described("Whether it keeps the electrolyte out of the joint.", example=True)
    inhibits: str = described("What it inhibits; empty if nothing.", "")
    reapplication: str = described("When it has to be renewed; empty if unknown.", "at each opening")
    attacks: tuple[str, ...] = described("Families of materials that it harms.", [])
    helps: tuple[str, ...] = described("Families of materials that it protects.", ["wrought aluminium"])
    specifications: tuple[str, ...] = described("Specifications that call it up.", [])
    directions: str = described("How it is used, in general; the maker's directions come first.", "")
    caution: str = described("What can hurt people or hardware; empty if nothing particular.", "")


class CompoundPage(Page):
    """One page of compounds."""

    items: tuple[Compound, ...] = nested("Compounds in the order of their identifiers.")
