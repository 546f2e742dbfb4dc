"""Tables of what could be done instead: alternatives and measures, before and after."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from service.callouts import format_surface
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Condition, Layer, Surface
from service.judgement import DEFAULT_POLICY, Inquiry
from service.remedies import (
    Constraints,
    alternatives_document,
    find_alternatives,
    find_mitigations,
    mitigations_document,
    starting_point,
)

Address = Callable[[str, str], str]
Table = dict[str, Any]


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
        "before": _outcome(document["before"]),
        "rows": [_alternative(row, catalogue, address) for row in document["alternatives"]],
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
        "before": _outcome(document["before"]),
        "rows": [_mitigation(row) for row in document["mitigations"]],
    }


def _outcome(judged: Mapping[str, Any]) -> Table:
    return {"verdict": judged["verdict"], "ratio": _ratio(judged)}


def _ratio(judged: Mapping[str, Any]) -> float | None:
    ratio = judged["loss_over_allowance"]
    return ratio["high"] if ratio else None


def _alternative(row: Mapping[str, Any], catalogue: Catalogue, address: Address) -> Table:
    texts = [format_surface(_surface(row[side]), catalogue) for side in ("first", "second")]
    first, second = texts
    return {
        "rank": row["rank"],
        "name": f"{row['first']['name']} with {row['second']['name']}",
        "address": address(first, second) if first and second else "",
        "verdict": row["verdict"],
        "ratio": _ratio(row),
        "life": row["life"],
        "better": row["better"],
        "worse": row["worse"],
        "conditions": [each["action"] for each in (*row["conditions"], *row["requirements"])],
    }


def _mitigation(row: Mapping[str, Any]) -> Table:
    ratios = [ratio for joint in row["joints"] if (ratio := _ratio(joint)) is not None]
    cautions = [f"Caution: {text}" for text in row["cautions"]]
    return {
        "rank": row["rank"],
        "name": "; ".join(measure["name"] for measure in row["measures"]),
        "address": "",
        "verdict": row["verdict"],
        "ratio": max(ratios, default=None),
        "life": row["life"],
        "better": row["better"],
        "worse": row["worse"],
        "conditions": [*(each["action"] for each in row["conditions"]), *cautions],
    }


def _surface(document: Mapping[str, Any]) -> Surface:
    layers = (Layer(layer["finish_id"], layer["thickness_um"]) for layer in document["layers"])
    return Surface(
        document["material_id"],
        tuple(layers),
        Condition(document["condition"]),
        document["basis_family"],
    )
