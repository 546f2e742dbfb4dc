"""What the service sends.

Written from the OpenAPI document by `make openapi`: do not edit.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

import msgspec

from service.client.document import terms
from service.client.record import Record


class AcceptanceRecord(Record, frozen=True, kw_only=True):
    """The rules that decided."""

    name: str
    """Name of the rules."""

    reject_on: tuple[str, ...]
    """Reasons that reject, in their order."""

    review_on: tuple[str, ...]
    """Reasons that ask for review, in their order."""


class AlikePair(Record, frozen=True, kw_only=True):
    """Another way out of the same kind."""

    first: ShownSurface
    """The first surface."""

    second: ShownSurface
    """The second surface."""


class AlternativeRow(Record, frozen=True, kw_only=True):
    """One way out with what gets better and what gets worse."""

    first: ShownSurface
    """The first surface."""

    second: ShownSurface
    """The second surface."""

    verdict: terms.Verdict
    """May they touch here, for so long?"""

    severity: str
    """`none`, `slight`, `moderate`, `severe` or `unknown`."""

    confidence: str
    """`high`, `medium` or `low`."""

    line: str
    """One line for a buyer."""

    deciding_witness: str | None
    """Witness that decided."""

    why: str
    """Statement of the deciding witness."""

    anode: ShownAnode

    loss_over_allowance: LossRatio | None
    """Loss over allowance; null where nothing is computed."""

    hazards: tuple[ShownHazard, ...]
    """Damage besides the computed loss."""

    rank: int
    """Place in the ranking, from 1."""

    is_on_pareto_front: bool
    """Whether nothing beats it in every objective."""

    score: float
    """Weighted sum of the objectives, 0 is best."""

    conditions: tuple[Condition, ...]
    """What must be done for the verdict to hold."""

    requirements: tuple[Condition, ...]
    """What the order must state for the process to work."""

    life: ShownLife | None
    """How long it lasts; null where that is not known."""

    hazard_points: float
    """Weight of its hazards."""

    function_points: float
    """Weight of what it costs the functions."""

    cost_tier: int
    """Cost tiers of both finishes together."""

    change_effort: int
    """How much changes: 3 for a finish, 6 for a material."""

    better: tuple[str, ...]
    """What gets better."""

    worse: tuple[str, ...]
    """What gets worse."""

    when_worn: ChangedOutcome | None
    """The verdict with its finishes worn; null for bare metal."""

    alike: tuple[AlikePair, ...]
    """Others with the same metals outside and the same outcome."""


class AlternativesAnswer(Record, frozen=True, kw_only=True):
    """Everything that could stand in for a couple, ranked."""

    release: ReleaseIdentity
    """Release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    policy: str
    """Policy whose bands turned figures into words."""

    summary: RemedyWords
    """The answer in words."""

    environment: RemedyPlace

    before: JudgedJoint
    """The joint as it is."""

    warnings: tuple[AnswerWarning, ...]
    """What is doubtful in the question."""

    searched: SearchSize

    weights: dict[str, float]
    """Share of each objective."""

    how_ranked: str
    """The order in words."""

    alternatives: tuple[AlternativeRow, ...]
    """Ways out, best first."""

    excluded: tuple[ExcludedGroup, ...]
    """What was left out and why, counted."""

    blocked_by: tuple[ShownBlocker, ...]
    """What blocks, where nothing was found."""


class Anode(Record, frozen=True, kw_only=True):
    """Which side is eaten."""

    side: str
    """`first`, `second`, `both` or `none`."""

    name: str | None
    """Name of that surface."""

    is_in_doubt: bool
    """Whether the other side may be eaten instead."""

    probability: float | None
    """Share of the sample in which this side is eaten."""


class Answer(Record, frozen=True, kw_only=True):
    """The answer to one couple."""

    address: str
    """Where this answer stays."""

    digest: str
    """Digest of everything it depends on."""

    release: ReleaseIdentity
    """Release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    verdict: terms.Verdict
    """May they touch here, for so long?"""

    severity: str
    """`none`, `slight`, `moderate`, `severe` or `unknown`."""

    confidence: str
    """`high`, `medium` or `low`."""

    summary: Summary
    """The answer in words."""

    anode: Anode

    surfaces: Surfaces
    """The surfaces as they were read."""

    environment: PlaceSummary
    """Where they were judged to live."""

    joint: JointSummary
    """The joint that was judged."""

    loss: dict[str, Any] | None
    """Loss over the life, each figure with its unit in its name."""

    by_condition: tuple[ConditionOutcome, ...]
    """Verdicts with worn or damaged finishes."""

    by_reading: tuple[ReadingOutcome, ...]
    """Verdicts under each reading of an ambiguous text."""

    deciding_witness: str | None
    """Witness that decided."""

    dissenting_witnesses: tuple[str, ...]
    """Witnesses that say otherwise."""

    findings: tuple[Finding, ...]
    """What each witness reports."""

    conditions: tuple[Condition, ...]
    """What must be done for the verdict to hold."""

    cautions: tuple[str, ...]
    """What can hurt people or hardware."""

    hazards: tuple[Hazard, ...]
    """Rules that spoke."""

    warnings: tuple[AnswerWarning, ...]
    """What is doubtful in the question, or banned by the house."""

    missing: tuple[str, ...]
    """What is not known and would matter."""

    question: str | None
    """The question whose reply would decide."""

    evidence: tuple[Evidence, ...]
    """Every record that the answer rests on."""

    would_change_if: TippingPoint | None
    """What would turn the verdict, if asked for."""


class AnswerBrief(Record, frozen=True, kw_only=True):
    """An answer in brief."""

    address: str
    """Where this answer stays."""

    digest: str
    """Digest of everything it depends on."""

    release: ReleaseIdentity
    """Release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    verdict: terms.Verdict
    """May they touch here, for so long?"""

    severity: str
    """`none`, `slight`, `moderate`, `severe` or `unknown`."""

    confidence: str
    """`high`, `medium` or `low`."""


class AnswerToday(Record, frozen=True, kw_only=True):
    """The same question under the present release and engine, and every difference with its causes."""

    then: AnswerBrief
    """The answer that was issued."""

    now: AnswerBrief | None
    """The answer of today; null where it cannot be given any more."""

    is_same: bool
    """Whether nothing reads otherwise."""

    difference: tuple[DifferenceLine, ...]
    """What reads otherwise."""

    answer: Answer | None
    """The answer of today in full."""

    problem: ItemProblem | None
    """Why there is none."""


class AnswerWarning(Record, frozen=True, kw_only=True):
    """Something doubtful in a usable question."""

    code: str
    """Stable word for the doubt."""

    detail: str
    """What is doubtful."""


class AssemblyCheck(Record, frozen=True, kw_only=True):
    """A report with what stands beside it: policy, how files were read, and the answers' addresses."""

    report: AssemblyReport
    """The report."""

    standing: PolicyStanding
    """Where the assembly stands against policy."""

    reading: FilesReading | None
    """How files were read; null without files."""

    stored_policy: str | None
    """Version of the stored policy that decided, as `name@version`; null if none was named."""

    answers: dict[str, str]
    """Addresses of whole answers by their hash, of the first 2,000."""


class AssemblyReport(Record, frozen=True, kw_only=True):
    """The report on an assembly; the same assembly, release and bands give the same bytes."""

    release: ReleaseIdentity
    """Release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    policy: PolicyIdentity
    """Bands by which figures became words."""

    name: str
    """Name of the assembly."""

    programme: ReportedProgramme
    """What held for all of it."""

    totals: ReportTotals

    joints: tuple[ReportedJoint, ...]
    """Joints, worst first."""

    parts: tuple[ReportedPart, ...]
    """Parts, worst first."""

    networks: tuple[ReportedNetwork, ...]
    """Conductive groups of three parts or more, by place."""

    unresolved: tuple[UnresolvedText, ...]
    """Texts that were not settled, those that decide first."""

    assumptions: ReportAssumptions

    faults: tuple[ReportFault, ...]
    """What could not be used."""

    sha256: str
    """Hash of the canonical JSON of all other members."""


class AttackedMetal(Record, frozen=True, kw_only=True):
    """A metal of the joint that a compound attacks."""

    compound: str
    """Identifier of the compound."""

    family: str
    """Family of the metal."""


class AuditEntry(Record, frozen=True, kw_only=True):
    """One step that somebody took. Lines are added, never changed and never deleted."""

    serial: int
    """Place in the trail; a later line has a larger one."""

    happened_at: dt.datetime
    """When it was taken."""

    actor: str
    """API key or command that took it."""

    action: str
    """What was done."""

    subject_kind: str
    """Kind of thing that it was done to."""

    subject_id: str
    """Identifier of that thing."""

    detail: dict[str, Any]
    """What this kind of step adds."""


class AuditPage(Record, frozen=True, kw_only=True):
    """Lines of the audit trail, the newest first."""

    items: tuple[AuditEntry, ...]
    """The lines of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class BatchClosing(Record, frozen=True, kw_only=True):
    """The last line. A stream that ends without it, or with `complete` false, is not whole."""

    complete: bool
    """Whether every couple has its line."""

    count: int
    """Lines before this one."""

    failed: int
    """How many of them are errors."""

    digest: str
    """SHA-256 of every byte before this line."""

    release: ReleaseIdentity
    """Release that all were judged by."""


class Bounds(Record, frozen=True, kw_only=True):
    """A figure with its 5 % and 95 % bounds."""

    low: float
    """5 % of the sample lie below."""

    median: float
    """Half of the sample lies below."""

    high: float
    """95 % of the sample lie below."""


class CandidateReading(Record, frozen=True, kw_only=True):
    """One way to read a text."""

    material_id: str | None
    """The basis material; null where it is left open."""

    basis_family: str
    """Family of the basis where it is left open."""

    layers: tuple[LayerReading, ...]
    """Finish stack, outermost first."""

    condition: str
    """`intact`, `worn` or `damaged`."""

    temper: str
    """Temper that the text gives."""

    strength_class: str
    """Strength class that the text gives."""

    confidence: float
    """How sure the reading is, 0 to 1."""

    assumptions: tuple[str, ...]
    """What was assumed."""

    missing: tuple[str, ...]
    """What the text leaves open."""

    spans: tuple[TextSpan, ...]
    """Characters that justified the reading."""


class Cause(Record, frozen=True, kw_only=True):
    """What a difference is due to."""

    table: str
    """Table of the changed record; `engine` for another engine."""

    key: tuple[str, ...]
    """Identifier of the record."""

    field: str
    """The field that changed; empty for a whole record."""

    before: Any
    """What stood there."""

    after: Any
    """What stands there now."""

    kind: str
    """`corrected`, `regraded`, `added`, `removed` or `engine`."""


class ChangeLine(Record, frozen=True, kw_only=True):
    """Something happened. Lines stay for ever, also those about what is gone."""

    serial: int
    """Place in the feed; a later line has a larger one."""

    happened_at: dt.datetime
    """When it happened."""

    kind: str
    """What happened: `verdicts.created`, `verdicts.corrected`, `verdicts.regraded`, `verdicts.withdrawn` (of
    stored assemblies), `release.published`, `release.imported`, `overlay.misfit` (the own overlay names
    what a release does not hold), `webhook.disabled`.
    """

    subject: str
    """What it happened to: an assembly, a release, an answer."""

    detail: dict[str, Any]
    """The facts; of verdicts each joint with what was said before and after and because of which change."""


class ChangePage(Record, frozen=True, kw_only=True):
    """Lines of the feed, the oldest first."""

    items: tuple[ChangeLine, ...]
    """The lines of this page."""

    after: int
    """Serial of the last line; what to ask for next."""

    next: str
    """Address of what follows, now or later; also in the Link header."""


class ChangedOutcome(Record, frozen=True, kw_only=True):
    """How a joint would be judged in another state."""

    verdict: terms.Verdict
    """Verdict then."""

    severity: str
    """Severity then."""

    why: str
    """Statement of the deciding witness."""


class CompatibilityAnswer(Record, frozen=True, kw_only=True):
    """A compound with what it harms and helps."""

    release: ReleaseIdentity
    """Release that says so."""

    compound: CompoundShown
    """The compound."""

    harms: tuple[ShownHarm, ...]
    """What it harms, rules first."""

    helps: tuple[HelpedFamily, ...]
    """What it helps."""

    ends_functions: tuple[terms.Function, ...]
    """Functions that it ends between the faces."""

    fills_gaps: bool
    """Whether it fills the gap between faces."""


class Compound(Record, frozen=True, kw_only=True):
    """A generic joint compound, sealant, grease, preventive, gasket, locker or contaminant."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the compound."""

    name: str
    """Name for people."""

    kind: str
    """Kind of compound."""

    composition: str
    """What it consists of, in general terms."""

    is_conductive: bool
    """Whether it conducts electrons."""

    temperature_min_C: float | None
    """Lowest temperature of service."""

    temperature_max_C: float | None
    """Highest temperature of service."""

    blocks_electrolyte: bool
    """Whether it keeps the electrolyte out of the joint."""

    inhibits: str
    """What it inhibits; empty if nothing."""

    reapplication: str
    """When it has to be renewed; empty if unknown."""

    attacks: tuple[str, ...]
    """Families of materials that it harms."""

    helps: tuple[str, ...]
    """Families of materials that it protects."""

    specifications: tuple[str, ...]
    """Specifications that call it up."""

    directions: str
    """How it is used, in general; the maker's directions come first."""

    caution: str
    """What can hurt people or hardware; empty if nothing particular."""


class CompoundPage(Record, frozen=True, kw_only=True):
    """One page of compounds."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Compound, ...]
    """Compounds in the order of their identifiers."""


class CompoundShown(Record, frozen=True, kw_only=True):
    """The compound itself."""

    id: str
    """Identifier."""

    name: str
    """Name for people."""

    kind: str
    """Kind of compound."""

    composition: str
    """What it is made of."""

    is_conductive: bool
    """Whether it conducts."""

    temperature_min_C: float | None
    """Coldest use."""

    temperature_max_C: float | None
    """Hottest use."""

    reapplication: str | None
    """When it is renewed."""

    directions: str
    """How it is used, in general."""

    caution: str | None
    """What can hurt people or hardware."""

    note: str | None
    """What else is known."""

    citation: str
    """Where it comes from."""


class Condition(Record, frozen=True, kw_only=True):
    """What must be done for a conditional verdict to hold."""

    code: str
    """Stable word for the condition."""

    action: str
    """What has to be done."""

    who: str
    """Who must do it."""

    how_verified: str
    """How it is checked."""


class ConditionOutcome(Record, frozen=True, kw_only=True):
    """The verdict if the finishes were in another condition."""

    condition: str
    """`worn` or `damaged`."""

    verdict: terms.Verdict
    """Verdict in that condition."""

    severity: str
    """Severity in that condition."""

    why: str
    """Statement of the deciding witness."""


class CouponResult(Record, frozen=True, kw_only=True):
    """Where one coupon stands."""

    metal: str
    """Reference metal."""

    result: str
    """Class of ISO 11844-1 or level of ANSI/ISA-71.04."""


class DecidingPolicy(Record, frozen=True, kw_only=True):
    """The policy that decided."""

    name: str
    """Name of the policy."""

    version: str
    """The house's own version."""

    sha256: str
    """Hash of its content."""

    acceptance: AcceptanceRecord


class Decision(Record, frozen=True, kw_only=True):
    """The same answer in under 1 kB."""

    address: str
    """Where this answer stays."""

    release: str
    """Label of the release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    verdict: terms.Verdict
    """May they touch here, for so long?"""

    severity: str
    """`none`, `slight`, `moderate`, `severe` or `unknown`."""

    confidence: str
    """`high`, `medium` or `low`."""

    line: str
    """One line for a buyer."""

    anode: str
    """`first`, `second`, `both` or `none`."""

    is_polarity_in_doubt: bool
    """Whether the other side may be eaten."""

    deciding_witness: str | None
    """Witness that decided."""

    conditions: tuple[str, ...]
    """Codes of what must be done."""

    question: str | None
    """The question whose reply would decide."""

    warnings: int
    """Number of doubts in the question."""


class DeliveryPage(Record, frozen=True, kw_only=True):
    """Messages to a webhook, the newest first."""

    items: tuple[WebhookDelivery, ...]
    """The messages of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class Designation(Record, frozen=True, kw_only=True):
    """A name under which a drawing may call a material."""

    system: str
    """Designation system, such as UNS, EN number, EN name or common."""

    text: str
    """The designation as the system writes it."""

    note: str
    """Remark of the editors; empty if none."""


class DifferenceLine(Record, frozen=True, kw_only=True):
    """One member of the answer that reads otherwise now."""

    pointer: str
    """JSON pointer into the answer; findings, hazards and conditions by name."""

    before: Any
    """What it said."""

    after: Any
    """What it says now."""

    because: tuple[Cause, ...]
    """The figures and rules that changed."""


class Electrode(Record, frozen=True, kw_only=True):
    """What an electrolyte sees: a metal or alloy class that shares potentials and kinetics."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the electrode."""

    name: str
    """Name for people."""

    family: str
    """Family of the metals that it stands for."""

    representative_material_id: str
    """Material whose composition it uses."""

    dissolution: str
    """Valences in which its elements dissolve."""

    iso9223_metal: str
    """Standard metal whose rate in air it follows; empty if none."""

    iso9223_factor: float | None
    """Multiplier on the rate of that metal."""

    pitting_factor_low: float | None
    """Least ratio of the deepest to the mean attack."""

    pitting_factor_high: float | None
    """Greatest ratio of the deepest to the mean attack."""

    decay_exponent_low: float | None
    """Least exponent m of the decay i(t) = i₁·t⁻ᵐ."""

    decay_exponent_high: float | None
    """Greatest exponent of the decay."""

    is_inert: bool
    """Whether it does not dissolve at all."""


class ElectrodePage(Record, frozen=True, kw_only=True):
    """One page of electrodes."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Electrode, ...]
    """Electrodes in the order of their identifiers."""


class Electrolyte(Record, frozen=True, kw_only=True):
    """A solution with known figures, named by measurements and environments."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the electrolyte."""

    name: str
    """Name for people."""

    electrolyte_class: terms.ElectrolyteClass
    """Family of the electrolyte."""

    conductivity_S_per_m: float | None
    """Conductivity."""

    pH: float | None
    """pH."""

    chloride_mg_per_L: float | None
    """Chloride content."""

    oxygen_mg_per_L: float | None
    """Dissolved oxygen."""

    temperature_C: float | None
    """Temperature to which the figures belong."""


class ElectrolytePage(Record, frozen=True, kw_only=True):
    """One page of electrolytes."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Electrolyte, ...]
    """Electrolytes in the order of their identifiers."""


class EndInNetwork(Record, frozen=True, kw_only=True):
    """What a network changes about one part of a joint."""

    effect: str
    """`attacked`, `protected` or `unchanged`."""

    severity: str
    """How badly it suffers."""

    against_couple: str
    """`worse`, `same`, `milder` or `unknown` against its joints."""


class EndsInNetwork(Record, frozen=True, kw_only=True):
    """What networks change about both parts of a joint."""

    first: EndInNetwork | None
    """The first part; null where it is in no network."""

    second: EndInNetwork | None
    """The second part; null where it is in no network."""


class EnvelopeAnswer(Record, frozen=True, kw_only=True):
    """Every finish and thickness that keeps a joint at or above a verdict: a rule to be checked off line."""

    release: ReleaseIdentity
    """Release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    policy: str
    """Policy whose bands turned figures into words."""

    kind: str
    """What this document is."""

    format: int
    """Version of the format."""

    policy_digest: str
    """SHA-256 of the policy."""

    accept: terms.Verdict
    """The verdict that is kept."""

    holds: str
    """What the rule takes for granted."""

    environment: RemedyPlace

    joint: EnvelopeJoint
    """The joint that it holds for."""

    members: tuple[EnvelopeMember, ...]
    """Everything that is accepted."""

    couples_judged: int
    """Couples that were judged to prove it."""

    digest: str
    """SHA-256 of the rule as canonical JSON, without digest, schema and warnings."""

    json_schema: dict[str, Any]
    """The same rule as a JSON Schema of a surface with its side."""

    warnings: tuple[AnswerWarning, ...]
    """What is doubtful in the question."""


class EnvelopeCoat(Record, frozen=True, kw_only=True):
    """One coat of a member with the range of its thickness."""

    finish_id: str
    """Identifier of the finish."""

    thickness_min_um: float | None
    """Least thickness; null where none is counted."""

    thickness_max_um: float | None
    """Most thickness; null for no limit."""


class EnvelopeJoint(Record, frozen=True, kw_only=True):
    """The joint that an envelope holds for."""

    first: ShownSurface
    """The first surface as it is."""

    second: ShownSurface
    """The second surface as it is."""

    first_area_cm2: float | None
    """Wetted area of the first surface; null for the default."""

    second_area_cm2: float | None
    """Wetted area of the second surface; null for the default."""

    geometry: str
    """Shape of the wetted joint line."""

    bore_mm: float | None
    """Inside diameter of the pipe, where one was stated."""

    functions: tuple[terms.Function, ...]
    """What the joint is for."""

    design_life_years: float
    """Life that it has to reach."""

    section_allowance_um: float
    """Loss that a section can stand."""

    compound: str | None
    """Compound in the joint."""

    joint_temperature_C: float | None
    """Temperature of the joint."""

    wear_cycles: float | None
    """Matings or strokes over the life."""

    is_isolated: bool
    """Whether no current can pass."""


class EnvelopeMember(Record, frozen=True, kw_only=True):
    """A stack of coats that is accepted on one side."""

    side: str
    """`first` or `second`."""

    material_id: str | None
    """Material beneath."""

    name: str
    """Name for people."""

    layers: tuple[EnvelopeCoat, ...]
    """Coats from the outside in; none for bare metal."""

    verdict: terms.Verdict
    """Worst verdict within the ranges."""

    conditions: tuple[Condition, ...]
    """What must be done for the verdict to hold."""


class Environment(Record, frozen=True, kw_only=True):
    """A named exposure; `*_low` and `*_high` bound the central figure."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the environment."""

    name: str
    """Name for people."""

    exposure: terms.Exposure

    electrolyte_class: terms.ElectrolyteClass
    """Family of its electrolyte."""

    screening_class: str
    """Which permissible difference applies."""

    temperature_C: float | None
    """Mean temperature of the year."""

    temperature_low_C: float | None
    """Lower bound of the mean temperature."""

    temperature_high_C: float | None
    """Upper bound of the mean temperature."""

    relative_humidity_pct: float | None
    """Mean relative humidity."""

    wetness_h_per_year: float | None
    """Hours in which surfaces are wet."""

    so2_mg_per_m2_d: float | None
    """Deposition of sulfur dioxide."""

    chloride_mg_per_m2_d: float | None
    """Deposition of chloride."""

    salt_load_g_per_m2: float | None
    """Salt that stays on the surface."""

    is_sheltered: bool
    """Whether rain does not wash the surface."""

    conductivity_S_per_m: float | None
    """Conductivity of the electrolyte."""

    conductivity_low_S_per_m: float | None
    """Lower bound of the conductivity."""

    conductivity_high_S_per_m: float | None
    """Upper bound of the conductivity."""

    pH: float | None
    """pH of the electrolyte."""

    pH_low: float | None
    """Lower bound of the pH."""

    pH_high: float | None
    """Upper bound of the pH."""

    oxygen_mg_per_L: float | None
    """Dissolved oxygen."""

    film_thickness_um: float | None
    """Thickness of the electrolyte film."""

    film_thickness_low_um: float | None
    """Lower bound of the film thickness."""

    film_thickness_high_um: float | None
    """Upper bound of the film thickness."""

    hours_rain_per_year: float | None
    """Hours under a film of rain."""

    hours_deliquesced_per_year: float | None
    """Hours under a film of deliquesced salt."""

    hours_drying_per_year: float | None
    """Hours in which the film dries."""

    flow_m_per_s: float | None
    """Speed of the water past the surface."""

    iso9223_category: str
    """Corrosivity category of ISO 9223; empty if it does not apply."""

    iso11844_category: str
    """Indoor category of ISO 11844; empty if it does not apply."""

    isa7104_level: str
    """Severity level of ISA 71.04; empty if it does not apply."""

    tags: tuple[str, ...]
    """Facts that rules ask for."""


class EnvironmentPage(Record, frozen=True, kw_only=True):
    """One page of environments."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Environment, ...]
    """Environments in the order of their identifiers."""


class Evidence(Record, frozen=True, kw_only=True):
    """One record that the answer rests on."""

    table: str
    """Table of the record."""

    id: str
    """Identifier of the record."""

    subject: str
    """What it is about."""

    quantity: str
    """What it tells."""

    value: float | None
    """The figure."""

    low: float | None
    """Lower end of a range."""

    high: float | None
    """Upper end of a range."""

    unit: str
    """Unit of the figures."""

    reference_electrode: str
    """Reference of a potential."""

    conditions: str
    """Conditions of the figure."""

    grade: str | None
    """Grade of the figure, A to E."""

    obtained: str
    """How the figure was obtained."""

    source_id: str
    """Source, a key of `/v1/sources`."""

    locator: str
    """Where in the source."""

    citation: str
    """The source as a line."""

    csl: dict[str, Any]
    """The source as CSL-JSON."""

    used_by: tuple[str, ...]
    """Witnesses that used it."""

    not_used: tuple[UnusedValue, ...]
    """Figures that were set aside for it, and why."""


class ExcludedGroup(Record, frozen=True, kw_only=True):
    """What was left out for one reason."""

    reason: str
    """Stable word for the reason."""

    constraint: str
    """The constraint behind it."""

    unit: str
    """What is counted: `surface` or `couple`."""

    count: int
    """How many, each under its first reason."""

    example: str
    """One of them."""


class FieldChange(Record, frozen=True, kw_only=True):
    """One field of one record that changed, or a whole record that came or went."""

    table: str
    """Table of the record."""

    key: tuple[str, ...]
    """Key of the record."""

    field: str
    """Field; empty where the whole record came or went."""

    before: Any
    """Value in the earlier release."""

    after: Any
    """Value in this release."""

    kind: str
    """`added`, `removed`, `corrected` or `regraded`."""


class FilesReading(Record, frozen=True, kw_only=True):
    """How files were read."""

    tables: dict[str, tuple[HeadingReading, ...]]
    """Headings by table."""

    assumptions: tuple[str, ...]
    """What was assumed."""


class Finding(Record, frozen=True, kw_only=True):
    """What one witness reports."""

    witness: str
    """Which method."""

    applies: bool
    """Whether it has something to say here."""

    abstains: str | None
    """Why it says nothing."""

    severity: terms.Severity | None
    """How badly the couple suffers."""

    anode: str | None
    """Which side it sees eaten."""

    is_polarity_in_doubt: bool
    """Whether the other side may be eaten."""

    confidence: str
    """`high`, `medium` or `low`."""

    grade: str | None
    """Weakest grade of its figures, A to E."""

    statement: str
    """What it says."""

    figures: dict[str, Any]
    """Its figures, each with its unit in its name."""

    evidence: tuple[str, ...]
    """Records that it used, as table/identifier."""


class Finish(Record, frozen=True, kw_only=True):
    """A plating, conversion coating, passivation, anodic film or organic coat."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the finish."""

    name: str
    """Name for people."""

    process: str
    """How it is made."""

    role: terms.FinishRole
    """What it does to the surface that the electrolyte sees."""

    outer_electrode_id: str
    """Electrode that the electrolyte sees; empty where the substrate shows through or the film insulates."""

    is_conductive: bool
    """Whether current passes through it."""

    is_looked_through: bool
    """Whether published selection rules judge the metal beneath it."""

    thickness_min_um: float | None
    """Thinnest usual coat."""

    thickness_typical_um: float | None
    """Coat that is assumed where a drawing is silent."""

    thickness_max_um: float | None
    """Thickest usual coat."""

    pore_free_above_um: float | None
    """Thickness from which a noble coat counts as closed."""

    underplate_id: str
    """Finish that belongs beneath; empty if none."""

    contact_grade: bool
    """Whether it serves as a separable contact."""

    solderable: str
    """`yes`, `limited` or `no`."""

    max_temperature_C: float | None
    """Temperature that it stands in service."""

    wear_class: str
    """Resistance to wear: `low`, `medium` or `high`."""

    whisker_risk: str
    """Risk of whiskers: `none`, `low`, `medium` or `high`."""

    embrittlement_risk: str
    """Risk that the process embrittles strong steel: `none`, `low`, `medium` or `high`."""

    rohs: str
    """Standing under the RoHS directive."""

    reach: str
    """Standing under REACH; empty if nothing is known."""

    substances: tuple[str, ...]
    """Regulated substances that it holds or needs."""

    specifications: tuple[str, ...]
    """Specifications that call it up."""

    cost_tier: int | None
    """Rough cost, 0 for none to 5 for precious."""

    substrates: tuple[FinishSubstrate, ...]
    """What it can be put on."""


class FinishPage(Record, frozen=True, kw_only=True):
    """One page of finishes."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Finish, ...]
    """Finishes in the order of their identifiers."""


class FinishSubstrate(Record, frozen=True, kw_only=True):
    """Whether a finish can be put on a family of substrates."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    substrate_family: str
    """Family of materials."""

    suitability: str
    """`good`, `conditional` or `no`."""

    polarity: str
    """The finish against the substrate: `anodic`, `cathodic`, `neutral` or `insulating`."""

    underplate_id: str
    """Finish that has to lie beneath; empty if none."""

    failure_mode: str
    """How the combination fails; empty if nothing particular."""


class FunctionOutcome(Record, frozen=True, kw_only=True):
    """What becomes of a declared function."""

    function: terms.Function
    """Which function."""

    effect: str
    """`kept`, `ended`, `moved`, `restored` or `at risk`."""

    statement: str
    """In words."""


class Hazard(Record, frozen=True, kw_only=True):
    """A rule that spoke."""

    id: str
    """Identifier of the rule."""

    kind: str
    """Kind of rule."""

    name: str
    """Name for people."""

    severity: str | None
    """How bad it is."""

    is_certain: bool
    """Whether all facts it asks for are known."""

    unknown_facts: tuple[str, ...]
    """Facts that would decide whether it applies."""

    affects: tuple[str, ...]
    """Functions of a joint that it concerns."""

    statement: str
    """What it says."""

    advice: str
    """What to do about it."""

    caution: str | None
    """What can hurt people or hardware."""

    citation: str
    """Where it comes from."""


class HeadingReading(Record, frozen=True, kw_only=True):
    """What became of one heading of a file."""

    heading: str
    """The heading."""

    column: str | None
    """Column that it was read as."""

    unit: str | None
    """Unit of its figures."""

    is_guessed: bool
    """Whether it was recognised by likeness."""

    reason: str | None
    """Why it was passed over."""


class Health(Record, frozen=True, kw_only=True):
    """The process is alive."""

    status: str
    """Always `alive`."""


class HelpedFamily(Record, frozen=True, kw_only=True):
    """Metals that it helps."""

    family: str
    """Family."""

    materials: tuple[str, ...]
    """Materials of that family."""


class ItemFault(Record, frozen=True, kw_only=True):
    """One thing in a couple that cannot be used."""

    location: str
    """Where it was sent: always `body` or `request`."""

    pointer: str
    """JSON pointer into the couple."""

    code: str
    """Stable word for the fault."""

    detail: str
    """What is wrong."""

    suggestions: tuple[str, ...] = ()
    """Near names."""


class ItemProblem(Record, frozen=True, kw_only=True):
    """Why a couple was not judged, with the members of a problem document."""

    type: str
    """Address of the type's page."""

    title: str
    """The type in words."""

    status: int
    """Status that a single question would have had."""

    detail: str
    """What is wrong."""

    errors: tuple[ItemFault, ...] = ()
    """Every fault of this couple."""


class JobDocument(Record, frozen=True, kw_only=True):
    """One piece of long work."""

    id: str
    """Identifier."""

    address: str
    """Where to ask for it again."""

    kind: str
    """Kind of work."""

    state: terms.JobState
    """Where it stands."""

    release: str | None
    """Label of the release that all of it is judged by."""

    items_total: int
    """Couples or joints in all, as far as known beforehand."""

    items_done: int
    """How many of them are done."""

    progress_pct: float
    """The same as a share."""

    items_per_minute: float | None
    """Mean pace since it was started."""

    eta_s: float | None
    """Time that is left at this pace."""

    is_cancel_requested: bool
    """Whether its end was asked for."""

    created_at: dt.datetime
    """When it was asked for."""

    started_at: dt.datetime | None
    """When a worker took it first."""

    finished_at: dt.datetime | None
    """When it ended."""

    error: JobFailure | None
    """Why it has failed."""

    summary: dict[str, Any] | None
    """What came out in brief, if the kind has such."""

    results: str | None
    """Where its results are; null until they can be read."""


class JobFailure(Record, frozen=True, kw_only=True):
    """Why a job has failed."""

    code: str
    """Stable word for the reason."""

    detail: str
    """What is wrong."""

    pointer: str | None = None
    """JSON pointer into the body, where something in it is to blame."""


class JobPage(Record, frozen=True, kw_only=True):
    """Jobs, the newest first."""

    items: tuple[JobDocument, ...]
    """The jobs of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class JointCase(Record, frozen=True, kw_only=True):
    """One question that was judged: a place, and an end of an unknown area."""

    case: str
    """`as stated`, `first side small` or `first side large`."""

    environment: str
    """Where."""

    areas_cm2: dict[str, float]
    """Wetted areas by side."""

    verdict: terms.Verdict
    """Verdict of the case."""

    severity: str
    """Severity of the case."""

    anode: str
    """Which side is eaten."""

    answer_sha256: str
    """Hash of the whole answer; `answers` leads to its address."""


class JointComparison(Record, frozen=True, kw_only=True):
    """One joint before and after."""

    joint: str
    """Identifier of the joint."""

    first: str
    """One part."""

    second: str
    """The other part."""

    is_assumed: bool
    """Whether a rule assumed the contact."""

    change: str
    """`better`, `same`, `worse` or `undetermined`."""

    reasons: tuple[SubstitutionReason, ...]
    """Why."""

    before: JointState
    """As it is."""

    after: JointState
    """With the substitute."""


class JointStanding(Record, frozen=True, kw_only=True):
    """Where a joint stands; the verdict is what it was."""

    joint: str
    """Identifier of the joint."""

    verdict: terms.Verdict
    """Its verdict."""

    standing: str
    """`clear`, `waived` or `open`."""

    violations: tuple[ViolationRecord, ...]
    """Rules that it breaks."""


class JointState(Record, frozen=True, kw_only=True):
    """A joint before or after."""

    verdict: terms.Verdict
    """Verdict."""

    severity: str
    """Severity, or `unknown`."""

    anode: str | None
    """Which side is eaten."""

    why: str
    """One line for a buyer."""

    conditions: tuple[str, ...]
    """Codes of what must be done."""

    question: str | None
    """The question whose reply would decide."""

    answers_sha256: tuple[str, ...]
    """Hashes of the whole answers."""


class JointSummary(Record, frozen=True, kw_only=True):
    """The joint that was judged, with the defaults that were filled in."""

    first_area_cm2: float
    """Wetted area of the first surface."""

    second_area_cm2: float
    """Wetted area of the second surface."""

    geometry: str
    """Shape of the wetted joint line."""

    bore_mm: float | None
    """Inside diameter of the pipe, where the joint is one."""

    functions: tuple[str, ...]
    """What the joint is for."""

    design_life_years: float
    """Life that it had to reach."""

    compound: str | None
    """Compound in the joint."""

    is_isolated: bool
    """Whether no current can pass."""

    policy: str
    """Policy whose bands turned figures into words."""

    defaults_used: tuple[str, ...]
    """What the caller left to defaults."""


class JudgedJoint(Record, frozen=True, kw_only=True):
    """A joint that was judged, in short."""

    first: ShownSurface
    """The first surface."""

    second: ShownSurface
    """The second surface."""

    verdict: terms.Verdict
    """May they touch here, for so long?"""

    severity: str
    """`none`, `slight`, `moderate`, `severe` or `unknown`."""

    confidence: str
    """`high`, `medium` or `low`."""

    line: str
    """One line for a buyer."""

    deciding_witness: str | None
    """Witness that decided."""

    why: str
    """Statement of the deciding witness."""

    anode: ShownAnode

    loss_over_allowance: LossRatio | None
    """Loss over allowance; null where nothing is computed."""

    hazards: tuple[ShownHazard, ...]
    """Damage besides the computed loss."""


class Kinetics(Record, frozen=True, kw_only=True):
    """Parameters of one electrode state in one class of electrolyte; potentials against SHE at 25 °C."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the parameter set."""

    electrode_id: str
    """Electrode that it describes."""

    state: terms.ElectrodeState
    """State of the surface."""

    electrolyte_class: terms.ElectrolyteClass
    """Electrolytes for which it holds."""

    corrosion_potential_V: float
    """Corrosion potential."""

    corrosion_potential_low_V: float
    """Lower bound of the corrosion potential."""

    corrosion_potential_high_V: float
    """Upper bound of the corrosion potential."""

    corrosion_current_A_per_m2: float
    """Corrosion current density."""

    corrosion_current_low_A_per_m2: float
    """Lower bound of the corrosion current."""

    corrosion_current_high_A_per_m2: float
    """Upper bound of the corrosion current."""

    anodic_slope_V: float | None
    """Anodic slope for each decade of current."""

    cathodic_slope_V: float
    """Cathodic slope for each decade of current."""

    oxygen_efficiency: float
    """Share of the oxygen supply that the surface can use."""

    oxygen_efficiency_low: float
    """Lower bound of that share."""

    oxygen_efficiency_high: float
    """Upper bound of that share."""

    passive_current_A_per_m2: float | None
    """Current density in the passive state."""

    breakdown_potential_V: float | None
    """Pitting or crevice potential."""

    breakdown_potential_low_V: float | None
    """Lower bound of the breakdown potential."""

    breakdown_potential_high_V: float | None
    """Upper bound of the breakdown potential."""

    water_reduction_A_per_m2: float | None
    """Water reduction at -1.0 V against SHE."""

    fitness: terms.Fitness
    """How well the conditions of the figures match their use."""

    plausibility: terms.Plausibility
    """Outcome of the plausibility gate."""

    quarantine_reason: str
    """Why it is shown and never used; empty if it is used."""


class KineticsPage(Record, frozen=True, kw_only=True):
    """One page of kinetic parameters."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Kinetics, ...]
    """Parameter sets in the order of their identifiers."""


class LayerReading(Record, frozen=True, kw_only=True):
    """One coat of a finish stack as it was read."""

    finish_id: str
    """Identifier of the finish."""

    thickness_um: float | None
    """Thickness that the text gives."""

    thickness_max_um: float | None
    """Upper end of a called-up range."""


class LeftOut(Record, frozen=True, kw_only=True):
    """A part that could not be solved."""

    part: str
    """The part."""

    reason: str
    """Why."""


class LossRange(Record, frozen=True, kw_only=True):
    """A loss with its 95 % range."""

    median: float
    """Median."""

    low: float
    """Lower end."""

    high: float
    """Upper end."""


class LossRatio(Record, frozen=True, kw_only=True):
    """Loss over the design life as a share of the allowance."""

    median: float | None
    """Median of the sample."""

    high: float | None
    """The 95 % figure."""


class Material(Record, frozen=True, kw_only=True):
    """A base metal, alloy or conductive non-metal in one temper."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the material."""

    name: str
    """Name for people."""

    family: str
    """Family, as finishes name their substrates."""

    electrode_id: str
    """Electrode that an electrolyte sees, a key of `/v1/electrodes`."""

    composition: str
    """Nominal composition in per cent by mass, elements separated by semicolons."""

    temper: str
    """Temper or condition; empty if none applies."""

    strength_MPa: float | None
    """Tensile strength that embrittlement rules use."""

    is_conductive: bool
    """Whether it conducts electrons."""

    designations: tuple[Designation, ...]
    """Names under which drawings call it."""


class MaterialPage(Record, frozen=True, kw_only=True):
    """One page of materials."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Material, ...]
    """Materials in the order of their identifiers."""


class Measurement(Record, frozen=True, kw_only=True):
    """One figure with its conditions and source."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the measurement."""

    subject_kind: str
    """`material`, `electrode`, `finish`, `compound` or `electrolyte`."""

    subject_id: str
    """Identifier of what was measured."""

    quantity: str
    """What was measured."""

    state: str
    """State of the surface; empty if none applies."""

    value: float | None
    """The figure."""

    low: float | None
    """Lower end of a published range."""

    high: float | None
    """Upper end of a published range."""

    unit: str
    """Unit of the figures."""

    reference_electrode: str
    """Reference of a potential; empty for other quantities."""

    scale_id: str
    """Published series that the figure belongs to; empty if none."""

    electrolyte_id: str
    """Solution in which it was measured; empty if unknown."""

    temperature_C: float | None
    """Temperature of the measurement."""

    conditions: str
    """Other conditions, in words."""

    fitness: terms.Fitness
    """How well the conditions match the use of the figure."""

    plausibility: terms.Plausibility
    """Outcome of the plausibility gate."""

    quarantine_reason: str
    """Why it is shown and never used; empty if it is used."""


class MeasurementPage(Record, frozen=True, kw_only=True):
    """One page of measurements."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Measurement, ...]
    """Measurements in the order of their identifiers."""


class Mitigation(Record, frozen=True, kw_only=True):
    """An option that changes a joint."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the mitigation."""

    name: str
    """Name for people."""

    rank: int
    """Place in the usual order of preference, 1 first."""

    transform: str
    """Change that is applied to the joint."""

    parameters: Any
    """Figures of the change."""

    applies_when: str
    """When it can be used."""

    ends_functions: tuple[str, ...]
    """Functions that it takes away."""

    needs_opt_in: tuple[str, ...]
    """Regulated substances that the caller has to allow."""

    life_years_low: float | None
    """Shortest usual life."""

    life_years_high: float | None
    """Longest usual life."""

    inspection: str
    """What has to be looked at, and when."""

    done_badly: str
    """What goes wrong when it is done badly."""

    directions: str
    """How it is done, in general."""

    caution: str
    """What can hurt people or hardware; empty if nothing particular."""

    has_sourced_efficacy: bool
    """Whether a source shows that it works."""


class MitigationPage(Record, frozen=True, kw_only=True):
    """One page of mitigations."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Mitigation, ...]
    """Mitigations in the order of their identifiers."""


class MitigationRow(Record, frozen=True, kw_only=True):
    """Measures that make the joint acceptable, alone or together."""

    rank: int
    """Place in the ranking, from 1."""

    measures: tuple[ShownMeasure, ...]
    """One to three measures."""

    verdict: terms.Verdict
    """Verdict as told."""

    judged_verdict: terms.Verdict
    """Verdict of the changed joint by itself."""

    capped_because: str | None
    """Why the verdict is told no better."""

    joints: tuple[JudgedJoint, ...]
    """The joints that exist then; the worst decides."""

    environment_changes: dict[str, Any]
    """Figures of the place before and after."""

    better: tuple[str, ...]
    """What gets better."""

    worse: tuple[str, ...]
    """What gets worse."""

    chain: tuple[str, ...]
    """Each step for a corrosion engineer."""

    conditions: tuple[Condition, ...]
    """What must be done for the verdict to hold."""

    functions: tuple[FunctionOutcome, ...]
    """What becomes of each declared function."""

    life: ShownLife | None
    """How long the joint lasts; null where that is not known."""

    renewal: Renewal
    """When it has to be done again."""

    inspection: tuple[str, ...]
    """What is inspected, and where."""

    residual_risk: tuple[ResidualRisk, ...]
    """What is left of the risk, measure by measure."""

    compounds: tuple[UsedCompound, ...]
    """Compounds that are used."""

    attacked_here: tuple[AttackedMetal, ...]
    """Metals of this joint that a compound attacks."""

    cautions: tuple[str, ...]
    """What can hurt people or hardware."""

    directions: tuple[WorkSteps, ...]
    """How it is done; makers' directions come first."""


class MitigationsAnswer(Record, frozen=True, kw_only=True):
    """What can be done where a couple has to stay, ranked."""

    release: ReleaseIdentity
    """Release that it was judged by."""

    engine: str
    """Version of the engine that judged."""

    policy: str
    """Policy whose bands turned figures into words."""

    summary: RemedyWords
    """The answer in words."""

    environment: RemedyPlace

    before: JudgedJoint
    """The joint as it is."""

    warnings: tuple[AnswerWarning, ...]
    """What is doubtful in the question."""

    mitigations: tuple[MitigationRow, ...]
    """Ways out, best first."""

    insufficient: tuple[RuledOut, ...]
    """Measures that may be taken and are no way out."""

    infeasible: tuple[RuledOut, ...]
    """Measures that may not be taken here."""

    needs_consent: tuple[NeedsConsent, ...]
    """Measures that are hidden until opted in to."""


class NamedMeasure(Record, frozen=True, kw_only=True):
    """A measure by name."""

    id: str
    """Identifier."""

    name: str
    """Name for people."""


class NeedsConsent(Record, frozen=True, kw_only=True):
    """Measures that are not told because of what they hold."""

    substances: tuple[str, ...]
    """What would have to be opted in to."""

    count: int
    """How many measures."""


class NetworkPlace(Record, frozen=True, kw_only=True):
    """The electrolyte of a network."""

    id: str
    """Identifier of the environment."""

    name: str
    """Name for people."""


class NewWebhook(Record, frozen=True, kw_only=True):
    """A webhook just made, with its secret, which is shown this once."""

    id: str
    """Identifier."""

    url: str
    """Where messages go."""

    events: tuple[str, ...]
    """Kinds of changes that it is told of."""

    after: int
    """Serial up to which messages were made."""

    created_at: dt.datetime
    """When it was made."""

    disabled_at: dt.datetime | None
    """Since when nothing is sent, if so; replaying starts it again."""

    failures: int
    """Attempts that failed since the last success."""

    secret: str
    """Secret that signs the messages."""


class NotJudged(Record, frozen=True, kw_only=True):
    """Why a question could not be asked."""

    pointer: str
    """Which part of the joint."""

    detail: str
    """What is wrong."""

    suggestions: tuple[str, ...]
    """Near names."""


class OverlayDocument(Record, frozen=True, kw_only=True):
    """The overlay of the caller's tenant."""

    overlay_hash: str
    """Part of the identity of every answer that is given with it; empty where there is none."""

    release: str
    """Release on which it was checked to fit."""

    rows: tuple[OverlayRow, ...]
    """Its rows by table and key."""


class OverlayRow(Record, frozen=True, kw_only=True):
    """A row of the overlay."""

    table: str
    """Its table."""

    key: tuple[str, ...]
    """Its key."""

    record: dict[str, Any]
    """Its fields."""


class PartInNetwork(Record, frozen=True, kw_only=True):
    """What a network does to one part, under the states that are worst for it."""

    part: str
    """The part."""

    effect: str
    """`attacked`, `protected` or `unchanged`."""

    severity: str
    """How badly it suffers."""

    solution: str
    """Set of states that is worst for it."""

    potential_mV_SHE: Bounds
    """Potential of the joined metals, in mV against the standard hydrogen electrode."""

    current_mA: Bounds
    """Net current that leaves it, in mA; negative protects."""

    rate_um_per_year: Bounds
    """What the network adds to its self-corrosion."""

    loss_um: Bounds
    """The same over the design life."""

    dissolution: Bounds
    """How fast it dissolves against by itself; below 1 it is protected."""

    allowance_um: float
    """Loss that it can stand."""

    allowance_basis: str
    """Where that comes from."""

    partners: tuple[Partner, ...]
    """Who feeds the opposing current, largest first."""

    couple_severity: str | None
    """Worst that its joints alone say."""

    against_couples: str
    """`worse`, `same`, `milder` or `unknown` against its joints."""

    is_sacrificial: bool
    """Whether it is there to be spent."""


class PartStanding(Record, frozen=True, kw_only=True):
    """Where a part stands."""

    part: str
    """The part."""

    has_preferred_finish: bool | None
    """Whether its finish is a preferred one; null if bare."""

    standing: str
    """`clear`, `waived` or `open`."""

    violations: tuple[ViolationRecord, ...]
    """Rules that it breaks."""


class Partner(Record, frozen=True, kw_only=True):
    """A part that feeds the opposing current."""

    part: str
    """The part."""

    share: float
    """Its share of all such current, 0 to 1."""


class PermissibleDifference(Record, frozen=True, kw_only=True):
    """A published or customary permissible difference on a scale."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the limit."""

    scale_id: str
    """Scale on which the difference is taken."""

    screening_class: str
    """Severity of service to which it applies."""

    limit_V: float
    """Largest permissible difference."""

    rule: str
    """The rule in words."""


class PermissibleDifferencePage(Record, frozen=True, kw_only=True):
    """One page of permissible differences."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[PermissibleDifference, ...]
    """Limits in the order of their identifiers."""


class PlaceSummary(Record, frozen=True, kw_only=True):
    """The environment that was judged in."""

    id: str
    """Identifier; `custom` if the caller described it."""

    name: str
    """Name for people."""

    exposure: str
    """How the electrolyte meets the joint."""

    electrolyte_class: str
    """Family of its electrolyte."""

    screening_class: str
    """Which permissible difference applied."""

    temperature_C: float | None
    """Mean temperature."""

    conductivity_S_per_m: float | None
    """Conductivity of the electrolyte."""

    film_thickness_um: float | None
    """Thickness of the film."""

    tags: tuple[str, ...]
    """Facts that rules asked for."""


class PolicyIdentity(Record, frozen=True, kw_only=True):
    """The bands by which figures became words."""

    name: str
    """Name of the bands."""

    sha256: str
    """Hash of their content."""


class PolicyOutcome(Record, frozen=True, kw_only=True):
    """A policy as it was stored, and the job that judges what names it again."""

    policy: StoredPolicy
    """The policy."""

    job: JobDocument | None = None
    """The job that judges stored assemblies that name it; null if none does, or nothing is new."""


class PolicyPage(Record, frozen=True, kw_only=True):
    """Stored policies by name, each in the version that is in force."""

    items: tuple[StoredPolicy, ...]
    """The policies of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class PolicyStanding(Record, frozen=True, kw_only=True):
    """A report beside the policy of a house on a day."""

    report_sha256: str
    """Hash of the report."""

    policy: PolicyVersion

    date: str
    """The day."""

    totals: dict[str, int]
    """Joints and parts by standing."""

    joints: tuple[JointStanding, ...]
    """Joints in the order of the report."""

    parts: tuple[PartStanding, ...]
    """Parts with a preferred finish or a broken rule."""


class PolicyVersion(Record, frozen=True, kw_only=True):
    """The policy that was applied."""

    name: str
    """Name of the policy."""

    version: str
    """The house's own version."""

    sha256: str
    """Hash of its content."""


class Problem(Record, frozen=True, kw_only=True):
    """A problem document as in RFC 9457."""

    type: str
    """Address of the page on this type of problem."""

    title: str
    """Name of the type."""

    status: int
    """Status code."""

    detail: str
    """What is wrong this time."""

    instance: str
    """Identifier of the request."""

    errors: tuple[ProblemFault, ...] = ()
    """The parts of the request that are to blame."""

    violated_policies: tuple[str, ...] = msgspec.field(name="violated-policies", default=())
    """Names of the allowances that are used up, as the field `RateLimit-Policy` has them."""


class ProblemFault(Record, frozen=True, kw_only=True):
    """One part of a request that cannot be used."""

    location: str
    """`body`, `query`, `path`, `header` or `request` (either way of asking)."""

    pointer: str
    """JSON pointer (RFC 6901) to the field; parameters are members of one object."""

    code: str
    """Stable word for the kind of fault."""

    detail: str
    """What the field may be."""

    suggestions: tuple[str, ...] = ()
    """Near values that would be accepted."""


class Proposal(Record, frozen=True, kw_only=True):
    """A proposed change to one record, and how far it has come."""

    id: str
    """Identifier."""

    address: str
    """Where it is."""

    kind: str
    """`add`, `change` or `remove`."""

    table: str
    """Table of the record."""

    key: tuple[str, ...]
    """Key of the record."""

    reason: str
    """Why it was proposed."""

    state: str
    """`open`, `approved`, `rejected`, `withdrawn` or `published`."""

    proposed_by: str
    """API key that made it."""

    created_at: dt.datetime
    """When it was made."""

    closed_at: dt.datetime | None
    """When it came to its end."""

    closing_reason: str
    """Why it was rejected or taken back."""

    release: str | None
    """Release that brought it out."""

    differences: tuple[ProposedField, ...]
    """Every field that would change."""


class ProposalComment(Record, frozen=True, kw_only=True):
    """A remark."""

    id: str
    """Identifier."""

    author: str
    """API key of its author."""

    text: str
    """The remark."""

    created_at: dt.datetime
    """When it was made."""


class ProposalDetail(Record, frozen=True, kw_only=True):
    """A proposal with everything that was said of it."""

    id: str
    """Identifier."""

    address: str
    """Where it is."""

    kind: str
    """`add`, `change` or `remove`."""

    table: str
    """Table of the record."""

    key: tuple[str, ...]
    """Key of the record."""

    reason: str
    """Why it was proposed."""

    state: str
    """`open`, `approved`, `rejected`, `withdrawn` or `published`."""

    proposed_by: str
    """API key that made it."""

    created_at: dt.datetime
    """When it was made."""

    closed_at: dt.datetime | None
    """When it came to its end."""

    closing_reason: str
    """Why it was rejected or taken back."""

    release: str | None
    """Release that brought it out."""

    differences: tuple[ProposedField, ...]
    """Every field that would change."""

    comments: tuple[ProposalComment, ...]
    """Remarks, the oldest first."""

    reviews: tuple[ProposalReview, ...]
    """Decisions, the oldest first."""


class ProposalLeftOut(Record, frozen=True, kw_only=True):
    """An approved proposal that could not come out; it stays approved."""

    id: str
    """Identifier of the proposal."""

    reason: str
    """Why not."""


class ProposalPage(Record, frozen=True, kw_only=True):
    """Proposals, the oldest first."""

    items: tuple[Proposal, ...]
    """The proposals of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class ProposalReview(Record, frozen=True, kw_only=True):
    """A decision."""

    id: str
    """Identifier."""

    reviewer: str
    """API key of the reviewer."""

    decision: str
    """`approve` or `reject`."""

    text: str
    """Why."""

    created_at: dt.datetime
    """When it was made."""


class ProposedField(Record, frozen=True, kw_only=True):
    """One field that a proposal changes."""

    field: str
    """The field."""

    before: Any
    """What its author saw; null in a new record."""

    after: Any
    """What is proposed; null where the record goes."""


class Publication(Record, frozen=True, kw_only=True):
    """A release and the proposals that it brought out."""

    release: Release
    """The release; the current one again if nothing was to be published."""

    is_new: bool
    """Whether anything was published."""

    published: tuple[Proposal, ...]
    """Proposals that came out with it."""

    left_out: tuple[ProposalLeftOut, ...]
    """Approved proposals that did not fit."""


class PublicationPreview(Record, frozen=True, kw_only=True):
    """What publishing would bring out now, and what that can touch. Nothing is changed by asking."""

    published: tuple[Proposal, ...]
    """Approved proposals that would come out."""

    left_out: tuple[ProposalLeftOut, ...]
    """Approved proposals that do not fit."""

    changes: tuple[FieldChange, ...]
    """What would differ from the current release."""

    assemblies: int
    """Stored assemblies, of all tenants, that would be judged again to know whether they change."""

    joints: int
    """Joints in them."""

    overlay_misfits: int
    """Overlays that would name what is gone; their tenants are told by `overlay.misfit`."""


class Readiness(Record, frozen=True, kw_only=True):
    """Whether the process can answer, and what is missing if not."""

    status: str
    """`ready`, `degraded` or `not ready`."""

    checks: tuple[ReadinessCheck, ...]
    """Everything that was looked at."""


class ReadinessCheck(Record, frozen=True, kw_only=True):
    """One thing that has to be in order before requests are answered."""

    name: str
    """What is looked at: `release` or `database`."""

    is_ready: bool
    """Whether it is in order."""

    detail: str
    """What was found."""


class ReadingOutcome(Record, frozen=True, kw_only=True):
    """The verdict under one pair of readings."""

    first: str
    """First surface as read."""

    second: str
    """Second surface as read."""

    verdict: terms.Verdict
    """Verdict under these readings."""


class Release(Record, frozen=True, kw_only=True):
    """An immutable published state of the knowledge base."""

    label: str
    """Label of the release, usable as `as_of`."""

    content_hash: str
    """SHA-256 of the release's export, in hexadecimal."""

    published_at: dt.datetime
    """When it was published."""

    published_by: str
    """Key or command that published it."""

    note: str
    """What it is about."""

    engine: str
    """Engine that was installed then."""

    size_bytes: int
    """Size of its export."""


class ReleaseDifference(Record, frozen=True, kw_only=True):
    """What changed from one release to another."""

    before: str
    """Label of the earlier release."""

    after: str
    """Label of the later release."""

    count: int
    """Number of changes."""

    changes: tuple[FieldChange, ...]
    """Changes by table, key and field."""


class ReleaseIdentity(Record, frozen=True, kw_only=True):
    """The release that something was read from."""

    label: str
    """Label of the release, usable as `as_of`."""

    content_hash: str
    """SHA-256 of the release's export, in hexadecimal."""


class ReleasePage(Record, frozen=True, kw_only=True):
    """One page of releases, the newest first."""

    items: tuple[Release, ...]
    """Releases, the newest first."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""


class RemedyPlace(Record, frozen=True, kw_only=True):
    """Where the joint lives."""

    id: str
    """Identifier; `custom` if the caller described it."""

    name: str
    """Name for people."""


class RemedyWords(Record, frozen=True, kw_only=True):
    """The answer in words, for two readers."""

    line: str
    """One line for a buyer."""

    paragraph: str
    """A paragraph for a designer."""


class Renewal(Record, frozen=True, kw_only=True):
    """When a measure has to be done again."""

    low_years: float | None
    """The unfavourable figure."""

    high_years: float | None
    """The favourable figure."""

    compounds: tuple[str, ...]
    """When its compounds are renewed."""


class ReportAssumptions(Record, frozen=True, kw_only=True):
    """What was assumed about the whole."""

    contacts: tuple[str, ...]
    """Rules by which contacts were assumed."""

    contacts_not_assumed_under: tuple[str, ...]
    """Parents with too many pairs."""

    parts_without_surface: tuple[str, ...]
    """Parts that name no surface."""

    insulators: tuple[str, ...]
    """Parts that do not conduct."""

    never_together: tuple[str, ...]
    """Joints whose parts are never in one unit."""


class ReportFault(Record, frozen=True, kw_only=True):
    """Something that could not be used and was passed over."""

    table: str
    """File or table."""

    line: int | None
    """Row, counted from 1."""

    column: str
    """Heading of the column."""

    reason: str
    """What is wrong."""

    suggestions: tuple[str, ...]
    """Near names."""


class ReportTotals(Record, frozen=True, kw_only=True):
    """How many came out how."""

    joints: int
    """Joints that were judged."""

    pairs: int
    """Pairs of parts that they stand for."""

    assumed_joints: int
    """Joints that were assumed."""

    by_verdict: dict[str, int]
    """Joints by verdict."""

    by_severity: dict[str, int]
    """Joints by severity."""

    parts: int
    """Parts."""

    parts_with_surface: int
    """Parts that name a surface."""


class ReportedEnd(Record, frozen=True, kw_only=True):
    """One part of a joint."""

    part: str
    """What joints call it."""

    number: str
    """Part number."""

    revision: str
    """Revision."""

    effectivity: str
    """Units or dates for which it is built in."""

    description: str
    """Name."""


class ReportedHazard(Record, frozen=True, kw_only=True):
    """A rule that spoke."""

    id: str
    """Identifier of the rule."""

    name: str
    """Name for people."""

    severity: str | None
    """How bad it is."""

    statement: str
    """What it says."""

    is_certain: bool
    """Whether all facts it asks for are known."""


class ReportedJoint(Record, frozen=True, kw_only=True):
    """One joint; it is as bad as the worst of its cases."""

    joint: str
    """Identifier."""

    name: str
    """What the caller calls it."""

    first: ReportedEnd
    """One part."""

    second: ReportedEnd
    """The other part."""

    is_assumed: bool
    """Whether a rule assumed the contact."""

    basis: str
    """`stated`, or the rule that assumed it."""

    stands_for_pairs: int
    """Pairs of parts alike that it stands for."""

    alike: tuple[tuple[str, str], ...]
    """Some of the others."""

    functions: tuple[str, ...]
    """What it is for."""

    geometry: str
    """Shape of the joint line."""

    compound: str | None
    """Compound in it."""

    is_isolated: bool
    """Whether no current can pass."""

    verdict: terms.Verdict
    """Verdict of the worst case."""

    severity: str
    """Severity of the worst case, or `unknown`."""

    depends_on_case: bool
    """Whether its cases have different verdicts."""

    deciding_case: str | None
    """Case that decided."""

    why: str
    """One line for a buyer."""

    confidence: str | None
    """`high`, `medium` or `low`."""

    deciding_witness: str | None
    """Witness that decided."""

    dissenting_witnesses: tuple[str, ...]
    """Witnesses that say otherwise."""

    anode: Anode | None
    """Which side is eaten."""

    surfaces: SurfaceNames | None
    """Both surfaces as they were read."""

    environment: ReportedPlace | None
    """Where it was judged to live."""

    design_life_years: float | None
    """Life that it had to reach."""

    loss: dict[str, Any] | None
    """Loss in the deciding case, each figure with its unit in its name."""

    conditions: tuple[Condition, ...]
    """What must be done for the verdict to hold."""

    cautions: tuple[str, ...]
    """What can hurt people or hardware."""

    hazards: tuple[ReportedHazard, ...]
    """Rules that spoke."""

    warnings: tuple[AnswerWarning, ...]
    """What is doubtful in the question."""

    missing: tuple[str, ...]
    """What is not known and would matter."""

    question: str | None
    """The question whose reply would decide."""

    cases: tuple[JointCase, ...]
    """Every question that was judged."""

    not_judged: tuple[NotJudged, ...]
    """Questions that could not be asked."""

    in_network: EndsInNetwork | None
    """What the network of its parts changes."""

    line: int | None
    """Row of the table that it came from."""


class ReportedNetwork(Record, frozen=True, kw_only=True):
    """One conductive group in one place."""

    network: int
    """Number in this report."""

    environment: NetworkPlace
    """Where."""

    members: tuple[str, ...]
    """Its parts."""

    abstains: str | None
    """Why it was not solved; the joints are then the whole picture."""

    left_out: tuple[LeftOut, ...]
    """Parts that it was solved without."""

    is_complete: bool
    """Whether it was solved with all its parts."""

    states: tuple[str, ...]
    """Sets of states that were solved."""

    parts: tuple[PartInNetwork, ...]
    """What it does to each part."""

    assumptions: tuple[str, ...]
    """Areas that were not stated."""


class ReportedPart(Record, frozen=True, kw_only=True):
    """One part, as bad as the worst of its joints."""

    part: str
    """What joints call it."""

    number: str
    """Part number."""

    revision: str
    """Revision."""

    effectivity: str
    """Units or dates for which it is built in."""

    description: str
    """Name."""

    parent: str
    """What the part above is called."""

    quantity: float | None
    """Pieces."""

    zone: str | None
    """Where it lives."""

    text: str | None
    """What names its surface."""

    match: str | None
    """How the text was read; null if it names none."""

    surface: str | None
    """Its likeliest surface."""

    verdict: terms.Verdict | None
    """Worst verdict of its joints."""

    severity: str | None
    """Worst severity of its joints."""

    joints: tuple[str, ...]
    """Its joints, worst first."""

    network: PartInNetwork | None
    """What its network does to it."""

    assumptions: tuple[str, ...]
    """What was assumed about it."""

    line: int | None
    """Row of the table that it came from."""


class ReportedPlace(Record, frozen=True, kw_only=True):
    """Where a joint was judged to live."""

    id: str
    """Identifier; `custom` if the caller described it."""

    name: str
    """Name for people."""

    exposure: str
    """How the electrolyte meets the joint."""

    tags: tuple[str, ...]
    """Facts that rules asked for."""


class ReportedProgramme(Record, frozen=True, kw_only=True):
    """What held for all of the assembly."""

    name: str
    """Name of the programme."""

    release: str
    """Release that it is pinned to, empty for none."""

    environment: str
    """Where everything lived that said nothing."""

    design_life_years: float | None
    """Life of joints that said nothing."""

    effective_at: str
    """Unit or date whose parts were judged."""


class ResidualRisk(Record, frozen=True, kw_only=True):
    """What goes wrong when a measure is done badly, and the verdict then."""

    verdict: terms.Verdict
    """Verdict then."""

    severity: str
    """Severity then."""

    why: str
    """Statement of the deciding witness."""

    measure: str
    """Identifier of the measure."""

    done_badly: str
    """The usual mistake."""

    likelihood: float | None
    """How likely it fails, where the knowledge base says."""


class ResolveResponse(Record, frozen=True, kw_only=True):
    """Readings in the order of the texts."""

    release: ReleaseIdentity
    """Release that the texts were read by."""

    count: int
    """Number of readings."""

    unknown: int
    """How many texts are unknown."""

    ambiguous: int
    """How many texts are ambiguous."""

    readings: tuple[TextReading, ...]
    """Readings in the order of the texts."""


class ResolvedLayer(Record, frozen=True, kw_only=True):
    """One coat of a finish stack."""

    finish_id: str
    """Identifier of the finish."""

    name: str
    """Name for people."""

    thickness_um: float | None
    """Thickness that the text gives."""

    thickness_max_um: float | None
    """Upper end of a called-up range."""


class ResolvedMaterial(Record, frozen=True, kw_only=True):
    """A material by identifier and name."""

    id: str
    """Identifier of the material."""

    name: str
    """Name for people."""


class ResolvedSurface(Record, frozen=True, kw_only=True):
    """One way to read a surface."""

    name: str | None
    """Name of the surface."""

    material: ResolvedMaterial | None
    """The basis material; null where it is left open."""

    basis_family: str | None
    """Family of the basis."""

    layers: tuple[ResolvedLayer, ...]
    """Finish stack, outermost first."""

    condition: str
    """`intact`, `worn` or `damaged`."""

    outer_electrode: str | None
    """Electrode that the electrolyte sees."""

    confidence: float
    """How sure the reading is, 0 to 1."""

    assumptions: tuple[str, ...]
    """What was assumed."""

    missing: tuple[str, ...]
    """What the text leaves open."""

    spans: tuple[TextSpan, ...]
    """Characters that justified the reading."""


class ResultPage(Record, frozen=True, kw_only=True):
    """Results of a job in order: lines of a batch, the report on an assembly, stored assemblies in brief."""

    items: tuple[dict[str, Any], ...]
    """The results of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class RoomBand(Record, frozen=True, kw_only=True):
    """What an indoor class says of one metal."""

    metal: str
    """Reference metal."""

    low: float
    """Lower end."""

    typical: float
    """Geometric mean of the ends."""

    high: float
    """Upper end."""

    is_low_assumed: bool
    """Whether the standard leaves the lower end open."""

    is_high_assumed: bool
    """Whether the standard leaves the upper end open."""


class Rule(Record, frozen=True, kw_only=True):
    """A rule with the trigger that makes it speak."""

    source_id: str
    """Source of the figures, a key of `/v1/sources`."""

    locator: str
    """Where in the source: table, clause or page; empty if the whole."""

    obtained: terms.Obtained
    """How the figures were obtained from the source."""

    note: str
    """Remark of the editors; empty if none."""

    id: str
    """Identifier of the rule."""

    kind: terms.RuleKind
    """Which witness evaluates it."""

    name: str
    """Name for people."""

    trigger: Any
    """Condition under which it speaks."""

    severity: str
    """`none`, `slight`, `moderate` or `severe`."""

    anode: str
    """Which member of the trigger's pair is eaten; empty if neither."""

    refuses: bool
    """Whether it alone makes a couple unsuitable."""

    affects: tuple[str, ...]
    """Functions of a joint that it concerns."""

    statement: str
    """What it says."""

    advice: str
    """What to do about it."""

    caution: str
    """What can hurt people or hardware; empty if nothing particular."""


class RulePage(Record, frozen=True, kw_only=True):
    """One page of rules."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Rule, ...]
    """Rules in the order of their identifiers."""


class RuledOut(Record, frozen=True, kw_only=True):
    """Measures that are not ranked."""

    measures: tuple[NamedMeasure, ...]
    """Which measures."""

    reason: str
    """Stable word for the reason."""

    detail: str
    """The reason in words."""


class Scale(Record, frozen=True, kw_only=True):
    """A published series of metals."""

    id: str
    """Identifier of the scale."""

    name: str
    """Name for people."""

    kind: str
    """`potential`, `index` (positive towards the active end) or `rank` (1 is most active)."""

    electrolyte_class: terms.ElectrolyteClass
    """Electrolytes for which it may be used."""

    reference_electrode: str
    """Reference of its potentials; empty for ranks."""

    source_id: str
    """Source of the series, a key of `/v1/sources`."""

    note: str
    """Remark of the editors; empty if none."""


class ScalePage(Record, frozen=True, kw_only=True):
    """One page of scales."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Scale, ...]
    """Scales in the order of their identifiers."""


class SearchSize(Record, frozen=True, kw_only=True):
    """How much was searched."""

    couples_judged: int
    """Couples that were judged."""

    found: int
    """Ways out, each finish once."""

    shown: int
    """Rows shown; the others are alike or beyond the limit."""


class ServiceLimits(Record, frozen=True, kw_only=True):
    """How much the service takes."""

    request_body_bytes: int
    """Largest request body."""

    batch_bytes: int
    """Largest body of a batch or a job."""

    batch_couples: int
    """Most couples in a batch."""

    request_target_bytes: int
    """Longest path with query."""

    json_depth: int
    """Deepest nesting of a JSON body."""

    page_size: int
    """Most items in a page of a list."""

    resolve_texts: int
    """Most texts in one resolve request."""

    text_characters: int
    """Longest drawing text."""

    requests_per_minute: int
    """Sustained requests of one API key, counted by each process: N of them let through N times as many."""

    request_burst: int
    """Requests of one API key that may come at once, in one process."""

    key_revocation_s: float
    """Seconds after which a revoked API key is refused everywhere."""


class ShownAnode(Record, frozen=True, kw_only=True):
    """Which side is eaten."""

    side: str
    """`first`, `second`, `both` or `none`."""

    is_in_doubt: bool
    """Whether the other side may be eaten instead."""


class ShownBlocker(Record, frozen=True, kw_only=True):
    """A constraint that stands in the way where nothing was found."""

    constraint: str
    """Which constraint."""

    options_without_it: int
    """Ways out without it; 0 where it is not the caller's."""

    example: str
    """One of them, or why the nearest falls short."""


class ShownHarm(Record, frozen=True, kw_only=True):
    """What it does to some metals."""

    metals: tuple[str, ...]
    """Families of metals."""

    severity: str | None
    """How bad it is."""

    when: str | None
    """Where or for what it holds; null for always."""

    statement: str
    """What happens."""

    advice: str
    """What to do about it."""

    caution: str | None
    """What can hurt people or hardware."""

    rule_id: str | None
    """Rule that says so, a key of `/v1/rules`."""

    citation: str
    """Where it comes from."""


class ShownHazard(Record, frozen=True, kw_only=True):
    """A rule about damage besides the computed loss."""

    id: str
    """Identifier of the rule."""

    name: str
    """Name for people."""

    severity: str | None
    """How bad it is."""

    statement: str
    """What it says."""

    advice: str
    """What to do about it."""

    caution: str | None
    """What can hurt people or hardware."""


class ShownLayer(Record, frozen=True, kw_only=True):
    """One coat of a surface."""

    finish_id: str
    """Identifier of the finish."""

    name: str
    """Name for people."""

    thickness_um: float | None
    """Thickness that was judged."""


class ShownLife(Record, frozen=True, kw_only=True):
    """Years until the first coat or section is used up, 100 at most."""

    low_years: float | None
    """The unfavourable figure."""

    high_years: float | None
    """The favourable figure."""

    basis: str
    """What is used up."""


class ShownMeasure(Record, frozen=True, kw_only=True):
    """A measure of the knowledge base."""

    id: str
    """Identifier."""

    name: str
    """Name for people."""

    transform: str
    """What it changes."""

    has_sourced_efficacy: bool
    """Whether a source shows that it works."""

    citation: str
    """Where it comes from."""

    note: str | None
    """What else is known of it."""


class ShownSurface(Record, frozen=True, kw_only=True):
    """A surface by name and by structure, as `POST /v1/couples` takes it."""

    name: str
    """Name for people."""

    material_id: str | None
    """Identifier of the material."""

    basis_family: str
    """Family of the basis where no material is named."""

    layers: tuple[ShownLayer, ...]
    """Coats from the outside in."""

    temper: str
    """Temper; empty where it is not stated."""

    strength_class: str
    """Strength class; empty where it is not stated."""

    condition: str
    """`intact`, `worn` or `damaged`."""


class SiteAnswer(Record, frozen=True, kw_only=True):
    """A place by itself; empty where a standard does not apply there."""

    release: ReleaseIdentity
    """Release that knows the place."""

    environment: str
    """Name of the place."""

    period_years: float
    """Time over which losses are given."""

    kinetics_abstain: str
    """Why couples are not computed here; empty where they are."""

    metals: tuple[StandardMetalLoss, ...]
    """Losses of the standard metals in open air."""

    wetness: SiteWetness | None
    """Time of wetness in open air."""

    films: tuple[SiteFilm, ...]
    """States of the electrolyte that couples are computed in."""

    water: SiteWater | None
    """The water that metals lie under, within the range of TEOS-10."""

    indoor_um_per_year: tuple[RoomBand, ...]
    """Losses that the class of ISO 11844-1 stands for."""

    film_nm_per_year: tuple[RoomBand, ...]
    """Films that the level of ANSI/ISA-71.04 stands for."""

    weighed: tuple[CouponResult, ...]
    """Class of each weighed coupon."""

    filmed: tuple[CouponResult, ...]
    """Level of each coupon with a film."""

    references: tuple[str, ...]
    """Where the methods stand."""


class SiteFilm(Record, frozen=True, kw_only=True):
    """One state of the electrolyte in the year."""

    name: str
    """State."""

    hours_per_year: float
    """Hours of the year."""

    thickness_um: float | None
    """Thickness of the film; null for a bulk."""

    conductivity_S_per_m: float
    """Conductivity."""

    temperature_C: float
    """Temperature."""


class SiteWater(Record, frozen=True, kw_only=True):
    """What the conductivity of a water says."""

    salinity_g_per_kg: float
    """Salt, were it all sea salt."""

    saturated_oxygen_mg_per_L: float
    """Oxygen of air-saturated water."""


class SiteWetness(Record, frozen=True, kw_only=True):
    """Time of wetness as ISO 9223 defines it."""

    hours_per_year: float
    """Hours above 80 % humidity and 0 °C."""

    wetness_class: str
    """Class tau1 to tau5."""


class Source(Record, frozen=True, kw_only=True):
    """A bibliographic entry."""

    id: str
    """Identifier of the source."""

    kind: str
    """`standard`, `specification`, `paper`, `handbook`, `report`, `web`, `dataset`, `practice` (common
    practice, nothing published) or `memory`.
    """

    title: str
    """Title of the publication."""

    authors: str
    """Authors; empty if the publisher speaks."""

    publisher: str
    """Who published it."""

    year: int | None
    """Year of publication."""

    edition: str
    """Edition or revision."""

    status: terms.SourceStatus
    """Standing of the publication on the day it was entered."""

    doi: str
    """Digital object identifier; empty if none."""

    url: str
    """Address; empty if none."""

    note: str
    """Remark of the editors; empty if none."""


class SourcePage(Record, frozen=True, kw_only=True):
    """One page of sources."""

    release: ReleaseIdentity
    """Release that the whole walk through the list reads."""

    total: int
    """Number of items that the filters let through, over all pages."""

    next: str | None
    """Address of the next page, also in the Link header; null on the last page."""

    items: tuple[Source, ...]
    """Sources in the order of their identifiers."""


class StandardMetalLoss(Record, frozen=True, kw_only=True):
    """What a standard metal loses in open air."""

    metal: str
    """Standard metal of ISO 9223."""

    first_year_um: LossRange
    """Loss in the first year."""

    category: str
    """Category of ISO 9223, of this metal alone."""

    basis: str
    """How the first year was found."""

    loss_um: float
    """Loss over the years, mean exponent of ISO 9224."""

    conservative_loss_um: float
    """The same with its conservative exponent."""

    outside: tuple[str, ...]
    """Inputs outside the intervals that were fitted."""


class StoredAssembly(Record, frozen=True, kw_only=True):
    """An assembly under watch: it is judged again when a release can change what was said about it."""

    name: str
    """What the caller calls it."""

    version: int
    """Number of its edits; also its entity tag."""

    joints: int
    """Joints that the last report judged, assumed ones included."""

    verdict: str | None
    """Verdict of its worst joint; null while there is no report."""

    totals: dict[str, Any] | None
    """How the joints came out."""

    release: str | None
    """Label of the release that the last report was made by."""

    holds_under: str | None
    """Newest release under which that report is known to hold; null while it is judged anew."""

    stored_policy: str | None
    """Version of the stored policy that the last report was judged by; null if none is named."""

    created_at: dt.datetime
    """When it was stored first."""

    updated_at: dt.datetime
    """When it was edited last."""

    report: str | None
    """Where the last report is."""


class StoredAssemblyWithBody(Record, frozen=True, kw_only=True):
    """The same with what was stored."""

    name: str
    """What the caller calls it."""

    version: int
    """Number of its edits; also its entity tag."""

    joints: int
    """Joints that the last report judged, assumed ones included."""

    verdict: str | None
    """Verdict of its worst joint; null while there is no report."""

    totals: dict[str, Any] | None
    """How the joints came out."""

    release: str | None
    """Label of the release that the last report was made by."""

    holds_under: str | None
    """Newest release under which that report is known to hold; null while it is judged anew."""

    stored_policy: str | None
    """Version of the stored policy that the last report was judged by; null if none is named."""

    created_at: dt.datetime
    """When it was stored first."""

    updated_at: dt.datetime
    """When it was edited last."""

    report: str | None
    """Where the last report is."""

    body: dict[str, Any]
    """What was stored."""


class StoredPage(Record, frozen=True, kw_only=True):
    """Stored assemblies, the oldest first."""

    items: tuple[StoredAssembly, ...]
    """The assemblies of this page."""

    next: str | None
    """Address of the next page, also in the Link header; null at the end."""


class StoredPolicy(Record, frozen=True, kw_only=True):
    """A version of a policy. A version never changes; a new one follows it."""

    name: str
    """What the caller calls it."""

    version: int
    """Number of the version; also its entity tag."""

    reference: str
    """What names this version in `stored_policy`."""

    sha256: str
    """Hash of its content, as answers name it."""

    created_at: dt.datetime
    """When this version was stored."""

    created_by: str
    """Identifier of the key that stored it."""


class StoredPolicyWithBody(Record, frozen=True, kw_only=True):
    """The same with its rules."""

    name: str
    """What the caller calls it."""

    version: int
    """Number of the version; also its entity tag."""

    reference: str
    """What names this version in `stored_policy`."""

    sha256: str
    """Hash of its content, as answers name it."""

    created_at: dt.datetime
    """When this version was stored."""

    created_by: str
    """Identifier of the key that stored it."""

    policy: dict[str, Any]
    """What was stored."""


class StoringOutcome(Record, frozen=True, kw_only=True):
    """An assembly as it was stored, and the job that judges it."""

    assembly: StoredAssembly
    """The assembly."""

    job: JobDocument
    """The job that judges it; its end is also told in `/v1/changes`."""


class SubstituteOutcome(Record, frozen=True, kw_only=True):
    """What one substitute changes."""

    ref: str
    """The caller's own mark."""

    decision: str
    """`accept`, `review` or `reject`."""

    decided_by: SubstitutionReason | None
    """Reason that decided; null where nothing speaks against it."""

    change: str
    """Worst change of any joint."""

    surface: str | None
    """Its surface as it was read."""

    match: str | None
    """How its text was read."""

    question: str | None
    """The question whose reply would settle its text."""

    totals: dict[str, int]
    """Joints by change."""

    reasons: tuple[SubstitutionReason, ...]
    """All reasons."""

    joints: tuple[JointComparison, ...]
    """Joints of the part, what is worse first."""


class SubstitutionCheck(Record, frozen=True, kw_only=True):
    """The comparison, and how files were read."""

    comparison: SubstitutionComparison
    """The comparison."""

    reading: FilesReading | None
    """How files were read; null without files."""

    stored_policy: str | None
    """Version of the stored policy that decided, as `name@version`; null if none was named."""


class SubstitutionComparison(Record, frozen=True, kw_only=True):
    """What each substitute changes, and what is decided on it."""

    release: ReleaseIdentity
    """Release that both were judged by."""

    engine: str
    """Version of the engine that judged."""

    policy: DecidingPolicy
    """Policy that decided."""

    part: str
    """Part that is to be replaced."""

    report_sha256: str
    """Hash of the report on the assembly as it is."""

    substitutes: tuple[SubstituteOutcome, ...]
    """Substitutes in the order of the request."""

    sha256: str
    """Hash of the canonical JSON of all other members."""


class SubstitutionReason(Record, frozen=True, kw_only=True):
    """Why a change is what it is."""

    code: str
    """Stable word for the reason."""

    detail: str
    """The reason in words."""

    joint: str | None
    """Joint that it is about; null for the whole."""


class Summary(Record, frozen=True, kw_only=True):
    """The answer in words, for three readers."""

    line: str
    """One line for a buyer."""

    paragraph: str
    """A paragraph for a designer."""

    chain: tuple[str, ...]
    """Each step for a corrosion engineer."""


class SurfaceNames(Record, frozen=True, kw_only=True):
    """Both surfaces as they were read."""

    first: str | None
    """First surface."""

    second: str | None
    """Second surface."""


class SurfaceReading(Record, frozen=True, kw_only=True):
    """A surface as it was read, with the other ways to read it."""

    name: str | None
    """Name of the surface."""

    material: ResolvedMaterial | None
    """The basis material; null where it is left open."""

    basis_family: str | None
    """Family of the basis."""

    layers: tuple[ResolvedLayer, ...]
    """Finish stack, outermost first."""

    condition: str
    """`intact`, `worn` or `damaged`."""

    outer_electrode: str | None
    """Electrode that the electrolyte sees."""

    confidence: float
    """How sure the reading is, 0 to 1."""

    assumptions: tuple[str, ...]
    """What was assumed."""

    missing: tuple[str, ...]
    """What the text leaves open."""

    spans: tuple[TextSpan, ...]
    """Characters that justified the reading."""

    text: str
    """What the caller sent."""

    match: str
    """`exact`, `normalised`, `fuzzy`, `ambiguous` or `unknown`."""

    question: str | None
    """The question whose reply would settle it."""

    suggestions: tuple[str, ...]
    """Near names for an unknown text."""

    alternatives: tuple[ResolvedSurface, ...]
    """Other readings, the likelier first."""


class Surfaces(Record, frozen=True, kw_only=True):
    """Both surfaces."""

    first: SurfaceReading
    """The first surface."""

    second: SurfaceReading
    """The second surface."""


class TextCandidate(Record, frozen=True, kw_only=True):
    """One way to read a text."""

    surface: str
    """The surface in words."""

    material_id: str | None
    """Material."""

    finish_ids: tuple[str, ...]
    """Finishes, outermost first."""

    confidence: float
    """How sure the reading is, 0 to 1."""

    assumptions: tuple[str, ...]
    """What was assumed."""


class TextReading(Record, frozen=True, kw_only=True):
    """How one text was read."""

    ref: str
    """The caller's own mark."""

    text: str
    """The text that was read."""

    match: str
    """`exact`, `normalised`, `fuzzy`, `ambiguous` or `unknown`."""

    candidates: tuple[CandidateReading, ...]
    """Ways to read it, the likeliest first."""

    question: str | None
    """The question whose reply would settle it."""

    suggestions: tuple[str, ...]
    """Near names for an unknown text."""


class TextSpan(Record, frozen=True, kw_only=True):
    """Characters of a text that justified one part of its reading."""

    field: str
    """Which part: material, finish, thickness, temper or condition."""

    start: int
    """First character, counted from 0."""

    end: int
    """Character after the last."""

    reason: str
    """Why these characters mean that."""


class TippingPoint(Record, frozen=True, kw_only=True):
    """The single input whose smallest change turns the verdict."""

    quantity: str
    """Which input."""

    unit: str
    """Its unit."""

    present: float
    """Its present figure."""

    flips_at: float
    """The figure beyond which the verdict is another one."""

    becomes: terms.Verdict
    """That verdict."""


class UnresolvedText(Record, frozen=True, kw_only=True):
    """A text that was not settled, once for all parts that bear it."""

    text: str
    """The text."""

    match: str
    """`ambiguous`, `fuzzy` or `unknown`."""

    question: str | None
    """The question whose reply would settle it."""

    candidates: tuple[TextCandidate, ...]
    """Ways to read it, the likeliest first."""

    suggestions: tuple[str, ...]
    """Near names for an unknown text."""

    parts: tuple[str, ...]
    """Parts that bear it."""

    joints: int
    """Joints that it touches."""

    decides: bool
    """Whether one of these joints is undetermined."""


class UnusedValue(Record, frozen=True, kw_only=True):
    """A figure that was set aside."""

    id: str
    """Identifier of the record."""

    value: str
    """The figure."""

    reason: str
    """Why it was set aside."""


class UsedCompound(Record, frozen=True, kw_only=True):
    """A compound that a measure uses."""

    id: str
    """Identifier."""

    name: str
    """Name for people."""

    attacks: tuple[str, ...]
    """Families that it attacks."""

    reapplication: str | None
    """When it is renewed."""

    caution: str | None
    """What can hurt people or hardware."""


class ViolationRecord(Record, frozen=True, kw_only=True):
    """A rule that is broken."""

    rule: str
    """Identifier of the rule."""

    kind: str
    """`limit`, `ban`, `requirement` or `code`."""

    statement: str
    """The rule in words."""

    detail: str
    """What breaks it."""

    waivable_by: tuple[str, ...]
    """Roles that may waive it."""

    is_waived: bool
    """Whether a waiver covers it."""

    waivers: tuple[WaiverRecord, ...]
    """Waivers for this joint or part."""


class WaiverRecord(Record, frozen=True, kw_only=True):
    """A waiver, and whether it covers the violation today."""

    id: str
    """Identifier."""

    reason: str
    """Why it was accepted."""

    approver: str
    """Who accepted it."""

    role: str
    """In which role."""

    granted_on: str
    """First day."""

    expires_on: str
    """Last day."""

    conditions: tuple[str, ...]
    """Under which conditions."""

    is_in_force: bool
    """Whether it covers the violation."""

    why_not: str | None
    """Why it does not."""


class Webhook(Record, frozen=True, kw_only=True):
    """An address that is told of changes, in messages signed by Standard Webhooks, scheme `v1`."""

    id: str
    """Identifier."""

    url: str
    """Where messages go."""

    events: tuple[str, ...]
    """Kinds of changes that it is told of."""

    after: int
    """Serial up to which messages were made."""

    created_at: dt.datetime
    """When it was made."""

    disabled_at: dt.datetime | None
    """Since when nothing is sent, if so; replaying starts it again."""

    failures: int
    """Attempts that failed since the last success."""


class WebhookDelivery(Record, frozen=True, kw_only=True):
    """One message on its way."""

    id: str
    """Identifier: the `webhook-id` of the message."""

    serial: int
    """Line of the feed that it carries."""

    state: str
    """`due`, `delivered` or `given up`."""

    attempts: int
    """Attempts so far."""

    due_at: dt.datetime
    """When the next attempt is due, if one is."""

    last_status: int | None
    """Status that the last attempt was answered with."""

    last_error: str
    """Why the last attempt failed."""

    delivered_at: dt.datetime | None
    """When it was taken."""


class WebhookList(Record, frozen=True, kw_only=True):
    """All webhooks of the caller's tenant."""

    items: tuple[Webhook, ...]
    """The webhooks, the oldest first."""


class WorkStep(Record, frozen=True, kw_only=True):
    """One step of the work."""

    step: str
    """`prepare`, `apply`, `assemble`, `seal`, `inspect` or `defer`."""

    text: str
    """What to do."""


class WorkSteps(Record, frozen=True, kw_only=True):
    """How a measure is done, in general."""

    measure: str
    """Identifier of the measure."""

    steps: tuple[WorkStep, ...]
    """The steps in order."""
