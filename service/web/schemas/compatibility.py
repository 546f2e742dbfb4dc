"""What a compound harms and helps."""

from __future__ import annotations

from service.judgement import Function
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity


class CompoundShown(Schema):
    """The compound itself."""

    id: str = described("Identifier.", "as-cu")
    name: str = described("Name for people.", "Copper anti-seize")
    kind: str = described("Kind of compound.", "anti-seize")
    composition: str = described("What it is made of.", "copper flake in grease")
    is_conductive: bool = described("Whether it conducts.", example=True)
    temperature_min_C: float | None = described("Coldest use.", -30.0)
    temperature_max_C: float | None = described("Hottest use.", 1000.0)
    reapplication: str | None = described("When it is renewed.", "at disassembly")
    directions: str = described("How it is used, in general.", "Clean the threads, coat lightly.")
    caution: str | None = described("What can hurt people or hardware.", None)
    note: str | None = described("What else is known.", "Copper is the cathode.")
    citation: str = described("Where it comes from.", "from memory, no page consulted")


class ShownHarm(Schema):
    """What it does to some metals."""

    metals: tuple[str, ...] = described("Families of metals.", ["wrought aluminium"])
    severity: str | None = described("How bad it is.", "severe")
    when: str | None = described("Where or for what it holds; null for always.", "electrolyte_class not none")
    statement: str = described("What happens.", "Each flake is a small cathode in the joint.")
    advice: str = described("What to do about it.", "Zinc-filled or metal-free compound.")
    caution: str | None = described("What can hurt people or hardware.", None)
    rule_id: str | None = described("Rule that says so, a key of `/v1/rules`.", "hazard-copper-paste-light")
    citation: str = described("Where it comes from.", "from memory, no page consulted")


class HelpedFamily(Schema):
    """Metals that it helps."""

    family: str = described("Family.", "carbon steel")
    materials: tuple[str, ...] = described("Materials of that family.", ["steel-s235"])


class CompatibilityAnswer(Schema):
    """A compound with what it harms and helps."""

    release: ReleaseIdentity = described("Release that says so.", RELEASE_EXAMPLE)
    compound: CompoundShown = nested("The compound.")
    harms: tuple[ShownHarm, ...] = nested("What it harms, rules first.")
    helps: tuple[HelpedFamily, ...] = nested("What it helps.")
    ends_functions: tuple[Function, ...] = described("Functions that it ends between the faces.", [])
    fills_gaps: bool = described("Whether it fills the gap between faces.", example=False)
