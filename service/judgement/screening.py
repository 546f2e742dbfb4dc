"""The screening witness: potential difference against published permissible differences.

A difference gives the direction of the current, not its rate (Mansfeld, Hengstenberg, Kenkel,
Corrosion 30 (1974) 343, abstract). It is one witness among several.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from service.catalogue.records import ElectrolyteClass, Environment, Scale
from service.judgement.findings import Anode, Confidence, Finding, Witness
from service.judgement.policy import Policy
from service.judgement.scales import Comparison
from service.judgement.severity import Severity

FAR_OVER_V = 0.25
"""Excess over the limit from which attack is expected to be severe (house rule)."""


def screen(comparisons: Sequence[Comparison], environment: Environment, policy: Policy) -> Finding:
    """Turn the comparisons of one couple into a finding.

    Parameters
    ----------
    comparisons : sequence of Comparison
        Best evidence first, differences in volts [V].
    environment : Environment
        Decides which scales speak and which limit holds [V].
    policy : Policy
        A house limit [V] goes before a published one.

    Returns
    -------
    Finding
        Figures in millivolts [mV]; abstains where no scale with a limit knows both surfaces.
    """
    if environment.electrolyte_class is ElectrolyteClass.NONE:
        return _WITHOUT_ELECTROLYTE
    judged = [
        (comparison, limit_V)
        for comparison in comparisons
        if (limit_V := _limit_V(comparison, environment, policy)) is not None
        and _may_be_used(comparison.scale, environment)
    ]
    if not judged:
        return _WITHOUT_SCALE
    (chosen, limit_V), used = judged[0], [comparison for comparison, _ in judged]
    is_in_doubt = (
        all(comparison.is_polarity_in_doubt for comparison in used)
        or len({comparison.anode for comparison in used}) > 1
    )
    return Finding(
        Witness.SCREENING,
        _statement(chosen, limit_V, is_in_doubt=is_in_doubt),
        severity=_severity(chosen, limit_V),
        anode=chosen.anode,
        is_polarity_in_doubt=is_in_doubt,
        confidence=_confidence(chosen, environment),
        grade=chosen.grade,
        figures=_figures(used, limit_V),
        evidence=_evidence(used),
    )


_WITHOUT_ELECTROLYTE = Finding(
    Witness.SCREENING,
    "No continuous electrolyte is expected, so a potential difference cannot drive a current.",
    severity=Severity.NONE,
    anode=Anode.NONE,
    confidence=Confidence.MEDIUM,
    grade="D",
)

_WITHOUT_SCALE = Finding(
    Witness.SCREENING,
    "No published scale with a limit knows both surfaces.",
    abstains="no scale with a permissible difference knows both surfaces",
    missing=("corrosion potential or anodic index of both surfaces on one scale",),
)


def _may_be_used(scale: Scale, environment: Environment) -> bool:
    """Whether a scale speaks for an environment: its own electrolyte, or an index used everywhere.

    An anodic index comes from sea water; practice applies it to any service and so do we, at low
    confidence. A series of potentials stays in the electrolyte it was measured in.
    """
    return scale.kind == "index" or scale.electrolyte_class is environment.electrolyte_class


def _severity(comparison: Comparison, limit_V: float) -> Severity:
    if comparison.difference_high_V <= limit_V:
        return Severity.NONE
    if comparison.difference_V <= limit_V:
        return Severity.SLIGHT
    return Severity.MODERATE if comparison.difference_V <= limit_V + FAR_OVER_V else Severity.SEVERE


def _statement(comparison: Comparison, limit_V: float, *, is_in_doubt: bool) -> str:
    low, high = comparison.difference_low_V * 1e3, comparison.difference_high_V * 1e3
    span = f"{high:.0f}" if round(low) == round(high) else f"{low:.0f} to {high:.0f}"
    scale = comparison.scale.name.partition(" (")[0]
    relation = "within" if comparison.difference_V <= limit_V else "above"
    doubt = " The ranges overlap or the scales disagree, so the polarity is in doubt." if is_in_doubt else ""
    return (
        f"The potential difference is {span} mV on the scale '{scale}', {relation} the "
        f"permissible {limit_V * 1e3:.0f} mV.{doubt}"
    )


def _confidence(comparison: Comparison, environment: Environment) -> Confidence:
    fits = comparison.scale.electrolyte_class is environment.electrolyte_class
    return Confidence.MEDIUM if fits else Confidence.LOW


def _figures(used: Sequence[Comparison], limit_V: float) -> dict[str, Any]:
    chosen = used[0]
    return {
        "scale": chosen.scale.id,
        "difference_low_mV": round(chosen.difference_low_V * 1e3),
        "difference_mV": round(chosen.difference_V * 1e3),
        "difference_high_mV": round(chosen.difference_high_V * 1e3),
        "permissible_difference_mV": round(limit_V * 1e3),
        "reference_electrode": chosen.scale.reference_electrode,
        "scales": [_on_scale(comparison) for comparison in used],
    }


def _on_scale(comparison: Comparison) -> dict[str, Any]:
    limit_V = comparison.limit_V
    return {
        "scale": comparison.scale.id,
        "name": comparison.scale.name,
        "reference_electrode": comparison.scale.reference_electrode,
        "first_low_mV": round(comparison.first.low_V * 1e3),
        "first_high_mV": round(comparison.first.high_V * 1e3),
        "second_low_mV": round(comparison.second.low_V * 1e3),
        "second_high_mV": round(comparison.second.high_V * 1e3),
        "difference_low_mV": round(comparison.difference_low_V * 1e3),
        "difference_high_mV": round(comparison.difference_high_V * 1e3),
        "permissible_difference_mV": None if limit_V is None else round(limit_V * 1e3),
        "anode": comparison.anode.value,
        "is_polarity_in_doubt": comparison.is_polarity_in_doubt,
    }


def _evidence(used: Sequence[Comparison]) -> tuple[tuple[str, str], ...]:
    found: dict[tuple[str, str], None] = {}
    for comparison in used:
        found["measurements", comparison.first.measurement.id] = None
        found["measurements", comparison.second.measurement.id] = None
        if comparison.limit:
            found["limits", comparison.limit.id] = None
    return tuple(found)


def _limit_V(comparison: Comparison, environment: Environment, policy: Policy) -> float | None:
    house = policy.limits_V.get(environment.screening_class)
    return house if house is not None else comparison.limit_V
