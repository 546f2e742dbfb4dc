"""Finishes and what they can be put on."""

from __future__ import annotations

from service.catalogue.records import FinishRole
from service.web.schemas.fields import described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class FinishSubstrate(Provenance):
    """Whether a finish can be put on a family of substrates."""

    substrate_family: str = described("Family of materials.", "carbon steel")
    suitability: str = described("`good`, `conditional` or `no`.", "good")
    polarity: str = described(
        "The finish against the substrate: `anodic`, `cathodic`, `neutral` or `insulating`.", "anodic"
    )
    underplate_id: str = described("Finish that has to lie beneath; empty if none.", "")
    failure_mode: str = described("How the combination fails; empty if nothing particular.", "white rust")


class Finish(Provenance):
    """A plating, conversion coating, passivation, anodic film or organic coat."""

    id: str = described("Identifier of the finish.", "zn-passivated-clear")
    name: str = described("Name for people.", "Zinc plate, clear or blue trivalent passivation")
    process: str = described("How it is made.", "electroplate + trivalent passivation")
    role: FinishRole = described("What it does to the surface that the electrolyte sees.", "metallic")
    outer_electrode_id: str = described(
        "Electrode that the electrolyte sees; empty where the substrate shows through or the film insulates.",
        "zinc",
    )
    is_conductive: bool = described("Whether current passes through it.", example=True)
    is_looked_through: bool = described(
        "Whether published selection rules judge the metal beneath it.", example=False
    )
    thickness_min_um: float | None = described("Thinnest usual coat.", 5.0)
    thickness_typical_um: float | None = described("Coat that is assumed where a drawing is silent.", 8.0)
    thickness_max_um: float | None = described("Thickest usual coat.", 25.0)
    pore_free_above_um: float | None = described("Thickness from which a noble coat counts as closed.", None)
    underplate_id: str = described("Finish that belongs beneath; empty if none.", "")
    contact_grade: bool = described("Whether it serves as a separable contact.", example=False)
    solderable: str = described("`yes`, `limited` or `no`.", "limited")
    max_temperature_C: float | None = described("Temperature that it stands in service.", 100.0)
    wear_class: str = described("Resistance to wear: `low`, `medium` or `high`.", "low")
    whisker_risk: str = described("Risk of whiskers: `none`, `low`, `medium` or `high`.", "medium")
    embrittlement_risk: str = described(
        "Risk that the process embrittles strong steel: `none`, `low`, `medium` or `high`.", "high"
    )
    rohs: str = described("Standing under the RoHS directive.", "compliant")
    reach: str = described("Standing under REACH; empty if nothing is known.", "")
    substances: tuple[str, ...] = described("Regulated substances that it holds or needs.", ["CrVI"])
    specifications: tuple[str, ...] = described("Specifications that call it up.", ["ISO 2081"])
    cost_tier: int | None = described("Rough cost, 0 for none to 5 for precious.", 1)
    substrates: tuple[FinishSubstrate, ...] = nested("What it can be put on.")


class FinishPage(Page):
    """One page of finishes."""

    items: tuple[Finish, ...] = nested("Finishes in the order of their identifiers.")
