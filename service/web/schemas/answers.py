"""The answer: verdict, reasons, evidence, and everything it depends on."""

from __future__ import annotations

from typing import Any

from service.judgement import Severity, Verdict
from service.web.schemas.couples import View
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity

ADDRESS = "/v1/answers/" + "5b" * 32


class AnswerQuery(Schema):
    """How much of a stored answer is sent."""

    view: View = described("How much of the answer is sent.", "full", View.FULL)


class Summary(Schema):
    """The answer in words, for three readers."""

    line: str = described("One line for a buyer.", "Unsuitable: the aluminium is eaten at the screw.")
    paragraph: str = described(
        "A paragraph for a designer.", "In a marine atmosphere the aluminium corrodes."
    )
    chain: tuple[str, ...] = described("Each step for a corrosion engineer.", ["screening: 0.55 V apart"])


class Anode(Schema):
    """Which side is eaten."""

    side: str = described("`first`, `second`, `both` or `none`.", "first")
    name: str | None = described("Name of that surface.", "Aluminium 6082 T6")
    is_in_doubt: bool = described("Whether the other side may be eaten instead.", example=False)
    probability: float | None = described("Share of the sample in which this side is eaten.", 0.99)


class ResolvedMaterial(Schema):
    """A material by identifier and name."""

    id: str = described("Identifier of the material.", "al-6082-t6")
    name: str = described("Name for people.", "Aluminium 6082 T6")


class ResolvedLayer(Schema):
    """One coat of a finish stack."""

    finish_id: str = described("Identifier of the finish.", "anod-ii-clear")
    name: str = described("Name for people.", "Sulfuric acid anodizing")
    thickness_um: float | None = described("Thickness that the text gives.", 15.0)
    thickness_max_um: float | None = described("Upper end of a called-up range.", None)


class TextSpan(Schema):
    """Characters of a text that justified one part of its reading."""

    field: str = described("Which part: material, finish, thickness, temper or condition.", "material")
    start: int = described("First character, counted from 0.", 0)
    end: int = described("Character after the last.", 13)
    reason: str = described("Why these characters mean that.", "EN 573 designation")


class ResolvedSurface(Schema):
    """One way to read a surface."""

    name: str | None = described("Name of the surface.", "Aluminium 6082 T6, anodized")
    material: ResolvedMaterial | None = described(
        "The basis material; null where it is left open.", {"id": "al-6082-t6", "name": "Aluminium 6082 T6"}
    )
    basis_family: str | None = described("Family of the basis.", "wrought aluminium")
    layers: tuple[ResolvedLayer, ...] = nested("Finish stack, outermost first.")
    condition: str = described("`intact`, `worn` or `damaged`.", "intact")
    outer_electrode: str | None = described("Electrode that the electrolyte sees.", "aluminium-6xxx")
    confidence: float = described("How sure the reading is, 0 to 1.", 0.97)
    assumptions: tuple[str, ...] = described("What was assumed.", ["temper T6"])
    missing: tuple[str, ...] = described("What the text leaves open.", ["thickness"])
    spans: tuple[TextSpan, ...] = nested("Characters that justified the reading.")


class SurfaceReading(ResolvedSurface):
    """A surface as it was read, with the other ways to read it."""

    text: str = described("What the caller sent.", "EN AW-6082-T6, anodized 15 µm")
    match: str = described("`exact`, `normalised`, `fuzzy`, `ambiguous` or `unknown`.", "normalised")
    question: str | None = described("The question whose reply would settle it.", None)
    suggestions: tuple[str, ...] = described("Near names for an unknown text.", [])
    alternatives: tuple[ResolvedSurface, ...] = nested("Other readings, the likelier first.")


class Surfaces(Schema):
    """Both surfaces."""

    first: SurfaceReading = nested("The first surface.")
    second: SurfaceReading = nested("The second surface.")


class PlaceSummary(Schema):
    """The environment that was judged in."""

    id: str = described("Identifier; `custom` if the caller described it.", "marine-atmosphere-0-100-m")
    name: str = described("Name for people.", "Open air, sea front, 0-100 m from the surf")
    exposure: str = described("How the electrolyte meets the joint.", "atmosphere")
    electrolyte_class: str = described("Family of its electrolyte.", "chloride")
    screening_class: str = described("Which permissible difference applied.", "harsh")
    temperature_C: float | None = described("Mean temperature.", 11.0)
    conductivity_S_per_m: float | None = described("Conductivity of the electrolyte.", 5.0)
    film_thickness_um: float | None = described("Thickness of the film.", 50.0)
    tags: tuple[str, ...] = described("Facts that rules asked for.", ["uv"])


class JointSummary(Schema):
    """The joint that was judged, with the defaults that were filled in."""

    first_area_cm2: float = described("Wetted area of the first surface.", 40.0)
    second_area_cm2: float = described("Wetted area of the second surface.", 2.5)
    geometry: str = described("Shape of the wetted joint line.", "fastener")
    bore_mm: float | None = described("Inside diameter of the pipe, where the joint is one.", None)
    functions: tuple[str, ...] = described("What the joint is for.", ["structural"])
    design_life_years: float = described("Life that it had to reach.", 15.0)
    compound: str | None = described("Compound in the joint.", None)
    is_isolated: bool = described("Whether no current can pass.", example=False)
    policy: str = described("Policy whose bands turned figures into words.", "house rule")
    defaults_used: tuple[str, ...] = described("What the caller left to defaults.", ["areas"])


class ConditionOutcome(Schema):
    """The verdict if the finishes were in another condition."""

    condition: str = described("`worn` or `damaged`.", "worn")
    verdict: Verdict = described("Verdict in that condition.", "unsuitable")
    severity: str = described("Severity in that condition.", "severe")
    why: str = described("Statement of the deciding witness.", "The exposed steel feeds the current.")


class ReadingOutcome(Schema):
    """The verdict under one pair of readings."""

    first: str = described("First surface as read.", "A4-80")
    second: str = described("Second surface as read.", "Zinc plate on carbon steel")
    verdict: Verdict = described("Verdict under these readings.", "conditional")


class Finding(Schema):
    """What one witness reports."""

    witness: str = described("Which method.", "kinetics")
    applies: bool = described("Whether it has something to say here.", example=True)
    abstains: str | None = described("Why it says nothing.", None)
    severity: Severity | None = described("How badly the couple suffers.", "severe")
    anode: str | None = described("Which side it sees eaten.", "first")
    is_polarity_in_doubt: bool = described("Whether the other side may be eaten.", example=False)
    confidence: str = described("`high`, `medium` or `low`.", "medium")
    grade: str | None = described("Weakest grade of its figures, A to E.", "C")
    statement: str = described("What it says.", "The aluminium loses 120 µm in 15 years at the joint.")
    figures: dict[str, Any] = described(
        "Its figures, each with its unit in its name.", {"difference_mV": 550.0}
    )
    evidence: tuple[str, ...] = described(
        "Records that it used, as table/identifier.", ["kinetics/al-active"]
    )


class Condition(Schema):
    """What must be done for a conditional verdict to hold."""

    code: str = described("Stable word for the condition.", "seal-joint")
    action: str = described("What has to be done.", "Seal the joint line before the first wetting.")
    who: str = described("Who must do it.", "assembler")
    how_verified: str = described("How it is checked.", "visual, at first article")


class Hazard(Schema):
    """A rule that spoke."""

    id: str = described("Identifier of the rule.", "hazard-tin-whiskers")
    kind: str = described("Kind of rule.", "hazard")
    name: str = described("Name for people.", "Whiskers on bright tin")
    severity: str | None = described("How bad it is.", "moderate")
    is_certain: bool = described("Whether all facts it asks for are known.", example=True)
    unknown_facts: tuple[str, ...] = described("Facts that would decide whether it applies.", [])
    affects: tuple[str, ...] = described("Functions of a joint that it concerns.", ["signal contact"])
    statement: str = described("What it says.", "Bright tin grows whiskers.")
    advice: str = described("What to do about it.", "Choose matt tin over nickel.")
    caution: str | None = described("What can hurt people or hardware.", None)
    citation: str = described("Where it comes from.", "common practice, no source")


class Warning(Schema):  # noqa: A001 - the word that callers look for
    """Something doubtful in a usable question."""

    code: str = described("Stable word for the doubt.", "read-loosely")
    detail: str = described("What is doubtful.", "The first text was read by likeness; check the reading.")


class UnusedValue(Schema):
    """A figure that was set aside."""

    id: str = described("Identifier of the record.", "flowing-points-graphite")
    value: str = described("The figure.", "-0.98 V")
    reason: str = described("Why it was set aside.", "measured in still water")


class Evidence(Schema):
    """One record that the answer rests on."""

    table: str = described("Table of the record.", "measurements")
    id: str = described("Identifier of the record.", "flowing-ranges-graphite")
    subject: str = described("What it is about.", "zinc")
    quantity: str = described("What it tells.", "corrosion_potential")
    value: float | None = described("The figure.", -1.03)
    low: float | None = described("Lower end of a range.", -1.06)
    high: float | None = described("Upper end of a range.", -1.0)
    unit: str = described("Unit of the figures.", "V")
    reference_electrode: str = described("Reference of a potential.", "SCE")
    conditions: str = described("Conditions of the figure.", "flowing sea water")
    grade: str | None = described("Grade of the figure, A to E.", "B")
    obtained: str = described("How the figure was obtained.", "read")
    source_id: str = described("Source, a key of `/v1/sources`.", "aca-seawater-bulletin")
    locator: str = described("Where in the source.", "Fig. 1")
    citation: str = described("The source as a line.", "Seawater bulletin, Fig. 1")
    csl: dict[str, Any] = described(
        "The source as CSL-JSON.", {"id": "aca-seawater-bulletin", "type": "standard"}
    )
    used_by: tuple[str, ...] = described("Witnesses that used it.", ["screening"])
    not_used: tuple[UnusedValue, ...] = nested("Figures that were set aside for it, and why.")


class TippingPoint(Schema):
    """The single input whose smallest change turns the verdict."""

    quantity: str = described("Which input.", "second_area_cm2")
    unit: str = described("Its unit.", "cm2")
    present: float = described("Its present figure.", 2.5)
    flips_at: float = described("The figure beyond which the verdict is another one.", 11.0)
    becomes: Verdict = described("That verdict.", "conditional")


class Answer(Schema):
    """The answer to one couple."""

    address: str = described("Where this answer stays.", ADDRESS)
    digest: str = described("Digest of everything it depends on.", "5b" * 32)
    release: ReleaseIdentity = described("Release that it was judged by.", RELEASE_EXAMPLE)
    engine: str = described("Version of the engine that judged.", "1.0.0")
    verdict: Verdict = described("May they touch here, for so long?", "unsuitable")
    severity: str = described("`none`, `slight`, `moderate`, `severe` or `unknown`.", "severe")
    confidence: str = described("`high`, `medium` or `low`.", "medium")
    summary: Summary = nested("The answer in words.")
    anode: Anode = nested("Which side is eaten.")
    surfaces: Surfaces = nested("The surfaces as they were read.")
    environment: PlaceSummary = nested("Where they were judged to live.")
    joint: JointSummary = nested("The joint that was judged.")
    loss: dict[str, Any] | None = described(
        "Loss over the life, each figure with its unit in its name.", {"life_loss_um": {"median": 120.0}}
    )
    by_condition: tuple[ConditionOutcome, ...] = nested("Verdicts with worn or damaged finishes.")
    by_reading: tuple[ReadingOutcome, ...] = described(
        "Verdicts under each reading of an ambiguous text.", []
    )
    deciding_witness: str | None = described("Witness that decided.", "kinetics")
    dissenting_witnesses: tuple[str, ...] = described("Witnesses that say otherwise.", ["screening"])
    findings: tuple[Finding, ...] = nested("What each witness reports.")
    conditions: tuple[Condition, ...] = nested("What must be done for the verdict to hold.")
    cautions: tuple[str, ...] = described("What can hurt people or hardware.", [])
    hazards: tuple[Hazard, ...] = nested("Rules that spoke.")
    warnings: tuple[Warning, ...] = nested("What is doubtful in the question, or banned by the house.")
    missing: tuple[str, ...] = described("What is not known and would matter.", [])
    question: str | None = described("The question whose reply would decide.", None)
    evidence: tuple[Evidence, ...] = nested("Every record that the answer rests on.")
    would_change_if: TippingPoint | None = nested("What would turn the verdict, if asked for.")


class Decision(Schema):
    """The same answer in under 1 kB."""

    address: str = described("Where this answer stays.", ADDRESS)
    release: str = described("Label of the release that it was judged by.", "2026.11.25-1")
    engine: str = described("Version of the engine that judged.", "1.0.0")
    verdict: Verdict = described("May they touch here, for so long?", "unsuitable")
    severity: str = described("`none`, `slight`, `moderate`, `severe` or `unknown`.", "severe")
    confidence: str = described("`high`, `medium` or `low`.", "medium")
    line: str = described("One line for a buyer.", "Unsuitable: the aluminium is eaten at the screw.")
    anode: str = described("`first`, `second`, `both` or `none`.", "first")
    is_polarity_in_doubt: bool = described("Whether the other side may be eaten.", example=False)
    deciding_witness: str | None = described("Witness that decided.", "kinetics")
    conditions: tuple[str, ...] = described("Codes of what must be done.", ["seal-joint"])
    question: str | None = described("The question whose reply would decide.", None)
    warnings: int = described("Number of doubts in the question.", 0)
