"""Rules that witnesses evaluate, and options that change a joint."""

from __future__ import annotations

from typing import Any

from service.catalogue.records import RuleKind
from service.web.schemas.fields import described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Rule(Provenance):
    """A rule with the trigger that makes it speak."""

    id: str = described("Identifier of the rule.", "hazard-tin-whiskers")
    kind: RuleKind = described("Which witness evaluates it.", "hazard")
    name: str = described("Name for people.", "Whiskers on bright tin")
    trigger: Any = described("Condition under which it speaks.", {"any_finish": {"id": "tin-bright"}})
    severity: str = described("`none`, `slight`, `moderate` or `severe`.", "moderate")
    anode: str = described("Which member of the trigger's pair is eaten; empty if neither.", "")
    refuses: bool = described("Whether it alone makes a couple unsuitable.", example=False)
    affects: tuple[str, ...] = described("Functions of a joint that it concerns.", ["signal contact"])
    statement: str = described("What it says.", "Bright tin grows whiskers that may short neighbours.")
    advice: str = described("What to do about it.", "Choose matt tin over nickel.")
    caution: str = described("What can hurt people or hardware; empty if nothing particular.", "")


class RulePage(Page):
    """One page of rules."""

    items: tuple[Rule, ...] = nested("Rules in the order of their identifiers.")


class Mitigation(Provenance):
    """An option that changes a joint."""

    id: str = described("Identifier of the mitigation.", "isolating-washer")
    name: str = described("Name for people.", "Isolating washer and sleeve")
    rank: int = described("Place in the usual order of preference, 1 first.", 1)
    transform: str = described("Change that is applied to the joint.", "isolate")
    parameters: Any = described("Figures of the change.", {"resistance_ohm": 1e6})
    applies_when: str = described("When it can be used.", "no current path is needed")
    ends_functions: tuple[str, ...] = described("Functions that it takes away.", ["electrical bond"])
    needs_opt_in: tuple[str, ...] = described("Regulated substances that the caller has to allow.", [])
    life_years_low: float | None = described("Shortest usual life.", 5.0)
    life_years_high: float | None = described("Longest usual life.", 20.0)
    inspection: str = described("What has to be looked at, and when.", "yearly, for cracks and dirt bridges")
    done_badly: str = described("What goes wrong when it is done badly.", "dirt bridges the washer")
    directions: str = described("How it is done, in general.", "Isolate head, shank and nut.")
    caution: str = described("What can hurt people or hardware; empty if nothing particular.", "")
    has_sourced_efficacy: bool = described("Whether a source shows that it works.", example=False)


class MitigationPage(Page):
    """One page of mitigations."""

    items: tuple[Mitigation, ...] = nested("Mitigations in the order of their identifiers.")
