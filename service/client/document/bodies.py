"""What the service is sent.

Written from the OpenAPI document by `make openapi`: do not edit.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import Any, Required, TypedDict

from service.client.document import terms


class AcceptanceRequest(TypedDict, total=False):
    """How a substitution is decided from its reasons: the first code that is among them decides."""

    name: str
    """Name of the rules."""

    reject_on: Required[Sequence[str]]
    """Reasons that reject."""

    review_on: Required[Sequence[str]]
    """Reasons that ask for review."""


class AlternativesRequest(TypedDict, total=False):
    """A couple for which other surfaces are sought."""

    first_area_cm2: float | None
    """Wetted area of the first surface."""

    second_area_cm2: float | None
    """Wetted area of the second surface."""

    geometry: terms.Geometry

    fastener_radius_mm: float | None
    """Radius of a round second member."""

    bore_mm: float | None
    """Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long as
    its wetted area makes it, one metre without areas.
    """

    functions: Sequence[terms.Function]
    """What the joint is for."""

    design_life_years: float | None
    """Life that the joint must reach; the policy's default if absent."""

    section_allowance_um: float | None
    """Loss that the section can stand; by function if absent."""

    compound: str
    """Compound in the joint, a key of `/v1/compounds`."""

    joint_temperature_C: float | None
    """Temperature of the joint."""

    wear_cycles: float | None
    """Matings or strokes over the life."""

    is_isolated: bool
    """Whether no current can pass between the parts."""

    match: terms.MatchLevel
    """How loosely texts may be read."""

    min_grade: str | None
    """Weakest grade of evidence that may decide, A to E."""

    would_change_if: bool
    """Whether to look for the single input whose change turns the verdict."""

    as_of: str | None
    """Label of the release to judge by; the current one if absent."""

    first: Required[str | SurfaceRequest]
    """The first surface."""

    second: Required[str | SurfaceRequest]
    """The second surface."""

    environment: Required[str | EnvironmentRequest]
    """Where they will live."""

    contact: ContactRequest | None
    """Electrical duty of the joint."""

    constraints: ConstraintsRequest
    """What may change and what must be kept."""

    limit: int
    """Rows of the ranking."""


class AssemblyRequest(TypedDict, total=False):
    """An assembly that is to be checked."""

    name: str
    """Name of the assembly."""

    programme: ProgrammeRequest | None
    """What holds for all of it."""

    zones: Mapping[str, str | EnvironmentRequest]
    """Environments by the name of the zone."""

    parts: Sequence[PartRequest]
    """Parts of the assembly."""

    joints: Sequence[JointRequest]
    """Joints between them, beside those of files."""

    files: Sequence[FileRequest]
    """Files that hold parts, joints or both."""

    policy: PolicyRequest | None
    """Rules of the house; the default ones if absent."""

    stored_policy: str | None
    """Instead of `policy`: a key of `/v1/policies`, in the version in force, or as `name@version`."""

    as_of: str | None
    """Label of the release to judge by; the programme's or the current one if absent."""

    waivers: Sequence[WaiverRequest]
    """Waivers that were granted."""

    date: str | dt.date | None
    """Day on which waivers are looked at; today if absent."""


class BanRequest(TypedDict, total=False):
    """Finishes, substances, materials or metals that a part must not have."""

    id: Required[str]
    """Identifier of the rule."""

    statement: Required[str]
    """The rule in words."""

    finishes: Sequence[str]
    """Finishes by identifier."""

    substances: Sequence[str]
    """Substances by symbol."""

    materials: Sequence[str]
    """Materials by identifier."""

    families: Sequence[str]
    """Metals by family or electrode."""

    environments: Sequence[str]
    """Where it applies; everywhere if empty."""

    waivable_by: Sequence[str]
    """Roles that may waive it; without any, nobody may."""


class BandsRequest(TypedDict, total=False):
    """By which figures become words."""

    name: str
    """Name of the bands."""

    severity_bounds: Sequence[float] | None
    """Upper bounds of none, slight and moderate: 95 % loss over the life by allowance."""

    default_design_life_years: float | None
    """Life where a joint states none."""

    section_allowances_um: Mapping[str, float]
    """Loss that a joint of each function can stand, in µm."""

    limits_V: Mapping[str, float]
    """Permissible difference by screening class, in V."""


class CommentRequest(TypedDict, total=False):
    """A remark on a proposal."""

    text: Required[str]
    """The remark."""


class ConstraintsRequest(TypedDict, total=False):
    """What a way out may change and what it must keep."""

    first: terms.Change
    """What may change on the first side."""

    second: terms.Change
    """What may change on the second side."""

    materials: Sequence[str]
    """Materials that may stand in where a side may change its material; one of each metal if empty."""

    allowed_substances: Sequence[str]
    """Restricted substances that are opted in to."""

    forbidden_substances: Sequence[str]
    """Further substances that are ruled out."""

    regulations: Sequence[terms.Regulation]
    """Regulations that a finish must meet."""

    needs_solder: bool
    """Whether the face is soldered."""

    needs_conduction: bool
    """Whether the face must conduct."""

    max_cost_tier: int | None
    """Highest tier of cost, 0 to 5."""

    min_life_years: float | None
    """Least life of every coat."""

    accept: terms.Verdict
    """Weakest verdict that counts as a way out."""

    weights: Mapping[str, float] | None
    """Share of each objective in the score; those not named count nothing."""


class ContactRequest(TypedDict, total=False):
    """Electrical duty of a joint."""

    current_A: float | None
    """Current through the joint."""

    force_N: float | None
    """Contact force."""

    bond_limit_ohm: float | None
    """Largest resistance of a bond."""

    voltage_budget_V: float | None
    """Largest voltage drop."""

    carriers_MHz: Sequence[float]
    """Carriers at the joint."""

    receive_bands_MHz: Sequence[Sequence[float]]
    """Bands in which a receiver listens."""


class CoupleRequest(TypedDict, total=False):
    """A couple as a JSON body."""

    first_area_cm2: float | None
    """Wetted area of the first surface."""

    second_area_cm2: float | None
    """Wetted area of the second surface."""

    geometry: terms.Geometry

    fastener_radius_mm: float | None
    """Radius of a round second member."""

    bore_mm: float | None
    """Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long as
    its wetted area makes it, one metre without areas.
    """

    functions: Sequence[terms.Function]
    """What the joint is for."""

    design_life_years: float | None
    """Life that the joint must reach; the policy's default if absent."""

    section_allowance_um: float | None
    """Loss that the section can stand; by function if absent."""

    compound: str
    """Compound in the joint, a key of `/v1/compounds`."""

    joint_temperature_C: float | None
    """Temperature of the joint."""

    wear_cycles: float | None
    """Matings or strokes over the life."""

    is_isolated: bool
    """Whether no current can pass between the parts."""

    match: terms.MatchLevel
    """How loosely texts may be read."""

    min_grade: str | None
    """Weakest grade of evidence that may decide, A to E."""

    would_change_if: bool
    """Whether to look for the single input whose change turns the verdict."""

    as_of: str | None
    """Label of the release to judge by; the current one if absent."""

    first: Required[str | SurfaceRequest]
    """The first surface."""

    second: Required[str | SurfaceRequest]
    """The second surface."""

    environment: Required[str | EnvironmentRequest]
    """Where they will live."""

    contact: ContactRequest | None
    """Electrical duty of the joint."""


class EnvelopeRequest(TypedDict, total=False):
    """A joint for which acceptance is stated; `constraints.accept` is the verdict to be kept."""

    first_area_cm2: float | None
    """Wetted area of the first surface."""

    second_area_cm2: float | None
    """Wetted area of the second surface."""

    geometry: terms.Geometry

    fastener_radius_mm: float | None
    """Radius of a round second member."""

    bore_mm: float | None
    """Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long as
    its wetted area makes it, one metre without areas.
    """

    functions: Sequence[terms.Function]
    """What the joint is for."""

    design_life_years: float | None
    """Life that the joint must reach; the policy's default if absent."""

    section_allowance_um: float | None
    """Loss that the section can stand; by function if absent."""

    compound: str
    """Compound in the joint, a key of `/v1/compounds`."""

    joint_temperature_C: float | None
    """Temperature of the joint."""

    wear_cycles: float | None
    """Matings or strokes over the life."""

    is_isolated: bool
    """Whether no current can pass between the parts."""

    match: terms.MatchLevel
    """How loosely texts may be read."""

    min_grade: str | None
    """Weakest grade of evidence that may decide, A to E."""

    would_change_if: bool
    """Whether to look for the single input whose change turns the verdict."""

    as_of: str | None
    """Label of the release to judge by; the current one if absent."""

    first: Required[str | SurfaceRequest]
    """The first surface."""

    second: Required[str | SurfaceRequest]
    """The second surface."""

    environment: Required[str | EnvironmentRequest]
    """Where they will live."""

    contact: ContactRequest | None
    """Electrical duty of the joint."""

    constraints: ConstraintsRequest
    """What may change and what must be kept."""

    sides: terms.Sides
    """Which side may be changed."""


class EnvironmentRequest(TypedDict, total=False):
    """An exposure; with `id` alone it is a known one, with figures beside `id` they replace its own. Without
    `id`, `exposure` and `electrolyte_class` have to be given.
    """

    id: str
    """Known environment, a key of `/v1/environments`."""

    name: str
    """What to call it in the answer."""

    exposure: terms.Exposure | None
    """How the electrolyte meets the joint."""

    electrolyte_class: terms.ElectrolyteClass | None
    """Family of the electrolyte."""

    screening_class: str | None
    """Which permissible difference applies: `harsh` (if nothing is said), `normal` or `controlled`."""

    temperature_C: float | None
    """Mean temperature of the year."""

    relative_humidity_pct: float | None
    """Mean relative humidity."""

    wetness_h_per_year: float | None
    """Hours of wetness."""

    so2_mg_per_m2_d: float | None
    """Deposition of sulfur dioxide."""

    so2_ug_per_m3: float | None
    """Sulfur dioxide in the air, in place of its deposition."""

    chloride_mg_per_m2_d: float | None
    """Deposition of chloride on a wet candle."""

    chloride_dry_plate_mg_per_m2_d: float | None
    """The same on a dry plate, in its place."""

    salt_load_g_per_m2: float | None
    """Salt on the surface."""

    is_sheltered: bool | None
    """Whether rain does not wash the surface."""

    conductivity_S_per_m: float | None
    """Conductivity of the electrolyte."""

    conductivity_low_S_per_m: float | None
    """Lower bound of it."""

    conductivity_high_S_per_m: float | None
    """Upper bound of it."""

    salinity_g_per_kg: float | None
    """Salt in sea water or its dilution, in place of the conductivity."""

    pH: float | None
    """pH of the electrolyte."""

    pH_low: float | None
    """Lower bound of it."""

    pH_high: float | None
    """Upper bound of it."""

    oxygen_mg_per_L: float | None
    """Dissolved oxygen."""

    film_thickness_um: float | None
    """Thickness of the film."""

    film_thickness_low_um: float | None
    """Lower bound of it."""

    film_thickness_high_um: float | None
    """Upper bound of it."""

    hours_rain_per_year: float | None
    """Hours under rain."""

    precipitation_mm_per_year: float | None
    """Depth of a year's rain, in place of its hours."""

    hours_deliquesced_per_year: float | None
    """Hours under wet salt."""

    hours_drying_per_year: float | None
    """Hours of drying."""

    flow_m_per_s: float | None
    """Speed of the water."""

    iso9223_category: str | None
    """Category of ISO 9223, where no climate figures are known."""

    tags: Sequence[str] | None
    """Facts that rules ask for, such as `sulfide` or `hot_water`."""


class FileRequest(TypedDict, total=False):
    """A file in the body: CSV, XLSX, JSON or NDJSON, told by its content."""

    name: Required[str]
    """Name, for messages."""

    content: Required[str]
    """Content in base64."""


class FilmedCoupon(TypedDict, total=False):
    """A coupon whose corrosion film was measured."""

    metal: Required[terms.FilmMetal]
    """Reference metal of ANSI/ISA-71.04."""

    film_angstrom: Required[float]
    """Thickness of the film."""

    exposure_days: Required[float]
    """Length of the exposure; far from 30 it misleads."""


class JointRequest(TypedDict, total=False):
    """Two parts that touch."""

    id: Required[str]
    """Identifier."""

    first: Required[str]
    """What one part is called."""

    second: Required[str]
    """What the other is called; of a fastener joint the fastener."""

    name: str
    """What the joint is called."""

    zone: str
    """Where it lives; the zones of both parts if absent."""

    functions: Sequence[terms.Function]
    """What the joint is for."""

    geometry: terms.Geometry

    first_area_cm2: float | None
    """Wetted area of the first side."""

    second_area_cm2: float | None
    """Wetted area of the second side."""

    fastener_radius_mm: float | None
    """Radius of a round second member."""

    bore_mm: float | None
    """Inside diameter of both pipes, of the geometry `pipe` only."""

    contact: ContactRequest | None
    """Electrical duty."""

    design_life_years: float | None
    """Life that it must reach."""

    section_allowance_um: float | None
    """Loss that the section can stand."""

    compound: str
    """Compound, a key of `/v1/compounds`."""

    joint_temperature_C: float | None
    """Temperature of the joint."""

    wear_cycles: float | None
    """Matings or strokes over the life."""

    is_isolated: bool
    """Whether no current can pass."""


class LayerRequest(TypedDict, total=False):
    """One coat of a finish stack."""

    finish_id: Required[str]
    """Finish, a key of `/v1/finishes`."""

    thickness_um: float | None
    """Thickness; the usual one if absent."""

    thickness_max_um: float | None
    """Upper end where a range is called up."""


class LimitRequest(TypedDict, total=False):
    """What a joint may come out as."""

    id: Required[str]
    """Identifier of the rule."""

    statement: Required[str]
    """The rule in words."""

    accepted_verdicts: Sequence[terms.Verdict]
    """Verdicts that are accepted."""

    largest_severity: terms.Severity | None
    """Worst severity accepted."""

    largest_loss_um: float | None
    """Largest loss accepted."""

    accepted_confidences: Sequence[str]
    """Confidences accepted."""

    accepts_assumed_contacts: bool
    """Whether an assumed contact is accepted."""

    scope: ScopeRequest | None
    """Where it applies; everywhere if absent."""

    waivable_by: Sequence[str]
    """Roles that may waive it; without any, nobody may."""


class OverlayChange(TypedDict, total=False):
    """Rows that come, are replaced or go, together or not at all."""

    put: Sequence[PrivateRow]
    """Rows to add, or to replace where the key is there already."""

    remove: Sequence[PrivateRowName]
    """Rows to take away first."""


class OverlayReplacement(TypedDict, total=False):
    """The whole overlay."""

    rows: Required[Sequence[PrivateRow]]
    """Every row; what is not among them goes."""


class PartRequest(TypedDict, total=False):
    """One part at one place of the tree."""

    part_number: Required[str]
    """Number of the part."""

    id: str
    """What joints call it; the part number if absent."""

    description: str
    """Name of the part; the surface is read from it where none is named."""

    revision: str
    """Revision."""

    effectivity: str
    """Units or dates for which it is built in."""

    parent: str
    """What the part above is called."""

    quantity: float | None
    """Pieces."""

    surface: str | SurfaceRequest | None
    """Its surface: text, notes or structure."""

    wetted_area_cm2: float | None
    """Wetted area of one piece."""

    net: str
    """Electrical net or bond."""

    is_isolated: bool
    """Whether it is mounted without an electronic path."""

    zone: str
    """Where it lives: a zone, or a key of `/v1/environments`."""

    note: str
    """Remarks."""


class PolicyRequest(TypedDict, total=False):
    """Rules of a house: they stand beside the verdicts and never change one."""

    name: Required[str]
    """Name of the policy."""

    version: str
    """The house's own version."""

    bands: BandsRequest | None
    """By which figures become words; the usual ones if absent."""

    limits: Sequence[LimitRequest]
    """What joints may come out as."""

    bans: Sequence[BanRequest]
    """What parts must not have."""

    preferred_finishes: Sequence[str]
    """Finishes that the house prefers."""

    requirements: Sequence[RequirementRequest]
    """What joints must have."""

    acceptance: AcceptanceRequest | None
    """How substitutions are decided; the default rules if absent."""


class PrivateRow(TypedDict, total=False):
    """A row of the overlay; one with the key of a published record takes its place for this tenant."""

    table: Required[str]
    """Table: `sources`, `materials`, `designations`, `finishes`, `finish_substrates` or `limits` in the shape
    of the release's own records, `bans` or `preferences` with `finish_id` and `reason`.
    """

    record: Required[Mapping[str, Any]]
    """All fields of the row."""


class PrivateRowName(TypedDict, total=False):
    """A row that is to go."""

    table: Required[str]
    """Table: `sources`, `materials`, `designations`, `finishes`, `finish_substrates` or `limits` in the shape
    of the release's own records, `bans` or `preferences` with `finish_id` and `reason`.
    """

    key: Required[Sequence[str]]
    """Key of the row; of a ban or preference the finish."""


class ProgrammeRequest(TypedDict, total=False):
    """What holds for all of an assembly."""

    name: str
    """Name of the programme."""

    release: str
    """Release that the programme is pinned to; no other one judges it."""

    environment: str | EnvironmentRequest | None
    """Where everything lives that says nothing."""

    design_life_years: float | None
    """Life of joints that say nothing."""

    effective_at: str
    """Unit or date whose parts are judged; all if absent."""


class ProposalRequest(TypedDict, total=False):
    """A new record, or other values for some fields of one that is there."""

    table: Required[str]
    """Table of the record."""

    key: Sequence[str] | None
    """Key of the record that is to change; absent for a new one. One text, or two or three where several
    fields together are the key.
    """

    record: Required[Mapping[str, Any]]
    """Fields of the record. With a key those that change; without, all of them. A figure names its source,
    which may itself be proposed.
    """

    reason: Required[str]
    """Why, for whoever reviews it."""


class PublicationRequest(TypedDict, total=False):
    """How the next release is called."""

    label: str | None
    """Label; absent, the date and a number make one."""

    note: str
    """What it is about."""


class RemedyRequest(TypedDict, total=False):
    """A couple and what may be done about it."""

    first_area_cm2: float | None
    """Wetted area of the first surface."""

    second_area_cm2: float | None
    """Wetted area of the second surface."""

    geometry: terms.Geometry

    fastener_radius_mm: float | None
    """Radius of a round second member."""

    bore_mm: float | None
    """Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long as
    its wetted area makes it, one metre without areas.
    """

    functions: Sequence[terms.Function]
    """What the joint is for."""

    design_life_years: float | None
    """Life that the joint must reach; the policy's default if absent."""

    section_allowance_um: float | None
    """Loss that the section can stand; by function if absent."""

    compound: str
    """Compound in the joint, a key of `/v1/compounds`."""

    joint_temperature_C: float | None
    """Temperature of the joint."""

    wear_cycles: float | None
    """Matings or strokes over the life."""

    is_isolated: bool
    """Whether no current can pass between the parts."""

    match: terms.MatchLevel
    """How loosely texts may be read."""

    min_grade: str | None
    """Weakest grade of evidence that may decide, A to E."""

    would_change_if: bool
    """Whether to look for the single input whose change turns the verdict."""

    as_of: str | None
    """Label of the release to judge by; the current one if absent."""

    first: Required[str | SurfaceRequest]
    """The first surface."""

    second: Required[str | SurfaceRequest]
    """The second surface."""

    environment: Required[str | EnvironmentRequest]
    """Where they will live."""

    contact: ContactRequest | None
    """Electrical duty of the joint."""

    constraints: ConstraintsRequest
    """What may change and what must be kept."""


class ReplayRequest(TypedDict, total=False):
    """From where to tell again."""

    after: Required[int]
    """Serial after which everything is sent again."""


class RequirementRequest(TypedDict, total=False):
    """What a joint in the scope must have."""

    id: Required[str]
    """Identifier of the rule."""

    statement: Required[str]
    """The rule in words."""

    compounds: Sequence[str]
    """Any of these compounds."""

    accepts_isolation: bool
    """Whether an isolated joint meets it as well."""

    scope: ScopeRequest | None
    """Where it applies; everywhere if absent."""

    waivable_by: Sequence[str]
    """Roles that may waive it; without any, nobody may."""


class ResolveRequest(TypedDict, total=False):
    """Texts to read."""

    texts: Required[Sequence[str | TextRequest]]
    """Texts, or objects with notes."""

    as_of: str | None
    """Label of the release to read by; the current one if absent."""


class RetractionRequest(TypedDict, total=False):
    """Taking a proposal of one's own back."""

    reason: Required[str]
    """Why."""


class ReviewRequest(TypedDict, total=False):
    """A decision on a proposal that somebody else has made."""

    decision: Required[str]
    """`approve` or `reject`."""

    text: str
    """Why; a rejection needs it."""


class ScopeRequest(TypedDict, total=False):
    """To which joints a rule applies: all that is given must hold, each by any of its values."""

    functions: Sequence[terms.Function]
    """Functions of the joint."""

    environments: Sequence[str]
    """Environments by identifier."""

    environment_tags: Sequence[str]
    """Tags of the environment."""

    exposures: Sequence[str]
    """Exposures."""

    families: Sequence[str]
    """Metals by family or electrode; two mean a joint between both."""

    verdicts: Sequence[terms.Verdict]
    """Verdicts of the joint."""

    severities: Sequence[terms.Severity]
    """Severities of the joint."""


class SiteRequest(TypedDict, total=False):
    """A place, and what coupons showed there."""

    environment: Required[str | EnvironmentRequest]
    """The place."""

    period_years: float
    """Time over which losses are given."""

    weighed: Sequence[WeighedCoupon]
    """Coupons that were weighed."""

    filmed: Sequence[FilmedCoupon]
    """Coupons whose film was measured."""

    as_of: str | None
    """Label of the release to read; the current one if absent."""


class SubstituteRequest(TypedDict, total=False):
    """One offered substitute; what it leaves open is as before."""

    ref: Required[str]
    """The caller's own mark, given back unchanged."""

    part_number: str
    """Its number."""

    description: str
    """Its name."""

    surface: str | SurfaceRequest | None
    """Its surface: text, notes or structure."""

    wetted_area_cm2: float | None
    """Wetted area of one piece."""


class SubstitutionRequest(TypedDict, total=False):
    """A part of an assembly, and what is offered in its place."""

    name: str
    """Name of the assembly."""

    programme: ProgrammeRequest | None
    """What holds for all of it."""

    zones: Mapping[str, str | EnvironmentRequest]
    """Environments by the name of the zone."""

    parts: Sequence[PartRequest]
    """Parts of the assembly."""

    joints: Sequence[JointRequest]
    """Joints between them, beside those of files."""

    files: Sequence[FileRequest]
    """Files that hold parts, joints or both."""

    policy: PolicyRequest | None
    """Rules of the house; the default ones if absent."""

    stored_policy: str | None
    """Instead of `policy`: a key of `/v1/policies`, in the version in force, or as `name@version`."""

    as_of: str | None
    """Label of the release to judge by; the programme's or the current one if absent."""

    part: Required[str]
    """Part that is to be replaced, by what joints call it or by its number."""

    substitutes: Required[Sequence[str | SubstituteRequest]]
    """What is offered."""


class SurfaceRequest(TypedDict, total=False):
    """One surface, named in one way: by `text`, by notes (`material`, `finish`), or by structure."""

    text: str
    """Drawing text with everything in it."""

    material: str
    """Material note: drawing text or identifier."""

    finish: str
    """Finish note: drawing text or identifier."""

    material_id: str
    """Material, a key of `/v1/materials`."""

    basis_family: str
    """Family of the basis where the material is left open."""

    layers: Sequence[LayerRequest]
    """Finish stack of a structure, outermost first; none means bare."""

    temper: str
    """Temper of a structure."""

    strength_class: str
    """Strength class of a structure."""

    thickness_um: float | None
    """Thickness of the outermost layer, instead of what a text says."""

    condition: terms.SurfaceCondition | None
    """State of the finish, instead of what a text says."""


class TextRequest(TypedDict, total=False):
    """One text, or the separate material and finish notes of one part."""

    text: str
    """Drawing text in one piece."""

    material: str
    """Material note."""

    finish: str
    """Finish note."""

    ref: str
    """The caller's own mark, given back unchanged."""


class WaiverRequest(TypedDict, total=False):
    """A named person accepts what policy refuses, with a reason and until a day."""

    id: Required[str]
    """Identifier of the waiver."""

    subject: Required[str]
    """Joint or part that it is for."""

    reason: Required[str]
    """Why it is accepted."""

    approver: Required[str]
    """Who accepts it."""

    role: Required[str]
    """In which role; the rule says who may."""

    granted_on: Required[str | dt.date]
    """First day."""

    expires_on: Required[str | dt.date]
    """Last day."""

    rules: Sequence[str]
    """Rules that are waived; all of them if empty."""

    conditions: Sequence[str]
    """Under which conditions."""

    revoked_on: str | dt.date | None
    """Day on which it was revoked."""


class WebhookRequest(TypedDict, total=False):
    """An address that wants to be told."""

    url: Required[str]
    """Public https address."""

    events: Required[Sequence[str]]
    """Kinds of changes: `verdicts.created`, `verdicts.corrected`, `verdicts.regraded`, `verdicts.withdrawn`
    (of stored assemblies), `release.published`, `release.imported`, `overlay.misfit` (the own overlay
    names what a release does not hold), `webhook.disabled`; `*` for all.
    """

    after: int | None
    """Serial after which it is told; what happens from now on if absent."""


class WeighedCoupon(TypedDict, total=False):
    """A coupon that was weighed before and after."""

    metal: Required[terms.IndoorMetal]
    """Reference metal of ISO 11844-1."""

    loss_mg_per_m2_per_year: Required[float]
    """Loss of mass in a year."""


class WithdrawalRequest(TypedDict, total=False):
    """A record that is to be used no longer."""

    table: Required[str]
    """Table of the record."""

    key: Required[Sequence[str]]
    """Key of the record."""

    reason: Required[str]
    """Why; it is shown wherever the figure is."""
