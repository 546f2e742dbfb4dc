"""Tables of what could be done instead: alternatives and measures, before and after."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from service.callouts import format_surface
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement import DEFAULT_POLICY, Inquiry, Verdict
from service.judgement.surface_names import capitalised, in_sentence
from service.remedies import (
    Constraints,
    alternatives_document,
    find_alternatives,
    find_mitigations,
    mitigations_document,
    starting_point,
)
from service.remedies.measures import life_of
from service.remedies.starting_point import StartingPoint

Address = Callable[[str, str], str]
Table = dict[str, Any]
SIDES = ("first", "second")
_ORDER = {verdict.value: place for place, verdict in enumerate(Verdict)}
"""Place of each verdict when a table is sorted."""


def alternatives(inquiry: Inquiry, catalogue: Catalogue, address: Address) -> Table:
    """Other finishes for both sides, ranked; ``address`` leads to the answer for two texts.

    Raises
    ------
    UnreadableSurfaceError
        If a surface is not known.
    """
    start = starting_point(inquiry, catalogue, DEFAULT_POLICY)
    found = find_alternatives(start.couple, start.environment, Constraints(), catalogue, DEFAULT_POLICY)
    document = alternatives_document(found)
    return {
        "title": "Other finishes",
        "what": "Surfaces instead",
        "summary": document["summary"]["line"],
        "before": _outcome(document["before"], start, catalogue),
        "excluded": [
            (f"{group['count']} {group['unit']}", f"{group['constraint']}, such as {group['example']}")
            for group in document["excluded"]
        ],
        "rows": [
            _alternative(row, document["before"], catalogue, address) for row in document["alternatives"]
        ],
    }


def mitigations(inquiry: Inquiry, catalogue: Catalogue) -> Table:
    """Measures for a couple that has to stay, ranked.

    Raises
    ------
    UnreadableSurfaceError
        If a surface is not known.
    """
    start = starting_point(inquiry, catalogue, DEFAULT_POLICY)
    document = mitigations_document(
        find_mitigations(start.couple, start.environment, catalogue, DEFAULT_POLICY)
    )
    return {
        "title": "Measures if the couple has to stay",
        "what": "Measures",
        "summary": document["summary"]["line"],
        "before": _outcome(document["before"], start, catalogue),
        "excluded": [
            ("; ".join(measure["name"] for measure in row["measures"]), row["detail"])
            for row in (*document["insufficient"], *document["infeasible"])
        ],
        "rows": [_mitigation(row, document["before"]) for row in document["mitigations"]],
    }


def _outcome(judged: Mapping[str, Any], start: StartingPoint, catalogue: Catalogue) -> Table:
    life = life_of(start.judgement, catalogue, DEFAULT_POLICY)
    return {"verdict": judged["verdict"], "ratio": _ratio(judged), "life": life}


def _ratio(judged: Mapping[str, Any]) -> float | None:
    ratio = judged["loss_over_allowance"]
    return ratio["high"] if ratio else None


def _alternative(
    row: Mapping[str, Any], before: Mapping[str, Any], catalogue: Catalogue, address: Address
) -> Table:
    texts = [format_surface(_surface(row[side]), catalogue) for side in SIDES]
    first, second = texts
    changed = _changed(row, before)
    stays = [f"the {side} side stays" for side in SIDES if side not in changed]
    return {
        "rank": row["rank"],
        "name": capitalised("; ".join(_told(side, row[side], before[side]) for side in changed or SIDES)),
        "surfaces": "; ".join(stays) if changed else "",
        "address": address(first, second) if first and second else "",
        "verdict": row["verdict"],
        "order": _ORDER[row["verdict"]],
        "capped": "",
        "ratio": _ratio(row),
        "life": row["life"],
        "better": row["better"],
        "worse": row["worse"],
        "conditions": [each["action"] for each in (*row["conditions"], *row["requirements"])],
        "badly": [],
    }


def _mitigation(row: Mapping[str, Any], before: Mapping[str, Any]) -> Table:
    ratios = [ratio for joint in row["joints"] if (ratio := _ratio(joint)) is not None]
    cautions = [f"Caution: {text}" for text in row["cautions"]]
    return {
        "rank": row["rank"],
        "name": "; ".join(measure["name"] for measure in row["measures"]),
        "surfaces": _then(row["joints"], before),
        "address": "",
        "verdict": row["verdict"],
        "order": _ORDER[row["verdict"]],
        "capped": _capped(row),
        "ratio": max(ratios, default=None),
        "life": row["life"],
        "better": row["better"],
        "worse": row["worse"],
        "conditions": [*(each["action"] for each in row["conditions"]), *cautions],
        "badly": [f"{risk['done_badly']} Then it is {risk['verdict']}." for risk in row["residual_risk"]],
    }


def _capped(row: Mapping[str, Any]) -> str:
    """Why a measure is no better than conditional; a single one need not be named again."""
    because: str = row["capped_because"] or ""
    return because if len(row["measures"]) > 1 else because.partition(":")[0]


def _changed(row: Mapping[str, Any], before: Mapping[str, Any]) -> list[str]:
    return [side for side in SIDES if row[side]["name"] != before[side]["name"]]


def _told(side: str, surface: Mapping[str, Any], before: Mapping[str, Any]) -> str:
    """Write a side as it would be: its coats alone where the material stays."""
    name: str = surface["name"]
    if surface["material_id"] and surface["material_id"] == before["material_id"]:
        return f"{side} side: {name.partition(' with ')[2] or 'bare'}"
    return f"{side} side: {in_sentence(name)}"


def _then(joints: Sequence[Mapping[str, Any]], before: Mapping[str, Any]) -> str:
    """Which surfaces meet once a measure is taken, where it changes any."""
    if len(joints) > 1:
        return "; ".join(f"{joint['first']['name']} with {joint['second']['name']}" for joint in joints)
    changed = _changed(joints[0], before)
    return capitalised("; ".join(_told(side, joints[0][side], before[side]) for side in changed))


def _surface(document: Mapping[str, Any]) -> Surface:
    layers = (Layer(layer["finish_id"], layer["thickness_um"]) for layer in document["layers"])
    return Surface(
        document["material_id"],
        tuple(layers),
        Condition(document["condition"]),
        document["basis_family"],
    )
