"""The report as plain JSON values: the shape that routes, exports and pages show."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict
from typing import Any

from service.assemblies.assembly import Assembly, Place
from service.assemblies.judged import JudgedJoint, by_part
from service.assemblies.networks import Against, AssemblyNetwork, PartInNetwork
from service.assemblies.outcomes import URGENCY, canonical
from service.assemblies.parts import Part
from service.assemblies.report import Report
from service.callouts.reading import Match, Reading
from service.catalogue.records import Environment
from service.judgement import ENGINE_VERSION, Severity, Verdict
from service.judgement.severity import worst
from service.judgement.surface_names import surface_name

MOST_CANDIDATES = 5
"""Readings that are listed for a text that was not settled."""

MOST_ALIKE = 20
"""Pairs that are listed for a joint that stands for many."""


def sections_of(report: Report) -> dict[str, list[bytes]]:
    """Members of the report, without its hash, as pieces of canonical JSON."""
    joints = by_part(report.joints)
    in_networks = {each.finding.part: each for network in report.networks for each in network.parts}
    programme = report.assembly.programme
    sections = {
        "release": {"label": report.catalogue.label, "content_hash": report.catalogue.content_hash},
        "engine": ENGINE_VERSION,
        "policy": {"name": report.policy.name, "sha256": report.policy.digest()},
        "name": report.assembly.name,
        "programme": {
            **{name: value for name, value in asdict(programme).items() if name != "environment"},
            "environment": place_name(programme.environment),
        },
        "totals": report.totals,
        "networks": [_network(network) for network in report.networks],
        "unresolved": _unresolved(report, joints),
        "assumptions": _assumptions(report),
        "faults": [asdict(fault) for fault in report.assembly.faults],
    }
    return {
        **{name: [canonical(section)] for name, section in sections.items()},
        "joints": _list(_joint(item, report.assembly, in_networks) for item in report.joints),
        "parts": _list(_parts(report, joints, in_networks)),
    }


def _list(rows: Iterable[Mapping[str, Any]]) -> list[bytes]:
    """Pieces of a list; its rows are written one by one, so that only one is there as values."""
    pieces = [b"["]
    for row in rows:
        pieces += (canonical(row), b",")
    return [*pieces[: max(len(pieces) - 1, 1)], b"]"]


def place_name(place: Place) -> str:
    """Identifier of an environment, or the name of one built from figures."""
    return place.name if isinstance(place, Environment) else place


def _joint(item: JudgedJoint, assembly: Assembly, in_networks: Mapping[str, PartInNetwork]) -> dict[str, Any]:
    joint = item.joint
    worst_case = item.worst
    return {
        "joint": joint.id,
        "name": joint.name,
        "first": _end(assembly.parts[joint.first]),
        "second": _end(assembly.parts[joint.second]),
        "is_assumed": joint.is_assumed,
        "basis": joint.basis or "stated",
        "stands_for_pairs": len(joint.pairs),
        "alike": [list(pair) for pair in joint.alike[:MOST_ALIKE]],
        "functions": [function.value for function in joint.functions],
        "geometry": joint.geometry.value,
        "compound": joint.compound or None,
        "is_isolated": joint.is_isolated,
        "verdict": item.verdict.value,
        "severity": item.severity.value if item.severity else "unknown",
        "depends_on_case": item.depends_on_case,
        "deciding_case": worst_case[0].end or "as stated" if worst_case else None,
        **_brief(item),
        "cases": [
            {
                "case": case.end or "as stated",
                "environment": place_name(case.inquiry.environment),
                "areas_cm2": outcome.brief["areas_cm2"],
                "verdict": outcome.verdict.value,
                "severity": outcome.brief["severity"],
                "anode": outcome.brief["anode"]["side"],
                "answer_sha256": outcome.answer_sha256,
            }
            for case, outcome in item.cases
        ],
        "not_judged": [asdict(refusal) for refusal in item.refusals],
        "in_network": _ends_in_network(item, in_networks),
        "line": joint.line,
    }


_SHOWN = (
    "confidence",
    "line",
    "deciding_witness",
    "dissenting_witnesses",
    "anode",
    "surfaces",
    "environment",
    "design_life_years",
    "loss",
    "conditions",
    "cautions",
    "hazards",
    "warnings",
    "missing",
    "question",
)


def _brief(item: JudgedJoint) -> dict[str, Any]:
    """What the deciding answer says, under ``why`` for its line."""
    if item.worst is None:
        detail = "; ".join(refusal.detail for refusal in item.refusals)
        return {name: None for name in _SHOWN if name != "line"} | {
            "why": f"Not judged: {detail}.",
            "missing": [refusal.detail for refusal in item.refusals],
            "conditions": [],
            "cautions": [],
            "hazards": [],
            "warnings": [],
            "dissenting_witnesses": [],
        }
    brief = item.worst[1].brief
    return {("why" if name == "line" else name): brief[name] for name in _SHOWN}


def _end(part: Part) -> dict[str, Any]:
    return {
        "part": part.id,
        "number": part.number or part.id,
        "revision": part.revision,
        "effectivity": part.effectivity,
        "description": part.description,
    }


def _ends_in_network(item: JudgedJoint, in_networks: Mapping[str, PartInNetwork]) -> dict[str, Any] | None:
    """What the networks of both ends change about the joint; ``None`` where neither was solved."""
    ends = [in_networks.get(end) for end in (item.joint.first, item.joint.second)]
    if not any(ends):
        return None
    return {
        side: {
            "effect": each.finding.effect.value,
            "severity": each.finding.severity.value,
            "against_couple": each.against.value,
        }
        if each
        else None
        for side, each in zip(("first", "second"), ends, strict=True)
    }


def _parts(
    report: Report, joined: Mapping[str, list[JudgedJoint]], in_networks: Mapping[str, PartInNetwork]
) -> Iterator[dict[str, Any]]:
    """Rows of parts by their worst joint; among equals, those first that their network treats worse."""

    def urgency(part: Part) -> tuple[int, int, int]:
        verdict, severity = _worst(joined.get(part.id, []))
        in_network = in_networks.get(part.id)
        is_driven = in_network is not None and in_network.against is Against.WORSE
        return (
            URGENCY.index(verdict) if verdict else len(URGENCY),
            0 if is_driven and not in_networks[part.id].is_sacrificial else 1,
            -(severity.rank if severity is not None else -1),
        )

    for part in sorted(report.assembly.parts.values(), key=urgency):
        yield _part(part, report, joined.get(part.id, []), in_networks.get(part.id))


def _worst(joints: list[JudgedJoint]) -> tuple[Verdict | None, Severity | None]:
    """Worst verdict and severity of the joints of a part."""
    verdict = min((item.verdict for item in joints), key=URGENCY.index, default=None)
    severities = [item.severity for item in joints if item.severity is not None]
    return verdict, worst(severities) if severities else None


def _part(
    part: Part, report: Report, joints: list[JudgedJoint], in_network: PartInNetwork | None
) -> dict[str, Any]:
    reading = report.surfaces.reading(part)
    surface = report.surfaces.surface(part)
    verdict, severity = _worst(joints)
    return {
        **_end(part),
        "parent": part.parent,
        "quantity": part.quantity,
        "zone": report.assembly.zone_of(part) or None,
        "text": part.text or "; ".join(filter(None, (part.material, part.finish))) or None,
        "match": reading.match.value if reading else None,
        "surface": surface_name(surface, report.catalogue) if surface else None,
        "verdict": verdict.value if verdict else None,
        "severity": severity.value if severity is not None else None,
        "joints": [item.joint.id for item in joints],
        "network": _part_in_network(in_network) if in_network else None,
        "assumptions": [*part.assumptions, *(_taken(reading) if reading else ())],
        "line": part.line,
    }


def _taken(reading: Reading) -> tuple[str, ...]:
    return reading.candidates[0].assumptions if reading.candidates else ()


def _part_in_network(each: PartInNetwork) -> dict[str, Any]:
    finding = asdict(each.finding)
    finding["partners"] = [{"part": name, "share": share} for name, share in each.finding.partners]
    return {
        **finding,
        "effect": each.finding.effect.value,
        "severity": each.finding.severity.value,
        "couple_severity": each.couple_severity.value if each.couple_severity is not None else None,
        "against_couples": each.against.value,
        "is_sacrificial": each.is_sacrificial,
    }


def _network(item: AssemblyNetwork) -> dict[str, Any]:
    network = item.network
    return {
        "network": item.number,
        "environment": {"id": network.environment.id, "name": network.environment.name},
        "members": [member.part for member in network.members],
        "abstains": network.abstains or None,
        "left_out": [{"part": part, "reason": reason} for part, reason in network.left_out],
        "is_complete": bool(network.solutions) and not network.left_out,
        "states": [solution.name for solution in network.solutions],
        "parts": [_part_in_network(each) for each in item.parts],
        "assumptions": list(item.assumptions),
    }


def _unresolved(report: Report, joined: Mapping[str, list[JudgedJoint]]) -> list[dict[str, Any]]:
    """Texts that were not settled, once each, with the parts that bear them."""
    found: dict[str, dict[str, Any]] = {}
    for part in report.assembly.parts.values():
        reading = report.surfaces.reading(part)
        if reading is None or reading.is_insulator or reading.match in {Match.EXACT, Match.NORMALISED}:
            continue
        text = " | ".join(reading.text.split("\n")).strip(" |")
        entry = found.setdefault(
            text,
            {
                "text": text,
                "match": reading.match.value,
                "question": reading.question or None,
                "candidates": [
                    {
                        "surface": surface_name(candidate.surface, report.catalogue),
                        "material_id": candidate.surface.material_id,
                        "finish_ids": [layer.finish_id for layer in candidate.surface.layers],
                        "confidence": round(candidate.confidence, 3),
                        "assumptions": list(candidate.assumptions),
                    }
                    for candidate in reading.candidates[:MOST_CANDIDATES]
                ],
                "suggestions": list(reading.suggestions),
                "parts": [],
                "joints": 0,
                "decides": False,
            },
        )
        entry["parts"].append(part.id)
        entry["joints"] += len(joined.get(part.id, ()))
        entry["decides"] |= any(item.verdict is Verdict.UNDETERMINED for item in joined.get(part.id, ()))
    order = {match.value: place for place, match in enumerate(reversed(tuple(Match)))}
    return sorted(
        found.values(), key=lambda entry: (not entry["decides"], order[entry["match"]], entry["text"])
    )


def _assumptions(report: Report) -> dict[str, Any]:
    parts = report.assembly.parts.values()
    return {
        "contacts": list(report.contacts.assumptions) if report.contacts else [],
        "contacts_not_assumed_under": list(report.contacts.too_many) if report.contacts else [],
        "parts_without_surface": [part.id for part in parts if not part.names_surface],
        "insulators": [part.id for part in parts if report.surfaces.is_insulator(part)],
        "never_together": list(report.never_together),
    }
