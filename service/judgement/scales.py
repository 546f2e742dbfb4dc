"""Published series of metals: where each metal stands, and how far two of them are apart.

Every series that knows both metals is asked; ranges are kept as ranges, and polarity is in doubt
where they overlap.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import Limit, Measurement, Scale
from service.catalogue.surfaces import Surface
from service.judgement.exposed import outer_electrode_id
from service.judgement.findings import Anode

_PASSIVE_FIRST = ("", "-", "passive", "active")
"""Order in which a state is preferred: a metal is screened in its passive state where it has
one, because the active state belongs to crevices and stagnant water."""


@dataclass(frozen=True, slots=True)
class Placement:
    """Where a metal stands on a scale, from the active to the noble end, in volts.

    An anodic index is turned round, so that larger always means more noble.
    """

    low_V: float
    high_V: float
    grade: str
    measurement: Measurement

    @property
    def middle_V(self) -> float:
        """Middle of the range."""
        return (self.low_V + self.high_V) / 2


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two metals on one scale. Differences in volts, never negative, three significant figures."""

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

    @property
    def grade(self) -> str:
        """Weaker grade of the two figures."""
        return max(self.first.grade, self.second.grade)


def subject_of(surface: Surface, catalogue: Catalogue) -> tuple[str, str]:
    """Name what a surface may be found by on a scale.

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    tuple of str
        Electrode and material; the material is empty under a coat and both where not known.
    """
    return outer_electrode_id(surface, catalogue) or "", "" if surface.layers else surface.material_id or ""


@lru_cache(maxsize=8192)
def compare(
    first: tuple[str, str], second: tuple[str, str], screening_class: str, catalogue: Catalogue
) -> tuple[Comparison, ...]:
    """Compare two surfaces on every published scale that knows both.

    Parameters
    ----------
    first, second : tuple of str
        Electrode and material identifiers of each surface (:func:`subject_of`).
    screening_class : str
        Severity of service that picks the limit: harsh, normal or controlled.
    catalogue : Catalogue

    Returns
    -------
    tuple of Comparison
        Differences in volts [V], best evidence first: a scale with a limit, then by grade.
    """
    one, other = _placed(first, catalogue), _placed(second, catalogue)
    limits = _limits(catalogue)
    found = [
        _comparison(catalogue.scales[scale_id], limits.get((scale_id, screening_class)), placement, rival)
        for scale_id, placement in one.items()
        if (rival := other.get(scale_id)) is not None
    ]
    return tuple(sorted(found, key=_preference))


def _comparison(scale: Scale, limit: Limit | None, one: Placement, other: Placement) -> Comparison:
    overlaps = one.low_V <= other.high_V and other.low_V <= one.high_V
    gaps = (abs(one.high_V - other.low_V), abs(other.high_V - one.low_V))
    is_same = one.measurement.subject_id == other.measurement.subject_id
    if one.middle_V == other.middle_V:
        anode = Anode.NONE
    else:
        anode = Anode.FIRST if one.middle_V < other.middle_V else Anode.SECOND
    return Comparison(
        scale=scale,
        limit=limit,
        first=one,
        second=other,
        difference_low_V=0.0 if overlaps else _rounded(min(gaps)),
        difference_V=_rounded(abs(one.middle_V - other.middle_V)),
        difference_high_V=0.0 if is_same else _rounded(max(gaps)),
        is_polarity_in_doubt=overlaps and not is_same,
        anode=anode,
    )


def _rounded(difference_V: float) -> float:
    """Three significant figures, so that 0.90 - 0.75 V keeps a limit of 0.15 V."""
    return float(f"{difference_V:.3g}")


def _preference(comparison: Comparison) -> tuple[bool, str, str]:
    return comparison.limit is None, comparison.grade, comparison.scale.id


@lru_cache(maxsize=4096)
def _placed(subject: tuple[str, str], catalogue: Catalogue) -> Mapping[str, Placement]:
    """Placement of a subject on each scale that knows it; its own row goes before its electrode's."""
    electrode_id, material_id = subject
    table = _placements(catalogue)
    return {**table.get(electrode_id, {}), **table.get(material_id, {})}


@lru_cache(maxsize=16)
def _placements(catalogue: Catalogue) -> dict[str, dict[str, Placement]]:
    """Best usable placement of every subject on every scale, by subject, then scale."""
    table: dict[str, dict[str, Placement]] = {}
    rows = (row for row in catalogue.measurements.values() if row.scale_id and not row.quarantine_reason)
    for row in sorted(rows, key=_usefulness):
        placement = _placement(row, catalogue.scales[row.scale_id])
        if placement is not None:
            table.setdefault(row.subject_id, {}).setdefault(row.scale_id, placement)
    return table


def _usefulness(row: Measurement) -> tuple[int, str, str]:
    preferred = row.state in _PASSIVE_FIRST
    place = _PASSIVE_FIRST.index(row.state) if preferred else len(_PASSIVE_FIRST)
    return place, grade(row.obtained, row.fitness, row.plausibility) or "Z", row.id


def _placement(row: Measurement, scale: Scale) -> Placement | None:
    low = row.low if row.low is not None else row.value
    high = row.high if row.high is not None else row.value
    letter = grade(row.obtained, row.fitness, row.plausibility)
    if low is None or high is None or letter is None or scale.kind == "rank":
        return None
    if scale.kind == "index":
        low, high = -high, -low
    return Placement(low, high, letter, row)


@lru_cache(maxsize=16)
def _limits(catalogue: Catalogue) -> dict[tuple[str, str], Limit]:
    return {(limit.scale_id, limit.screening_class): limit for limit in catalogue.limits.values()}
