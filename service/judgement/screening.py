"""The screening witness: potential difference against published permissible differences.

A difference gives the direction of the current, not its rate (Mansfeld, Hengstenberg, Kenkel,
Corrosion 30 (1974) 343, abstract). It is one witness among several. Every published scale that
knows both metals is asked; ranges are kept as ranges, and polarity is in doubt where they overlap.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade, worst
from service.catalogue.records import ElectrolyteClass, Environment, Limit, Measurement, Scale
from service.judgement.findings import Anode, Confidence, Finding, Witness
from service.judgement.policy import Policy
from service.judgement.severity import Severity

_PASSIVE_FIRST = ("", "-", "passive", "active")
"""Order in which a state is preferred: a metal is screened in its passive state where it has
one, because the active state belongs to crevices and stagnant water."""

FAR_OVER_V = 0.25
"""Excess over the limit from which attack is expected to be severe (house rule)."""


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a metal stands on a scale, from the active to the noble end, in volts.

    An anodic index is turned round, so that larger always means more noble.
    """

    low_V: float
    high_V: float
    measurement: Measurement


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two metals on one scale. Differences in volts, never negative."""

    scale: Scale
    limit: Limit | None
    first: Placement
    second: Placement
    difference_low_V: float
    difference_V: float
    difference_high_V: float
    is_polarity_in_doubt: bool
    anode: Anode

    @property
    def limit_V(self) -> float | None:
        """Permissible difference in volts."""
        return self.limit.limit_V if self.limit else None


def compare(
    first: tuple[str, str],
    second: tuple[str, str],
    screening_class: str,
    catalogue: Catalogue,
) -> list[Comparison]:
    """Compare two surfaces on every published scale that knows both.

    Parameters
    ----------
    first, second : tuple of str
        Electrode and material identifiers of each surface (material may be empty).
    screening_class : str
        Severity of service that picks the limit: harsh, normal or controlled.
    catalogue : Catalogue

    Returns
    -------
    list of Comparison
        Best evidence first.
    """
    table = _placements(catalogue)
    limits = _limits(catalogue)
    found = []
    for scale in catalogue.scales.values():
        one, other = _find(table, scale.id, first), _find(table, scale.id, second)
        if one is None or other is None:
            continue
        found.append(_comparison(scale, limits.get((scale.id, screening_class)), one, other))
    return sorted(found, key=_preference)


def screen(
    comparisons: list[Comparison],
    environment: Environment,
    policy: Policy,
) -> Finding:
    """Turn the comparisons of one couple into a finding."""
    if environment.electrolyte_class is ElectrolyteClass.NONE:
        return Finding(
            Witness.SCREENING,
            "No continuous electrolyte is expected, so a potential difference cannot drive a current.",
            severity=Severity.NONE,
            anode=Anode.NONE,
            confidence=Confidence.MEDIUM,
            grade="D",
        )
    judged = [
        comparison
        for comparison in comparisons
        if _limit_V(comparison, environment, policy) and _may_be_used(comparison.scale, environment)
    ]
    if not judged:
        return Finding(
            Witness.SCREENING,
            "No published scale with a limit knows both surfaces.",
            abstains="no scale with a permissible difference knows both surfaces",
            missing=("corrosion potential or anodic index of both surfaces on one scale",),
        )
    chosen = judged[0]
    limit_V = _limit_V(chosen, environment, policy)
    assert limit_V is not None  # noqa: S101 - narrowed by the filter above
    is_in_doubt = all(comparison.is_polarity_in_doubt for comparison in judged) or (
        len({comparison.anode for comparison in judged}) > 1
    )
    evidence = _evidence(judged)
    return Finding(
        Witness.SCREENING,
        _statement(chosen, limit_V, is_in_doubt=is_in_doubt),
        severity=_severity(chosen, limit_V),
        anode=chosen.anode,
        is_polarity_in_doubt=is_in_doubt,
        confidence=_confidence(chosen, environment),
        grade=_grade(chosen),
        figures=_figures(judged, limit_V),
        evidence=evidence,
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
    relation = "within" if comparison.difference_V <= limit_V else "above"
    doubt = " The ranges overlap or the scales disagree, so the polarity is in doubt." if is_in_doubt else ""
    return (
        f"The potential difference is {span} mV on the scale '{comparison.scale.name}', {relation} the "
        f"permissible {limit_V * 1e3:.0f} mV.{doubt} This gives direction, not rate."
    )


def _confidence(comparison: Comparison, environment: Environment) -> Confidence:
    fits = comparison.scale.electrolyte_class is environment.electrolyte_class
    return Confidence.MEDIUM if fits else Confidence.LOW


def _grade(comparison: Comparison) -> str | None:
    grades = [
        letter
        for measurement in (comparison.first.measurement, comparison.second.measurement)
        if (letter := grade(measurement.obtained, measurement.fitness, measurement.plausibility))
    ]
    return worst(grades)


def _figures(judged: list[Comparison], limit_V: float) -> dict[str, object]:
    chosen = judged[0]
    return {
        "scale": chosen.scale.id,
        "difference_low_mV": round(chosen.difference_low_V * 1e3),
        "difference_mV": round(chosen.difference_V * 1e3),
        "difference_high_mV": round(chosen.difference_high_V * 1e3),
        "permissible_difference_mV": round(limit_V * 1e3),
        "reference_electrode": chosen.scale.reference_electrode,
        "scales": [
            {
                "scale": comparison.scale.id,
                "name": comparison.scale.name,
                "reference_electrode": comparison.scale.reference_electrode,
                "first_low_mV": round(comparison.first.low_V * 1e3),
                "first_high_mV": round(comparison.first.high_V * 1e3),
                "second_low_mV": round(comparison.second.low_V * 1e3),
                "second_high_mV": round(comparison.second.high_V * 1e3),
                "difference_low_mV": round(comparison.difference_low_V * 1e3),
                "difference_high_mV": round(comparison.difference_high_V * 1e3),
                "permissible_difference_mV": (
                    None if comparison.limit_V is None else round(comparison.limit_V * 1e3)
                ),
                "anode": comparison.anode.value,
                "is_polarity_in_doubt": comparison.is_polarity_in_doubt,
            }
            for comparison in judged
        ],
    }


def _evidence(judged: list[Comparison]) -> tuple[tuple[str, str], ...]:
    used: dict[tuple[str, str], None] = {}
    for comparison in judged:
        used["measurements", comparison.first.measurement.id] = None
        used["measurements", comparison.second.measurement.id] = None
        if comparison.limit:
            used["limits", comparison.limit.id] = None
    return tuple(used)


def _limit_V(comparison: Comparison, environment: Environment, policy: Policy) -> float | None:
    house = policy.limits_V.get(environment.screening_class)
    return house if house is not None else comparison.limit_V


def _comparison(scale: Scale, limit: Limit | None, one: Placement, other: Placement) -> Comparison:
    overlaps = one.low_V <= other.high_V and other.low_V <= one.high_V
    middle_one, middle_other = (one.low_V + one.high_V) / 2, (other.low_V + other.high_V) / 2
    gaps = (abs(one.high_V - other.low_V), abs(other.high_V - one.low_V))
    same = one.measurement.subject_id == other.measurement.subject_id
    if middle_one == middle_other:
        anode = Anode.NONE
    else:
        anode = Anode.FIRST if middle_one < middle_other else Anode.SECOND
    return Comparison(
        scale,
        limit,
        one,
        other,
        0.0 if overlaps else min(gaps),
        abs(middle_one - middle_other),
        0.0 if same else max(gaps),
        overlaps and not same,
        anode,
    )


def _preference(comparison: Comparison) -> tuple[int, str, str]:
    return (
        0 if comparison.limit else 1,
        _grade(comparison) or "Z",
        comparison.scale.id,
    )


Placements = dict[tuple[str, str], Placement]


def _find(table: Placements, scale_id: str, subject: tuple[str, str]) -> Placement | None:
    electrode_id, material_id = subject
    return table.get((scale_id, material_id)) or table.get((scale_id, electrode_id))


@lru_cache(maxsize=16)
def _placements(catalogue: Catalogue) -> Placements:
    table: Placements = {}
    ordered = sorted(
        (row for row in catalogue.measurements.values() if row.scale_id and not row.quarantine_reason),
        key=lambda row: (
            _PASSIVE_FIRST.index(row.state) if row.state in _PASSIVE_FIRST else len(_PASSIVE_FIRST),
            grade(row.obtained, row.fitness, row.plausibility) or "Z",
            row.id,
        ),
    )
    for row in ordered:
        scale = catalogue.scales[row.scale_id]
        if scale.kind == "rank" or grade(row.obtained, row.fitness, row.plausibility) is None:
            continue
        low = row.low if row.low is not None else row.value
        high = row.high if row.high is not None else row.value
        if low is None or high is None:
            continue
        if scale.kind == "index":
            low, high = -high, -low
        table.setdefault((row.scale_id, row.subject_id), Placement(low, high, row))
    return table


@lru_cache(maxsize=16)
def _limits(catalogue: Catalogue) -> dict[tuple[str, str], Limit]:
    return {(limit.scale_id, limit.screening_class): limit for limit in catalogue.limits.values()}
