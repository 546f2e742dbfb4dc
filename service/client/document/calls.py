"""What the service can be asked, one function each.

Written from the OpenAPI document by `make openapi`: do not edit.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Unpack

from service.client.document import bodies, results, terms
from service.client.flows import Flow, Listing, ask, ask_nothing
from service.client.requests import Request, address, new_key


def judge_couple_by_text(*, first_area_cm2: float | None = None, second_area_cm2: float | None = None, geometry: terms.Geometry | None = None, fastener_radius_mm: float | None = None, bore_mm: float | None = None, functions: Sequence[terms.Function] | None = None, design_life_years: float | None = None, section_allowance_um: float | None = None, compound: str | None = None, joint_temperature_C: float | None = None, wear_cycles: float | None = None, is_isolated: bool | None = None, match: terms.MatchLevel | None = None, min_grade: str | None = None, would_change_if: bool | None = None, as_of: str | None = None, first: str, second: str, environment: str, current_A: float | None = None, force_N: float | None = None, bond_limit_ohm: float | None = None, voltage_budget_V: float | None = None) -> Flow[results.Answer]:
    """Judge a couple by drawing texts.

    Judge two surfaces that are named by drawing text, in a known environment. The answer can be cached;
    with the ETag of the answer it is 304 as long as nothing changes.

    first: The first surface as drawing text. Required.
    second: The second surface as drawing text. Required.
    environment: Where they will live, a key of `/v1/environments`. Required.
    first_area_cm2: Wetted area of the first surface.
    second_area_cm2: Wetted area of the second surface.
    geometry: Shape of the wetted joint line. One of: strip, fastener, pipe, immersed.
    fastener_radius_mm: Radius of a round second member.
    bore_mm: Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long
        as its wetted area makes it, one metre without areas.
    functions: What the joint is for. One of: structural, electrical bond, protective earth, power contact,
        signal contact, rf, seal, thermal.
    design_life_years: Life that the joint must reach; the policy's default if absent.
    section_allowance_um: Loss that the section can stand; by function if absent.
    compound: Compound in the joint, a key of `/v1/compounds`.
    joint_temperature_C: Temperature of the joint.
    wear_cycles: Matings or strokes over the life.
    is_isolated: Whether no current can pass between the parts.
    match: How loosely texts may be read. One of: any, strict, exact.
    min_grade: Weakest grade of evidence that may decide, A to E.
    would_change_if: Whether to look for the single input whose change turns the verdict.
    as_of: Label of the release to judge by; the current one if absent.
    current_A: Current through the joint.
    force_N: Contact force.
    bond_limit_ohm: Largest resistance of a bond.
    voltage_budget_V: Largest voltage drop.
    """
    request = Request("GET", "/v1/couples", query={"first_area_cm2": first_area_cm2, "second_area_cm2": second_area_cm2, "geometry": geometry, "fastener_radius_mm": fastener_radius_mm, "bore_mm": bore_mm, "functions": functions, "design_life_years": design_life_years, "section_allowance_um": section_allowance_um, "compound": compound, "joint_temperature_C": joint_temperature_C, "wear_cycles": wear_cycles, "is_isolated": is_isolated, "match": match, "min_grade": min_grade, "would_change_if": would_change_if, "as_of": as_of, "first": first, "second": second, "environment": environment, "current_A": current_A, "force_N": force_N, "bond_limit_ohm": bond_limit_ohm, "voltage_budget_V": voltage_budget_V, "view": "full"})
    return ask(request, results.Answer)


def decide_couple_by_text(*, first_area_cm2: float | None = None, second_area_cm2: float | None = None, geometry: terms.Geometry | None = None, fastener_radius_mm: float | None = None, bore_mm: float | None = None, functions: Sequence[terms.Function] | None = None, design_life_years: float | None = None, section_allowance_um: float | None = None, compound: str | None = None, joint_temperature_C: float | None = None, wear_cycles: float | None = None, is_isolated: bool | None = None, match: terms.MatchLevel | None = None, min_grade: str | None = None, would_change_if: bool | None = None, as_of: str | None = None, first: str, second: str, environment: str, current_A: float | None = None, force_N: float | None = None, bond_limit_ohm: float | None = None, voltage_budget_V: float | None = None) -> Flow[results.Decision]:
    """Judge a couple by drawing texts.

    Judge two surfaces that are named by drawing text, in a known environment. The answer can be cached;
    with the ETag of the answer it is 304 as long as nothing changes.

    first: The first surface as drawing text. Required.
    second: The second surface as drawing text. Required.
    environment: Where they will live, a key of `/v1/environments`. Required.
    first_area_cm2: Wetted area of the first surface.
    second_area_cm2: Wetted area of the second surface.
    geometry: Shape of the wetted joint line. One of: strip, fastener, pipe, immersed.
    fastener_radius_mm: Radius of a round second member.
    bore_mm: Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long
        as its wetted area makes it, one metre without areas.
    functions: What the joint is for. One of: structural, electrical bond, protective earth, power contact,
        signal contact, rf, seal, thermal.
    design_life_years: Life that the joint must reach; the policy's default if absent.
    section_allowance_um: Loss that the section can stand; by function if absent.
    compound: Compound in the joint, a key of `/v1/compounds`.
    joint_temperature_C: Temperature of the joint.
    wear_cycles: Matings or strokes over the life.
    is_isolated: Whether no current can pass between the parts.
    match: How loosely texts may be read. One of: any, strict, exact.
    min_grade: Weakest grade of evidence that may decide, A to E.
    would_change_if: Whether to look for the single input whose change turns the verdict.
    as_of: Label of the release to judge by; the current one if absent.
    current_A: Current through the joint.
    force_N: Contact force.
    bond_limit_ohm: Largest resistance of a bond.
    voltage_budget_V: Largest voltage drop.
    """
    request = Request("GET", "/v1/couples", query={"first_area_cm2": first_area_cm2, "second_area_cm2": second_area_cm2, "geometry": geometry, "fastener_radius_mm": fastener_radius_mm, "bore_mm": bore_mm, "functions": functions, "design_life_years": design_life_years, "section_allowance_um": section_allowance_um, "compound": compound, "joint_temperature_C": joint_temperature_C, "wear_cycles": wear_cycles, "is_isolated": is_isolated, "match": match, "min_grade": min_grade, "would_change_if": would_change_if, "as_of": as_of, "first": first, "second": second, "environment": environment, "current_A": current_A, "force_N": force_N, "bond_limit_ohm": bond_limit_ohm, "voltage_budget_V": voltage_budget_V, "view": "decision"})
    return ask(request, results.Decision)


def judge_couple(**body: Unpack[bodies.CoupleRequest]) -> Flow[results.Answer]:
    """Judge a couple.

    Judge two surfaces that are named by text, by notes or by structure, in any environment.

    first: The first surface. Required.
    second: The second surface. Required.
    environment: Where they will live. Required.
    first_area_cm2: Wetted area of the first surface.
    second_area_cm2: Wetted area of the second surface.
    geometry: Shape of the wetted joint line. One of: strip, fastener, pipe, immersed.
    fastener_radius_mm: Radius of a round second member.
    bore_mm: Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long
        as its wetted area makes it, one metre without areas.
    functions: What the joint is for. One of: structural, electrical bond, protective earth, power contact,
        signal contact, rf, seal, thermal.
    design_life_years: Life that the joint must reach; the policy's default if absent.
    section_allowance_um: Loss that the section can stand; by function if absent.
    compound: Compound in the joint, a key of `/v1/compounds`.
    joint_temperature_C: Temperature of the joint.
    wear_cycles: Matings or strokes over the life.
    is_isolated: Whether no current can pass between the parts.
    match: How loosely texts may be read. One of: any, strict, exact.
    min_grade: Weakest grade of evidence that may decide, A to E.
    would_change_if: Whether to look for the single input whose change turns the verdict.
    as_of: Label of the release to judge by; the current one if absent.
    contact: Electrical duty of the joint.
    """
    request = Request("POST", "/v1/couples", body={**body, "view": "full"}, may_repeat=True)
    return ask(request, results.Answer)


def decide_couple(**body: Unpack[bodies.CoupleRequest]) -> Flow[results.Decision]:
    """Judge a couple.

    Judge two surfaces that are named by text, by notes or by structure, in any environment.

    first: The first surface. Required.
    second: The second surface. Required.
    environment: Where they will live. Required.
    first_area_cm2: Wetted area of the first surface.
    second_area_cm2: Wetted area of the second surface.
    geometry: Shape of the wetted joint line. One of: strip, fastener, pipe, immersed.
    fastener_radius_mm: Radius of a round second member.
    bore_mm: Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long
        as its wetted area makes it, one metre without areas.
    functions: What the joint is for. One of: structural, electrical bond, protective earth, power contact,
        signal contact, rf, seal, thermal.
    design_life_years: Life that the joint must reach; the policy's default if absent.
    section_allowance_um: Loss that the section can stand; by function if absent.
    compound: Compound in the joint, a key of `/v1/compounds`.
    joint_temperature_C: Temperature of the joint.
    wear_cycles: Matings or strokes over the life.
    is_isolated: Whether no current can pass between the parts.
    match: How loosely texts may be read. One of: any, strict, exact.
    min_grade: Weakest grade of evidence that may decide, A to E.
    would_change_if: Whether to look for the single input whose change turns the verdict.
    as_of: Label of the release to judge by; the current one if absent.
    contact: Electrical duty of the joint.
    """
    request = Request("POST", "/v1/couples", body={**body, "view": "decision"}, may_repeat=True)
    return ask(request, results.Decision)


def get_answer(digest: str) -> Flow[results.Answer]:
    """Get an issued answer.

    Serve the stored bytes of an answer, whatever release and engine are current now.

    digest: Digest of the answer. Required.
    """
    request = Request("GET", address("/v1/answers/{digest}", digest=digest), query={"view": "full"})
    return ask(request, results.Answer)


def get_decision(digest: str) -> Flow[results.Decision]:
    """Get an issued answer.

    Serve the stored bytes of an answer, whatever release and engine are current now.

    digest: Digest of the answer. Required.
    """
    request = Request("GET", address("/v1/answers/{digest}", digest=digest), query={"view": "decision"})
    return ask(request, results.Decision)


def answer_today(digest: str) -> Flow[results.AnswerToday]:
    """Put the question of an answer again.

    Answer the same question by the present release and engine, and name what every difference is due to. A
    difference is put down to the changed records among the evidence of the finding that changed; what
    cannot be told so narrowly, to all changed records that can touch the question.

    digest: Digest of the answer. Required.
    """
    request = Request("GET", address("/v1/answers/{digest}/today", digest=digest))
    return ask(request, results.AnswerToday)


def find_alternatives(**body: Unpack[bodies.AlternativesRequest]) -> Flow[results.AlternativesAnswer]:
    """Rank other surfaces.

    Enumerate the surfaces that either side may take, judge every couple and rank what is better. Pareto
    front first, then by the stated weights; what was excluded is counted by reason.

    first: The first surface. Required.
    second: The second surface. Required.
    environment: Where they will live. Required.
    first_area_cm2: Wetted area of the first surface.
    second_area_cm2: Wetted area of the second surface.
    geometry: Shape of the wetted joint line. One of: strip, fastener, pipe, immersed.
    fastener_radius_mm: Radius of a round second member.
    bore_mm: Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long
        as its wetted area makes it, one metre without areas.
    functions: What the joint is for. One of: structural, electrical bond, protective earth, power contact,
        signal contact, rf, seal, thermal.
    design_life_years: Life that the joint must reach; the policy's default if absent.
    section_allowance_um: Loss that the section can stand; by function if absent.
    compound: Compound in the joint, a key of `/v1/compounds`.
    joint_temperature_C: Temperature of the joint.
    wear_cycles: Matings or strokes over the life.
    is_isolated: Whether no current can pass between the parts.
    match: How loosely texts may be read. One of: any, strict, exact.
    min_grade: Weakest grade of evidence that may decide, A to E.
    would_change_if: Whether to look for the single input whose change turns the verdict.
    as_of: Label of the release to judge by; the current one if absent.
    contact: Electrical duty of the joint.
    constraints: What may change and what must be kept.
    limit: Rows of the ranking.
    """
    request = Request("POST", "/v1/alternatives", body=body, may_repeat=True)
    return ask(request, results.AlternativesAnswer)


def find_mitigations(**body: Unpack[bodies.RemedyRequest]) -> Flow[results.MitigationsAnswer]:
    """Rank measures at the joint.

    Apply measures alone and in combinations of up to three, judge each and rank what helps. Measures that
    may not be taken are listed with the reason, and so is what goes wrong when done badly.

    first: The first surface. Required.
    second: The second surface. Required.
    environment: Where they will live. Required.
    first_area_cm2: Wetted area of the first surface.
    second_area_cm2: Wetted area of the second surface.
    geometry: Shape of the wetted joint line. One of: strip, fastener, pipe, immersed.
    fastener_radius_mm: Radius of a round second member.
    bore_mm: Inside diameter of both pipes, of the geometry `pipe` only; 50 mm if absent. Each pipe is as long
        as its wetted area makes it, one metre without areas.
    functions: What the joint is for. One of: structural, electrical bond, protective earth, power contact,
        signal contact, rf, seal, thermal.
    design_life_years: Life that the joint must reach; the policy's default if absent.
    section_allowance_um: Loss that the section can stand; by function if absent.
    compound: Compound in the joint, a key of `/v1/compounds`.
    joint_temperature_C: Temperature of the joint.
    wear_cycles: Matings or strokes over the life.
    is_isolated: Whether no current can pass between the parts.
    match: How loosely texts may be read. One of: any, strict, exact.
    min_grade: Weakest grade of evidence that may decide, A to E.
    would_change_if: Whether to look for the single input whose change turns the verdict.
    as_of: Label of the release to judge by; the current one if absent.
    contact: Electrical duty of the joint.
    constraints: What may change and what must be kept.
    """
    request = Request("POST", "/v1/mitigations", body=body, may_repeat=True)
    return ask(request, results.MitigationsAnswer)


def list_mitigations(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, transform: str | None = None, ends_functions: str | None = None, has_sourced_efficacy: bool | None = None) -> Listing[results.Mitigation]:
    """List mitigations.

    The mitigations of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    transform: Change that is applied to the joint.
    ends_functions: Function that it takes away.
    has_sourced_efficacy: Whether a source shows that it works.
    """
    request = Request("GET", "/v1/mitigations", query={"as_of": as_of, "limit": page_size, "q": q, "transform": transform, "ends_functions": ends_functions, "has_sourced_efficacy": has_sourced_efficacy})
    return Listing(request, results.MitigationPage)


def get_compound_compatibility(id: str) -> Flow[results.CompatibilityAnswer]:
    """Tell what a compound harms and helps.

    List the metals that a compound attacks or protects and the functions that it ends.

    id: Identifier of the compound. Required.
    """
    request = Request("GET", address("/v1/compounds/{id}/compatibility", id=id))
    return ask(request, results.CompatibilityAnswer)


def resolve_texts(**body: Unpack[bodies.ResolveRequest]) -> Flow[results.ResolveResponse]:
    """Read drawing texts.

    Read up to 10,000 texts: material, finish stack, thickness and condition, and how sure that is. A text
    that means nothing known is `unknown` with near names; one that means several things is `ambiguous`
    with all of them. Beyond the first hundred, each further hundred texts count as a request.

    texts: Texts, or objects with notes. Required.
    as_of: Label of the release to read by; the current one if absent.
    """
    request = Request("POST", "/v1/resolve", body=body, may_repeat=True)
    return ask(request, results.ResolveResponse)


def assess_site(**body: Unpack[bodies.SiteRequest]) -> Flow[results.SiteAnswer]:
    """Tell what a place does by itself.

    Give the corrosivity of a place without any couple: what standard metals lose, how wet the year is. The
    place may be a known one or figures; coupons that were exposed in a room are classified beside it.

    environment: The place. Required.
    period_years: Time over which losses are given.
    weighed: Coupons that were weighed.
    filmed: Coupons whose film was measured.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("POST", "/v1/sites/assessment", body=body, may_repeat=True)
    return ask(request, results.SiteAnswer)


def store_assembly(name: str, body: bodies.AssemblyRequest, *, if_match: str | None = None, idempotency_key: str | None = None) -> Flow[results.StoringOutcome]:
    """Keep an assembly under watch.

    Store or replace an assembly and have it judged. It is judged again whenever a release can change what
    was said about it; changed verdicts are lines of `/v1/changes` and go to webhooks.

    name: What the caller calls the assembly. Required.
    if_match: Entity tag of the version that is to be replaced.
    """
    request = Request("PUT", address("/v1/assemblies/stored/{name}", name=name), body=body, headers={"if-match": if_match}, key=idempotency_key or new_key())
    return ask(request, results.StoringOutcome)


def get_stored_assembly(name: str) -> Flow[results.StoredAssemblyWithBody]:
    """Get an assembly under watch.

    Give what was stored, and the last report in brief.

    name: What the caller calls the assembly. Required.
    """
    request = Request("GET", address("/v1/assemblies/stored/{name}", name=name))
    return ask(request, results.StoredAssemblyWithBody)


def remove_stored_assembly(name: str) -> Flow[None]:
    """Take an assembly off the watch.

    Forget an assembly; that its verdicts are withdrawn stays in `/v1/changes`.

    name: What the caller calls the assembly. Required.
    """
    request = Request("DELETE", address("/v1/assemblies/stored/{name}", name=name))
    return ask_nothing(request)


def list_stored_assemblies(*, page_size: int | None = None) -> Listing[results.StoredAssembly]:
    """List the assemblies under watch.

    List the stored assemblies of the caller's tenant, the oldest first.

    page_size: Most assemblies in the page.
    """
    request = Request("GET", "/v1/assemblies/stored", query={"limit": page_size})
    return Listing(request, results.StoredPage)


def get_stored_report(name: str) -> Flow[results.AssemblyReport]:
    """Get the last report on an assembly.

    Give the last report in full, as it was made.

    name: What the caller calls the assembly. Required.
    """
    request = Request("GET", address("/v1/assemblies/stored/{name}/report", name=name))
    return ask(request, results.AssemblyReport)


def check_assembly(**body: Unpack[bodies.AssemblyRequest]) -> Flow[results.AssemblyCheck]:
    """Check a bill of materials.

    Judge every joint of an assembly, its networks, and where it stands against policy. Parts with joints
    as JSON, or files: CSV, XLSX, JSON or NDJSON, one as the body or several in a form. A list without
    joints is judged by assumed contacts, and at both ends of areas that nobody states.

    name: Name of the assembly.
    programme: What holds for all of it.
    zones: Environments by the name of the zone.
    parts: Parts of the assembly.
    joints: Joints between them, beside those of files.
    files: Files that hold parts, joints or both.
    policy: Rules of the house; the default ones if absent.
    stored_policy: Instead of `policy`: a key of `/v1/policies`, in the version in force, or as
        `name@version`.
    as_of: Label of the release to judge by; the programme's or the current one if absent.
    waivers: Waivers that were granted.
    date: Day on which waivers are looked at; today if absent.
    """
    request = Request("POST", "/v1/assemblies/check", body=body, may_repeat=True)
    return ask(request, results.AssemblyCheck)


def check_substitution(**body: Unpack[bodies.SubstitutionRequest]) -> Flow[results.SubstitutionCheck]:
    """Check substitutes for a part.

    Say joint by joint what a substitute changes, and accept, review or reject it by the house's rules.

    part: Part that is to be replaced, by what joints call it or by its number. Required.
    substitutes: What is offered. Required.
    name: Name of the assembly.
    programme: What holds for all of it.
    zones: Environments by the name of the zone.
    parts: Parts of the assembly.
    joints: Joints between them, beside those of files.
    files: Files that hold parts, joints or both.
    policy: Rules of the house; the default ones if absent.
    stored_policy: Instead of `policy`: a key of `/v1/policies`, in the version in force, or as
        `name@version`.
    as_of: Label of the release to judge by; the programme's or the current one if absent.
    """
    request = Request("POST", "/v1/substitutions/check", body=body, may_repeat=True)
    return ask(request, results.SubstitutionCheck)


def list_jobs(*, state: terms.JobState | None = None, kind: terms.JobKind | None = None, page_size: int | None = None) -> Listing[results.JobDocument]:
    """List jobs.

    List the jobs of the caller's tenant, the newest first.

    state: In this state only. One of: queued, running, done, failed, cancelled.
    kind: Of this kind only. One of: batch, assembly, portfolio.
    page_size: Most jobs in the page.
    """
    request = Request("GET", "/v1/jobs", query={"state": state, "kind": kind, "limit": page_size})
    return Listing(request, results.JobPage)


def get_job(job_id: str) -> Flow[results.JobDocument]:
    """Get one job.

    Tell how far a job is and when it may end.

    job_id: Identifier of the job. Required.
    """
    request = Request("GET", address("/v1/jobs/{job_id}", job_id=job_id))
    return ask(request, results.JobDocument)


def cancel_job(job_id: str) -> Flow[results.JobDocument]:
    """Cancel a job.

    Ask for the end of a job: one that waits ends at once, one at work after its chunk. A job that is over
    stays as it is.

    job_id: Identifier of the job. Required.
    """
    request = Request("DELETE", address("/v1/jobs/{job_id}", job_id=job_id))
    return ask(request, results.JobDocument)


def list_changes(*, after: int | None = None, kind: Sequence[str] | None = None, page_size: int | None = None) -> Listing[results.ChangeLine]:
    """Read what has changed.

    Give the lines of the feed after a serial: those for everybody and those of the caller's tenant.
    Serials grow and are never given twice; some are left out, because they are not the caller's. Lines
    about what is gone stay. Keep `after` and ask again.

    after: Serial of the last line that the caller has seen.
    kind: Only these kinds: `verdicts.created`, `verdicts.corrected`, `verdicts.regraded`,
        `verdicts.withdrawn` (of stored assemblies), `release.published`, `release.imported`, `overlay.misfit`
        (the own overlay names what a release does not hold), `webhook.disabled`.
    page_size: Most lines in the page.
    """
    request = Request("GET", "/v1/changes", query={"after": after, "kind": kind, "limit": page_size})
    return Listing(request, results.ChangePage)


def create_webhook(*, idempotency_key: str | None = None, **body: Unpack[bodies.WebhookRequest]) -> Flow[results.NewWebhook]:
    """Have changes sent to an address.

    Register an address. Messages are signed by Standard Webhooks with the secret of this answer. Each
    message comes at least once, with the same `webhook-id` when it comes again; what is answered otherwise
    than 2xx is tried for two days, and 410 ends it.

    url: Public https address. Required.
    events: Kinds of changes: `verdicts.created`, `verdicts.corrected`, `verdicts.regraded`,
        `verdicts.withdrawn` (of stored assemblies), `release.published`, `release.imported`, `overlay.misfit`
        (the own overlay names what a release does not hold), `webhook.disabled`; `*` for all. Required.
    after: Serial after which it is told; what happens from now on if absent.
    """
    request = Request("POST", "/v1/webhooks", body=body, key=idempotency_key or new_key())
    return ask(request, results.NewWebhook)


def list_webhooks() -> Flow[results.WebhookList]:
    """List webhooks.

    List the webhooks of the caller's tenant, without their secrets.
    """
    request = Request("GET", "/v1/webhooks")
    return ask(request, results.WebhookList)


def get_webhook(webhook_id: str) -> Flow[results.Webhook]:
    """Get one webhook.

    Tell where a webhook stands.

    webhook_id: Identifier of the webhook. Required.
    """
    request = Request("GET", address("/v1/webhooks/{webhook_id}", webhook_id=webhook_id))
    return ask(request, results.Webhook)


def delete_webhook(webhook_id: str) -> Flow[None]:
    """Remove a webhook.

    Stop telling an address, and forget what was due to it.

    webhook_id: Identifier of the webhook. Required.
    """
    request = Request("DELETE", address("/v1/webhooks/{webhook_id}", webhook_id=webhook_id))
    return ask_nothing(request)


def list_webhook_deliveries(webhook_id: str, *, state: str | None = None, page_size: int | None = None) -> Listing[results.WebhookDelivery]:
    """List the messages to a webhook.

    List messages, the newest first, and how sending them went.

    webhook_id: Identifier of the webhook. Required.
    state: `due`, `delivered` or `given up`.
    page_size: Most messages in the page.
    """
    request = Request("GET", address("/v1/webhooks/{webhook_id}/deliveries", webhook_id=webhook_id), query={"state": state, "limit": page_size})
    return Listing(request, results.DeliveryPage)


def replay_webhook(webhook_id: str, **body: Unpack[bodies.ReplayRequest]) -> Flow[results.Webhook]:
    """Send changes again.

    Send everything after a serial again, and take a webhook up that was given up.

    webhook_id: Identifier of the webhook. Required.
    after: Serial after which everything is sent again. Required.
    """
    request = Request("POST", address("/v1/webhooks/{webhook_id}/replay", webhook_id=webhook_id), body=body, may_repeat=True)
    return ask(request, results.Webhook)


def list_materials(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, family: str | None = None, electrode_id: str | None = None, temper: str | None = None, is_conductive: bool | None = None, source_id: str | None = None) -> Listing[results.Material]:
    """List materials.

    The materials of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    family: Family of the material.
    electrode_id: Electrode that an electrolyte sees.
    temper: Temper.
    is_conductive: Whether it conducts.
    source_id: Source of the record.
    """
    request = Request("GET", "/v1/materials", query={"as_of": as_of, "limit": page_size, "q": q, "family": family, "electrode_id": electrode_id, "temper": temper, "is_conductive": is_conductive, "source_id": source_id})
    return Listing(request, results.MaterialPage)


def get_material(id: str, *, as_of: str | None = None) -> Flow[results.Material]:
    """Get one material.

    One material of a release.

    id: Identifier of the material. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/materials/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Material)


def list_finishes(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, role: terms.FinishRole | None = None, outer_electrode_id: str | None = None, is_conductive: bool | None = None, contact_grade: bool | None = None, solderable: str | None = None, rohs: str | None = None, substances: str | None = None, specifications: str | None = None, source_id: str | None = None) -> Listing[results.Finish]:
    """List finishes.

    The finishes of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    role: What it does to the surface. One of: bare, metallic, conversion, passivation, anodic, organic.
    outer_electrode_id: Electrode that the electrolyte sees.
    is_conductive: Whether current passes through it.
    contact_grade: Whether it serves as a contact.
    solderable: `yes`, `limited` or `no`.
    rohs: Standing under the RoHS directive.
    substances: Regulated substance that it holds or needs.
    specifications: Specification that calls it up.
    source_id: Source of the record.
    """
    request = Request("GET", "/v1/finishes", query={"as_of": as_of, "limit": page_size, "q": q, "role": role, "outer_electrode_id": outer_electrode_id, "is_conductive": is_conductive, "contact_grade": contact_grade, "solderable": solderable, "rohs": rohs, "substances": substances, "specifications": specifications, "source_id": source_id})
    return Listing(request, results.FinishPage)


def get_finish(id: str, *, as_of: str | None = None) -> Flow[results.Finish]:
    """Get one finish.

    One finish of a release.

    id: Identifier of the finish. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/finishes/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Finish)


def list_compounds(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, kind: str | None = None, is_conductive: bool | None = None, attacks: str | None = None, helps: str | None = None, source_id: str | None = None) -> Listing[results.Compound]:
    """List compounds.

    The compounds of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    kind: Kind of compound.
    is_conductive: Whether it conducts.
    attacks: Family that it harms.
    helps: Family that it protects.
    source_id: Source of the record.
    """
    request = Request("GET", "/v1/compounds", query={"as_of": as_of, "limit": page_size, "q": q, "kind": kind, "is_conductive": is_conductive, "attacks": attacks, "helps": helps, "source_id": source_id})
    return Listing(request, results.CompoundPage)


def get_compound(id: str, *, as_of: str | None = None) -> Flow[results.Compound]:
    """Get one compound.

    One compound of a release.

    id: Identifier of the compound. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/compounds/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Compound)


def list_environments(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, exposure: terms.Exposure | None = None, electrolyte_class: terms.ElectrolyteClass | None = None, screening_class: str | None = None, iso9223_category: str | None = None, tags: str | None = None) -> Listing[results.Environment]:
    """List environments.

    The environments of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    exposure: How the electrolyte meets the joint. One of: immersed, atmosphere, splash, indoor, enclosure,
        soil, concrete.
    electrolyte_class: Family of its electrolyte. One of: chloride, fresh, alkaline, acid, complexing, none.
    screening_class: Which permissible difference applies.
    iso9223_category: Corrosivity category of ISO 9223.
    tags: Fact that rules ask for.
    """
    request = Request("GET", "/v1/environments", query={"as_of": as_of, "limit": page_size, "q": q, "exposure": exposure, "electrolyte_class": electrolyte_class, "screening_class": screening_class, "iso9223_category": iso9223_category, "tags": tags})
    return Listing(request, results.EnvironmentPage)


def get_environment(id: str, *, as_of: str | None = None) -> Flow[results.Environment]:
    """Get one environment.

    One environment of a release.

    id: Identifier of the environment. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/environments/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Environment)


def list_electrolytes(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, electrolyte_class: terms.ElectrolyteClass | None = None) -> Listing[results.Electrolyte]:
    """List electrolytes.

    The electrolytes of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    electrolyte_class: Family of the electrolyte. One of: chloride, fresh, alkaline, acid, complexing, none.
    """
    request = Request("GET", "/v1/electrolytes", query={"as_of": as_of, "limit": page_size, "q": q, "electrolyte_class": electrolyte_class})
    return Listing(request, results.ElectrolytePage)


def get_electrolyte(id: str, *, as_of: str | None = None) -> Flow[results.Electrolyte]:
    """Get one electrolyte.

    One electrolyte of a release.

    id: Identifier of the electrolyte. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/electrolytes/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Electrolyte)


def list_electrodes(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, family: str | None = None, iso9223_metal: str | None = None, is_inert: bool | None = None) -> Listing[results.Electrode]:
    """List electrodes.

    The electrodes of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    family: Family of the metals that it stands for.
    iso9223_metal: Standard metal whose rate in air it follows.
    is_inert: Whether it does not dissolve.
    """
    request = Request("GET", "/v1/electrodes", query={"as_of": as_of, "limit": page_size, "q": q, "family": family, "iso9223_metal": iso9223_metal, "is_inert": is_inert})
    return Listing(request, results.ElectrodePage)


def get_electrode(id: str, *, as_of: str | None = None) -> Flow[results.Electrode]:
    """Get one electrode.

    One electrode of a release.

    id: Identifier of the electrode. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/electrodes/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Electrode)


def list_kinetics(*, as_of: str | None = None, page_size: int | None = None, electrode_id: str | None = None, state: terms.ElectrodeState | None = None, electrolyte_class: terms.ElectrolyteClass | None = None, source_id: str | None = None) -> Listing[results.Kinetics]:
    """List kinetics.

    The kinetics of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    electrode_id: Electrode that they describe.
    state: State of the surface. One of: active, passive, pitting, ennobled.
    electrolyte_class: Electrolytes for which they hold. One of: chloride, fresh, alkaline, acid, complexing,
        none.
    source_id: Source of the record.
    """
    request = Request("GET", "/v1/kinetics", query={"as_of": as_of, "limit": page_size, "electrode_id": electrode_id, "state": state, "electrolyte_class": electrolyte_class, "source_id": source_id})
    return Listing(request, results.KineticsPage)


def get_set_of_kinetics(id: str, *, as_of: str | None = None) -> Flow[results.Kinetics]:
    """Get one set of kinetics.

    One set of kinetics of a release.

    id: Identifier of the set of kinetics. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/kinetics/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Kinetics)


def list_measurements(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, subject_kind: str | None = None, subject_id: str | None = None, quantity: str | None = None, scale_id: str | None = None, electrolyte_id: str | None = None, obtained: str | None = None, source_id: str | None = None) -> Listing[results.Measurement]:
    """List measurements.

    The measurements of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    subject_kind: Kind of thing that was measured.
    subject_id: Identifier of what was measured.
    quantity: What was measured.
    scale_id: Published series that the figure belongs to.
    electrolyte_id: Solution in which it was measured.
    obtained: How the figure was obtained.
    source_id: Source of the figure.
    """
    request = Request("GET", "/v1/measurements", query={"as_of": as_of, "limit": page_size, "q": q, "subject_kind": subject_kind, "subject_id": subject_id, "quantity": quantity, "scale_id": scale_id, "electrolyte_id": electrolyte_id, "obtained": obtained, "source_id": source_id})
    return Listing(request, results.MeasurementPage)


def get_measurement(id: str, *, as_of: str | None = None) -> Flow[results.Measurement]:
    """Get one measurement.

    One measurement of a release.

    id: Identifier of the measurement. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/measurements/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Measurement)


def list_sources(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, kind: str | None = None, status: terms.SourceStatus | None = None, year: int | None = None) -> Listing[results.Source]:
    """List sources.

    The sources of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    kind: Kind of publication.
    status: Standing of the publication. One of: active, superseded, withdrawn, guidance, unknown.
    year: Year of publication.
    """
    request = Request("GET", "/v1/sources", query={"as_of": as_of, "limit": page_size, "q": q, "kind": kind, "status": status, "year": year})
    return Listing(request, results.SourcePage)


def get_source(id: str, *, as_of: str | None = None) -> Flow[results.Source]:
    """Get one source.

    One source of a release.

    id: Identifier of the source. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/sources/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Source)


def list_scales(*, as_of: str | None = None, page_size: int | None = None, kind: str | None = None, electrolyte_class: terms.ElectrolyteClass | None = None) -> Listing[results.Scale]:
    """List scales.

    The scales of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    kind: `potential`, `index` or `rank`.
    electrolyte_class: Electrolytes for which it may be used. One of: chloride, fresh, alkaline, acid,
        complexing, none.
    """
    request = Request("GET", "/v1/scales", query={"as_of": as_of, "limit": page_size, "kind": kind, "electrolyte_class": electrolyte_class})
    return Listing(request, results.ScalePage)


def get_scale(id: str, *, as_of: str | None = None) -> Flow[results.Scale]:
    """Get one scale.

    One scale of a release.

    id: Identifier of the scale. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/scales/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Scale)


def list_permissible_differences(*, as_of: str | None = None, page_size: int | None = None, scale_id: str | None = None, screening_class: str | None = None) -> Listing[results.PermissibleDifference]:
    """List permissible differences.

    The permissible differences of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    scale_id: Scale on which the difference is taken.
    screening_class: Severity of service.
    """
    request = Request("GET", "/v1/permissible-differences", query={"as_of": as_of, "limit": page_size, "scale_id": scale_id, "screening_class": screening_class})
    return Listing(request, results.PermissibleDifferencePage)


def get_permissible_difference(id: str, *, as_of: str | None = None) -> Flow[results.PermissibleDifference]:
    """Get one permissible difference.

    One permissible difference of a release.

    id: Identifier of the permissible difference. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/permissible-differences/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.PermissibleDifference)


def list_rules(*, as_of: str | None = None, page_size: int | None = None, q: str | None = None, kind: terms.RuleKind | None = None, severity: str | None = None, refuses: bool | None = None, affects: str | None = None) -> Listing[results.Rule]:
    """List rules.

    The rules of a release in the order of their identifiers.

    as_of: Label of the release to read; the current one if absent.
    page_size: Most items in this page.
    q: Words that identifier, name, designation or specification must hold.
    kind: Which witness evaluates it. One of: mandatory, reversal, experience, hazard, crevice, cathode
        damage.
    severity: `none`, `slight`, `moderate` or `severe`.
    refuses: Whether it alone refuses a couple.
    affects: Function of a joint that it concerns.
    """
    request = Request("GET", "/v1/rules", query={"as_of": as_of, "limit": page_size, "q": q, "kind": kind, "severity": severity, "refuses": refuses, "affects": affects})
    return Listing(request, results.RulePage)


def get_rule(id: str, *, as_of: str | None = None) -> Flow[results.Rule]:
    """Get one rule.

    One rule of a release.

    id: Identifier of the rule. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/rules/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Rule)


def get_mitigation(id: str, *, as_of: str | None = None) -> Flow[results.Mitigation]:
    """Get one mitigation.

    One mitigation of a release.

    id: Identifier of the mitigation. Required.
    as_of: Label of the release to read; the current one if absent.
    """
    request = Request("GET", address("/v1/mitigations/{id}", id=id), query={"as_of": as_of})
    return ask(request, results.Mitigation)


def list_releases(*, page_size: int | None = None) -> Listing[results.Release]:
    """List releases.

    List the releases, the newest first.

    page_size: Most items in this page.
    """
    request = Request("GET", "/v1/releases", query={"limit": page_size})
    return Listing(request, results.ReleasePage)


def publish_release(*, idempotency_key: str | None = None, **body: Unpack[bodies.PublicationRequest]) -> Flow[results.Publication]:
    """Publish what is approved.

    Bring every approved proposal that fits into the knowledge base and publish it as a release. A proposal
    whose record has changed since it was made is left out, as is one whose record would name what is not
    there. This process answers by the new release at once, others within seconds.

    label: Label; absent, the date and a number make one.
    note: What it is about.
    """
    request = Request("POST", "/v1/releases", body=body, key=idempotency_key or new_key())
    return ask(request, results.Publication)


def preview_publication() -> Flow[results.PublicationPreview]:
    """See what would be published.

    Tell which approved proposals would come out, what would differ, and what stored work it can touch.
    """
    request = Request("GET", "/v1/publication")
    return ask(request, results.PublicationPreview)


def get_release(label: str) -> Flow[results.Release]:
    """Get one release.

    Tell who published a release, when, and what its content hash is.

    label: Label of the release. Required.
    """
    request = Request("GET", address("/v1/releases/{label}", label=label))
    return ask(request, results.Release)


def compare_releases(label: str, *, since: str, table: str | None = None) -> Flow[results.ReleaseDifference]:
    """Compare a release with an earlier one.

    List every field that changed between two releases, and the records that came or went.

    label: Label of the release. Required.
    since: Label of the earlier release. Required.
    table: Table to keep to.
    """
    request = Request("GET", address("/v1/releases/{label}/difference", label=label), query={"since": since, "table": table})
    return ask(request, results.ReleaseDifference)


def propose_change(*, idempotency_key: str | None = None, **body: Unpack[bodies.ProposalRequest]) -> Flow[results.Proposal]:
    """Propose a new or changed record.

    Propose a figure with its source, or any other record. Nothing changes until a different key has
    approved it and a release brings it out. A record may name another one that is only proposed so far: a
    figure its new source.

    table: Table of the record. Required.
    record: Fields of the record. With a key those that change; without, all of them. A figure names its
        source, which may itself be proposed. Required.
    reason: Why, for whoever reviews it. Required.
    key: Key of the record that is to change; absent for a new one. One text, or two or three where several
        fields together are the key.
    """
    request = Request("POST", "/v1/proposals", body=body, key=idempotency_key or new_key())
    return ask(request, results.Proposal)


def list_proposals(*, state: str | None = None, kind: str | None = None, table: str | None = None, key: str | None = None, proposed_by: str | None = None, page_size: int | None = None) -> Listing[results.Proposal]:
    """List proposals.

    List proposals of all authors, the oldest first.

    state: Only those in this state.
    kind: Only those of this kind.
    table: Only those about this table.
    key: Only those about the record with this key.
    proposed_by: Only those made with the API key of this identifier.
    page_size: Most proposals in the page.
    """
    request = Request("GET", "/v1/proposals", query={"state": state, "kind": kind, "table": table, "key": key, "proposed_by": proposed_by, "limit": page_size})
    return Listing(request, results.ProposalPage)


def propose_withdrawal(*, idempotency_key: str | None = None, **body: Unpack[bodies.WithdrawalRequest]) -> Flow[results.Proposal]:
    """Propose to withdraw a record.

    Propose that a record be used no longer; it takes the same way as any proposal. A measurement or a set
    of kinetics stays, is shown with the reason and never used; other records go, if nothing names them.

    table: Table of the record. Required.
    key: Key of the record. Required.
    reason: Why; it is shown wherever the figure is. Required.
    """
    request = Request("POST", "/v1/withdrawals", body=body, key=idempotency_key or new_key())
    return ask(request, results.Proposal)


def get_proposal(proposal_id: str) -> Flow[results.ProposalDetail]:
    """Get one proposal.

    Show a proposal with everything that was said of it.

    proposal_id: Identifier of the proposal. Required.
    """
    request = Request("GET", address("/v1/proposals/{proposal_id}", proposal_id=proposal_id))
    return ask(request, results.ProposalDetail)


def comment_on_proposal(proposal_id: str, *, idempotency_key: str | None = None, **body: Unpack[bodies.CommentRequest]) -> Flow[results.ProposalDetail]:
    """Remark on a proposal.

    Add a remark, whatever has become of the proposal.

    proposal_id: Identifier of the proposal. Required.
    text: The remark. Required.
    """
    request = Request("POST", address("/v1/proposals/{proposal_id}/comments", proposal_id=proposal_id), body=body, key=idempotency_key or new_key())
    return ask(request, results.ProposalDetail)


def review_proposal(proposal_id: str, *, idempotency_key: str | None = None, **body: Unpack[bodies.ReviewRequest]) -> Flow[results.ProposalDetail]:
    """Approve or reject a proposal.

    Decide on an open proposal that was made with a different key; the next release brings it out.

    proposal_id: Identifier of the proposal. Required.
    decision: `approve` or `reject`. Required.
    text: Why; a rejection needs it.
    """
    request = Request("POST", address("/v1/proposals/{proposal_id}/review", proposal_id=proposal_id), body=body, key=idempotency_key or new_key())
    return ask(request, results.ProposalDetail)


def retract_proposal(proposal_id: str, *, idempotency_key: str | None = None, **body: Unpack[bodies.RetractionRequest]) -> Flow[results.ProposalDetail]:
    """Take a proposal back.

    Take back a proposal of the caller's own that no release has brought out.

    proposal_id: Identifier of the proposal. Required.
    reason: Why. Required.
    """
    request = Request("POST", address("/v1/proposals/{proposal_id}/retraction", proposal_id=proposal_id), body=body, key=idempotency_key or new_key())
    return ask(request, results.ProposalDetail)


def get_overlay() -> Flow[results.OverlayDocument]:
    """Get the own overlay.

    Show what the caller's tenant lays on top of every release; nobody else can see it.
    """
    request = Request("GET", "/v1/overlay")
    return ask(request, results.OverlayDocument)


def replace_overlay(*, if_match: str | None = None, idempotency_key: str | None = None, **body: Unpack[bodies.OverlayReplacement]) -> Flow[results.OverlayDocument]:
    """Replace the own overlay.

    Put new rows in the place of all that are there; no rows mean no overlay. It is in force for every
    query of the tenant at once, on other processes within seconds, also for queries `as_of` an earlier
    release. It is checked against the current release.

    rows: Every row; what is not among them goes. Required.
    if_match: Entity tag of the overlay that is to be changed.
    """
    request = Request("PUT", "/v1/overlay", body=body, headers={"if-match": if_match}, key=idempotency_key or new_key())
    return ask(request, results.OverlayDocument)


def change_overlay(*, if_match: str | None = None, idempotency_key: str | None = None, **body: Unpack[bodies.OverlayChange]) -> Flow[results.OverlayDocument]:
    """Change rows of the own overlay.

    Take rows away and put others, together or not at all: a material with the names drawings give it.

    if_match: Entity tag of the overlay that is to be changed.
    put: Rows to add, or to replace where the key is there already.
    remove: Rows to take away first.
    """
    request = Request("POST", "/v1/overlay/changes", body=body, headers={"if-match": if_match}, key=idempotency_key or new_key())
    return ask(request, results.OverlayDocument)


def store_policy(name: str, body: bodies.PolicyRequest, *, if_match: str | None = None, idempotency_key: str | None = None) -> Flow[results.PolicyOutcome]:
    """Keep a policy of the house.

    Store a policy, or a new version of it; the same content again makes no version. Checks that name it in
    `stored_policy` are decided by the version in force, and say by which; a `name@version` stays with that
    one. Stored assemblies that name it are judged again.

    name: What the caller calls the policy. Required.
    if_match: Entity tag of the version that the new one follows.
    """
    request = Request("PUT", address("/v1/policies/{name}", name=name), body=body, headers={"if-match": if_match}, key=idempotency_key or new_key())
    return ask(request, results.PolicyOutcome)


def get_policy(name: str, *, version: int | None = None) -> Flow[results.StoredPolicyWithBody]:
    """Get a policy of the house.

    Give the version in force or an earlier one; earlier ones stay after a policy is removed.

    name: What the caller calls the policy. Required.
    version: An earlier version; the one in force if absent.
    """
    request = Request("GET", address("/v1/policies/{name}", name=name), query={"version": version})
    return ask(request, results.StoredPolicyWithBody)


def remove_policy(name: str) -> Flow[None]:
    """Remove a policy of the house.

    Take a policy out of force; its versions can still be read, and be named as `name@version`.

    name: What the caller calls the policy. Required.
    """
    request = Request("DELETE", address("/v1/policies/{name}", name=name))
    return ask_nothing(request)


def list_policies(*, page_size: int | None = None) -> Listing[results.StoredPolicy]:
    """List the policies of the house.

    List the stored policies of the caller's tenant by name, each in the version that is in force.

    page_size: Most policies in the page.
    """
    request = Request("GET", "/v1/policies", query={"limit": page_size})
    return Listing(request, results.PolicyPage)


def list_audit(*, actor: str | None = None, subject_kind: str | None = None, subject_id: str | None = None, page_size: int | None = None) -> Listing[results.AuditEntry]:
    """Read the audit trail.

    List steps, the newest first: those on the shared knowledge base and those of the caller's tenant. The
    database itself refuses to change or delete a line.

    actor: Only what was done with this API key.
    subject_kind: Only what was done to this kind of thing.
    subject_id: Only what was done to this thing.
    page_size: Most lines in the page.
    """
    request = Request("GET", "/v1/audit", query={"actor": actor, "subject_kind": subject_kind, "subject_id": subject_id, "limit": page_size})
    return Listing(request, results.AuditPage)


def check_health() -> Flow[results.Health]:
    """Is the process alive?

    Answer as long as the process runs, whatever else is wrong.
    """
    request = Request("GET", "/healthz")
    return ask(request, results.Health)


def check_readiness() -> Flow[results.Readiness]:
    """Can it answer?

    Say whether a release is open and the database answers, and what is missing if not. Without its
    database the service is `degraded`: it answers from the release in memory and refuses what has to be
    written.
    """
    request = Request("GET", "/readyz")
    return ask(request, results.Readiness)


def get_limits() -> Flow[results.ServiceLimits]:
    """Get the limits of the service.

    Tell how large and how frequent requests may be. Published limits on potential differences are at
    `/v1/permissible-differences`.
    """
    request = Request("GET", "/v1/limits")
    return ask(request, results.ServiceLimits)
