"""Ranked mitigations."""

from __future__ import annotations

from typing import Any

from service.judgement import Function, Verdict
from service.web.schemas import answers
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.remedy_parts import AboutRemedies, ChangedOutcome, JudgedJoint, ShownLife


class ShownMeasure(Schema):
    """A measure of the knowledge base."""

    id: str = described("Identifier.", "seal-fillet")
    name: str = described("Name for people.", "Fillet-seal the joint edge after assembly")
    transform: str = described("What it changes.", "seal")
    has_sourced_efficacy: bool = described("Whether a source shows that it works.", example=True)
    citation: str = described("Where it comes from.", "MIL-STD-1250A, 5.7-5.8")
    note: str | None = described("What else is known of it.", None)


class FunctionOutcome(Schema):
    """What becomes of a declared function."""

    function: Function = described("Which function.", "electrical bond")
    effect: str = described("`kept`, `ended`, `moved`, `restored` or `at risk`.", "kept")
    statement: str = described("In words.", "Kept if the contact faces stay free of the insulating coat.")


class Renewal(Schema):
    """When a measure has to be done again."""

    low_years: float | None = described("The unfavourable figure.", 5.0)
    high_years: float | None = described("The favourable figure.", 15.0)
    compounds: tuple[str, ...] = described("When its compounds are renewed.", ["inspect the fillet"])


class ResidualRisk(ChangedOutcome):
    """What goes wrong when a measure is done badly, and the verdict then."""

    measure: str = described("Identifier of the measure.", "seal-fillet")
    done_badly: str = described("The usual mistake.", "Water trapped inside when assembled wet.")
    likelihood: float | None = described("How likely it fails, where the knowledge base says.", 0.05)


class UsedCompound(Schema):
    """A compound that a measure uses."""

    id: str = described("Identifier.", "sl-ps-inhib")
    name: str = described("Name for people.", "Inhibited polysulfide sealant")
    attacks: tuple[str, ...] = described("Families that it attacks.", ["noble metal"])
    reapplication: str | None = described("When it is renewed.", "inspect the fillet")
    caution: str | None = described("What can hurt people or hardware.", None)


class AttackedMetal(Schema):
    """A metal of the joint that a compound attacks."""

    compound: str = described("Identifier of the compound.", "jc-nickel-filled")
    family: str = described("Family of the metal.", "wrought aluminium")


class WorkStep(Schema):
    """One step of the work."""

    step: str = described("`prepare`, `apply`, `assemble`, `seal`, `inspect` or `defer`.", "prepare")
    text: str = described("What to do.", "Dry and degrease the joint line.")


class WorkSteps(Schema):
    """How a measure is done, in general."""

    measure: str = described("Identifier of the measure.", "seal-fillet")
    steps: tuple[WorkStep, ...] = nested("The steps in order.")


class MitigationRow(Schema):
    """Measures that make the joint acceptable, alone or together."""

    rank: int = described("Place in the ranking, from 1.", 1)
    measures: tuple[ShownMeasure, ...] = nested("One to three measures.")
    verdict: Verdict = described("Verdict as told.", "conditional")
    judged_verdict: Verdict = described("Verdict of the changed joint by itself.", "suitable")
    capped_because: str | None = described("Why the verdict is told no better.", "it has to be kept up: seal")
    joints: tuple[JudgedJoint, ...] = nested("The joints that exist then; the worst decides.")
    environment_changes: dict[str, Any] = described(
        "Figures of the place before and after.", {"is_sheltered": {"before": False, "after": True}}
    )
    better: tuple[str, ...] = described("What gets better.", ["Attack falls from severe to slight."])
    worse: tuple[str, ...] = described("What gets worse.", [])
    chain: tuple[str, ...] = described("Each step for a corrosion engineer.", ["measure: seal"])
    conditions: tuple[answers.Condition, ...] = nested("What must be done for the verdict to hold.")
    functions: tuple[FunctionOutcome, ...] = nested("What becomes of each declared function.")
    life: ShownLife | None = nested("How long the joint lasts; null where that is not known.")
    renewal: Renewal = nested("When it has to be done again.")
    inspection: tuple[str, ...] = described("What is inspected, and where.", ["adhesion each 1-2 years"])
    residual_risk: tuple[ResidualRisk, ...] = nested("What is left of the risk, measure by measure.")
    compounds: tuple[UsedCompound, ...] = nested("Compounds that are used.")
    attacked_here: tuple[AttackedMetal, ...] = nested("Metals of this joint that a compound attacks.")
    cautions: tuple[str, ...] = described("What can hurt people or hardware.", [])
    directions: tuple[WorkSteps, ...] = nested("How it is done; makers' directions come first.")


class NamedMeasure(Schema):
    """A measure by name."""

    id: str = described("Identifier.", "isolating-washer")
    name: str = described("Name for people.", "Insulating washer, sleeve and gasket")


class RuledOut(Schema):
    """Measures that are not ranked."""

    measures: tuple[NamedMeasure, ...] = nested("Which measures.")
    reason: str = described("Stable word for the reason.", "refused-by-rule")
    detail: str = described("The reason in words.", "A protective-earth joint must conduct.")


class NeedsConsent(Schema):
    """Measures that are not told because of what they hold."""

    substances: tuple[str, ...] = described("What would have to be opted in to.", ["CrVI"])
    count: int = described("How many measures.", 1)


class MitigationsAnswer(AboutRemedies):
    """What can be done where a couple has to stay, ranked."""

    mitigations: tuple[MitigationRow, ...] = nested("Ways out, best first.")
    insufficient: tuple[RuledOut, ...] = nested("Measures that may be taken and are no way out.")
    infeasible: tuple[RuledOut, ...] = nested("Measures that may not be taken here.")
    needs_consent: tuple[NeedsConsent, ...] = nested("Measures that are hidden until opted in to.")
