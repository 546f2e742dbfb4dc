"""The report on an assembly: joints and parts, worst first, and what policy says about them."""

from __future__ import annotations

from typing import Any

from service.judgement import Verdict
from service.web.schemas.answers import Anode, Condition
from service.web.schemas.answers import Warning as Doubt
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.networks import EndsInNetwork, PartInNetwork, ReportedNetwork
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity
from service.web.schemas.standings import PolicyStanding

SHA = "5b" * 32
VERDICT_COUNTS = {"suitable": 3, "conditional": 17, "unsuitable": 11, "undetermined": 3}


class PolicyIdentity(Schema):
    """The bands by which figures became words."""

    name: str = described("Name of the bands.", "house rule")
    sha256: str = described("Hash of their content.", SHA)


class ReportedProgramme(Schema):
    """What held for all of the assembly."""

    name: str = described("Name of the programme.", "Tide gauge 2026")
    release: str = described("Release that it is pinned to, empty for none.", "2026.11.25-1")
    environment: str = described("Where everything lived that said nothing.", "marine-atmosphere-0-100-m")
    design_life_years: float | None = described("Life of joints that said nothing.", 15.0)
    effective_at: str = described("Unit or date whose parts were judged.", "SN 110")


class ReportTotals(Schema):
    """How many came out how."""

    joints: int = described("Joints that were judged.", 34)
    pairs: int = described("Pairs of parts that they stand for.", 40)
    assumed_joints: int = described("Joints that were assumed.", 0)
    by_verdict: dict[str, int] = described("Joints by verdict.", VERDICT_COUNTS)
    by_severity: dict[str, int] = described(
        "Joints by severity.", {"none": 2, "slight": 5, "moderate": 13, "severe": 11, "unknown": 3}
    )
    parts: int = described("Parts.", 52)
    parts_with_surface: int = described("Parts that name a surface.", 45)


class ReportedEnd(Schema):
    """One part of a joint."""

    part: str = described("What joints call it.", "SK-1112")
    number: str = described("Part number.", "SK-1112")
    revision: str = described("Revision.", "A")
    effectivity: str = described("Units or dates for which it is built in.", "SN 101-120")
    description: str = described("Name.", "Bracket bolt M16x60")


class SurfaceNames(Schema):
    """Both surfaces as they were read."""

    first: str | None = described("First surface.", "Structural steel S355J2 with zinc")
    second: str | None = described("Second surface.", "Stainless steel 316")


class ReportedPlace(Schema):
    """Where a joint was judged to live."""

    id: str = described("Identifier; `custom` if the caller described it.", "splash-and-tidal-zone")
    name: str = described("Name for people.", "Marine splash and tidal zone")
    exposure: str = described("How the electrolyte meets the joint.", "splash")
    tags: tuple[str, ...] = described("Facts that rules asked for.", ["sea_water"])


class ReportedHazard(Schema):
    """A rule that spoke."""

    id: str = described("Identifier of the rule.", "tin-whiskers")
    name: str = described("Name for people.", "Whiskers on bright tin")
    severity: str | None = described("How bad it is.", "moderate")
    statement: str = described("What it says.", "Bright tin grows whiskers.")
    is_certain: bool = described("Whether all facts it asks for are known.", example=True)


class JointCase(Schema):
    """One question that was judged: a place, and an end of an unknown area."""

    case: str = described("`as stated`, `first side small` or `first side large`.", "as stated")
    environment: str = described("Where.", "splash-and-tidal-zone")
    areas_cm2: dict[str, float] = described("Wetted areas by side.", {"first": 1450.0, "second": 38.0})
    verdict: Verdict = described("Verdict of the case.", "conditional")
    severity: str = described("Severity of the case.", "moderate")
    anode: str = described("Which side is eaten.", "first")
    answer_sha256: str = described("Hash of the whole answer; `answers` leads to its address.", SHA)


class NotJudged(Schema):
    """Why a question could not be asked."""

    pointer: str = described("Which part of the joint.", "/environment")
    detail: str = described("What is wrong.", "no environment with id 'quay'")
    suggestions: tuple[str, ...] = described("Near names.", ["harbour-quay-spray"])


class ReportedJoint(Schema):
    """One joint; it is as bad as the worst of its cases."""

    joint: str = described("Identifier.", "J02")
    name: str = described("What the caller calls it.", "Bracket bolts")
    first: ReportedEnd = nested("One part.")
    second: ReportedEnd = nested("The other part.")
    is_assumed: bool = described("Whether a rule assumed the contact.", example=False)
    basis: str = described("`stated`, or the rule that assumed it.", "stated")
    stands_for_pairs: int = described("Pairs of parts alike that it stands for.", 1)
    alike: tuple[tuple[str, str], ...] = described("Some of the others.", [])
    functions: tuple[str, ...] = described("What it is for.", ["structural"])
    geometry: str = described("Shape of the joint line.", "fastener")
    compound: str | None = described("Compound in it.", None)
    is_isolated: bool = described("Whether no current can pass.", example=False)
    verdict: Verdict = described("Verdict of the worst case.", "conditional")
    severity: str = described("Severity of the worst case, or `unknown`.", "moderate")
    depends_on_case: bool = described("Whether its cases have different verdicts.", example=False)
    deciding_case: str | None = described("Case that decided.", "as stated")
    why: str = described("One line for a buyer.", "The zinc is spent beside the stainless bolt.")
    confidence: str | None = described("`high`, `medium` or `low`.", "medium")
    deciding_witness: str | None = described("Witness that decided.", "kinetics")
    dissenting_witnesses: tuple[str, ...] = described("Witnesses that say otherwise.", ["screening"])
    anode: Anode | None = nested("Which side is eaten.")
    surfaces: SurfaceNames | None = nested("Both surfaces as they were read.")
    environment: ReportedPlace | None = nested("Where it was judged to live.")
    design_life_years: float | None = described("Life that it had to reach.", 20.0)
    loss: dict[str, Any] | None = described(
        "Loss in the deciding case, each figure with its unit in its name.", {"allowance_um": 85.0}
    )
    conditions: tuple[Condition, ...] = nested("What must be done for the verdict to hold.")
    cautions: tuple[str, ...] = described("What can hurt people or hardware.", [])
    hazards: tuple[ReportedHazard, ...] = nested("Rules that spoke.")
    warnings: tuple[Doubt, ...] = nested("What is doubtful in the question.")
    missing: tuple[str, ...] = described("What is not known and would matter.", [])
    question: str | None = described("The question whose reply would decide.", None)
    cases: tuple[JointCase, ...] = nested("Every question that was judged.")
    not_judged: tuple[NotJudged, ...] = nested("Questions that could not be asked.")
    in_network: EndsInNetwork | None = nested("What the network of its parts changes.")
    line: int | None = described("Row of the table that it came from.", 3)


class ReportedPart(Schema):
    """One part, as bad as the worst of its joints."""

    part: str = described("What joints call it.", "SK-1112")
    number: str = described("Part number.", "SK-1112")
    revision: str = described("Revision.", "A")
    effectivity: str = described("Units or dates for which it is built in.", "SN 101-120")
    description: str = described("Name.", "Bracket bolt M16x60")
    parent: str = described("What the part above is called.", "SK-1100")
    quantity: float | None = described("Pieces.", 8.0)
    zone: str | None = described("Where it lives.", "splash-and-tidal-zone")
    text: str | None = described("What names its surface.", "A4-80")
    match: str | None = described("How the text was read; null if it names none.", "normalised")
    surface: str | None = described("Its likeliest surface.", "Stainless steel 316")
    verdict: Verdict | None = described("Worst verdict of its joints.", "conditional")
    severity: str | None = described("Worst severity of its joints.", "moderate")
    joints: tuple[str, ...] = described("Its joints, worst first.", ["J02"])
    network: PartInNetwork | None = nested("What its network does to it.")
    assumptions: tuple[str, ...] = described("What was assumed about it.", [])
    line: int | None = described("Row of the table that it came from.", 6)


class TextCandidate(Schema):
    """One way to read a text."""

    surface: str = described("The surface in words.", "Aluminium 6082 T6")
    material_id: str | None = described("Material.", "al-6082-t6")
    finish_ids: tuple[str, ...] = described("Finishes, outermost first.", [])
    confidence: float = described("How sure the reading is, 0 to 1.", 0.29)
    assumptions: tuple[str, ...] = described("What was assumed.", ["temper T6"])


class UnresolvedText(Schema):
    """A text that was not settled, once for all parts that bear it."""

    text: str = described("The text.", "Aluminum plate")
    match: str = described("`ambiguous`, `fuzzy` or `unknown`.", "ambiguous")
    question: str | None = described("The question whose reply would settle it.", "Which alloy is it?")
    candidates: tuple[TextCandidate, ...] = nested("Ways to read it, the likeliest first.")
    suggestions: tuple[str, ...] = described("Near names for an unknown text.", ["EN AW-6082"])
    parts: tuple[str, ...] = described("Parts that bear it.", ["p9"])
    joints: int = described("Joints that it touches.", 4)
    decides: bool = described("Whether one of these joints is undetermined.", example=True)


class ReportAssumptions(Schema):
    """What was assumed about the whole."""

    contacts: tuple[str, ...] = described(
        "Rules by which contacts were assumed.", ["a fastener clamps its siblings"]
    )
    contacts_not_assumed_under: tuple[str, ...] = described("Parents with too many pairs.", [])
    parts_without_surface: tuple[str, ...] = described("Parts that name no surface.", ["SK-1000"])
    insulators: tuple[str, ...] = described("Parts that do not conduct.", [])
    never_together: tuple[str, ...] = described("Joints whose parts are never in one unit.", [])


class ReportFault(Schema):
    """Something that could not be used and was passed over."""

    table: str = described("File or table.", "parts.csv")
    line: int | None = described("Row, counted from 1.", 7)
    column: str = described("Heading of the column.", "Area")
    reason: str = described("What is wrong.", "'large' is no figure")
    suggestions: tuple[str, ...] = described("Near names.", [])


class AssemblyReport(Schema):
    """The report on an assembly; the same assembly, release and bands give the same bytes."""

    release: ReleaseIdentity = described("Release that it was judged by.", RELEASE_EXAMPLE)
    engine: str = described("Version of the engine that judged.", "1.0.0")
    policy: PolicyIdentity = nested("Bands by which figures became words.")
    name: str = described("Name of the assembly.", "Skerrivoe tide gauge")
    programme: ReportedProgramme = nested("What held for all of it.")
    totals: ReportTotals = nested("How many came out how.")
    joints: tuple[ReportedJoint, ...] = nested("Joints, worst first.")
    parts: tuple[ReportedPart, ...] = nested("Parts, worst first.")
    networks: tuple[ReportedNetwork, ...] = nested("Conductive groups of three parts or more, by place.")
    unresolved: tuple[UnresolvedText, ...] = nested("Texts that were not settled, those that decide first.")
    assumptions: ReportAssumptions = nested("What was assumed about the whole.")
    faults: tuple[ReportFault, ...] = nested("What could not be used.")
    sha256: str = described("Hash of the canonical JSON of all other members.", SHA)


class HeadingReading(Schema):
    """What became of one heading of a file."""

    heading: str = described("The heading.", "Werkstoff")
    column: str | None = described("Column that it was read as.", "material")
    unit: str | None = described("Unit of its figures.", None)
    is_guessed: bool = described("Whether it was recognised by likeness.", example=False)
    reason: str | None = described("Why it was passed over.", None)


class FilesReading(Schema):
    """How files were read."""

    tables: dict[str, tuple[HeadingReading, ...]] = described(
        "Headings by table.",
        {
            "parts.csv": [
                {
                    "heading": "Werkstoff",
                    "column": "material",
                    "unit": None,
                    "is_guessed": False,
                    "reason": None,
                }
            ]
        },
    )
    assumptions: tuple[str, ...] = described("What was assumed.", ["the tree was read from levels"])


class AssemblyCheck(Schema):
    """A report with what stands beside it: policy, how files were read, and the answers' addresses."""

    report: AssemblyReport = nested("The report.")
    standing: PolicyStanding = nested("Where the assembly stands against policy.")
    reading: FilesReading | None = nested("How files were read; null without files.")
    stored_policy: str | None = described(
        "Version of the stored policy that decided, as `name@version`; null if none was named.",
        "port-of-skerrivoe@3",
    )
    answers: dict[str, str] = described(
        "Addresses of whole answers by their hash, of the first 2,000.", {SHA: "/v1/answers/" + SHA}
    )
