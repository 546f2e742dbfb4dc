"""What the service answers to a case, and what potential difference alone would have said.

The baseline takes the difference of the middle potentials on the first sea-water series that knows
both metals. The customary limits 0.15, 0.25 and 0.50 V turn it into words: up to the first is none,
up to the second slight, up to the third moderate, above it severe. It is suitable where it keeps the
limit of the environment's own class. That is how such tables are used, so it is what there is to beat.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import ElectrolyteClass
from service.judgement.answer import Answer
from service.judgement.scales import Comparison, compare, subject_of
from service.judgement.severity import Severity
from tests.validation.cases import Case

BASELINE_LIMITS_V = {"harsh": 0.15, "normal": 0.25, "controlled": 0.50}


@dataclass(frozen=True, slots=True)
class Prediction:
    """One method's word on a case. ``attack`` orders the cases of a study; ``None`` is no word."""

    anode: str
    is_in_doubt: bool
    severity: Severity | None
    is_suitable: bool
    attack: float | None
    rate_um_per_year: float | None = None
    acceleration: float | None = None
    cathode_current_A_per_m2: float | None = None
    note: str = ""


def of_the_service(case: Case, answer: Answer) -> Prediction:
    """Take the service's word from the answer that a caller would get."""
    document = answer.document()
    loss = document["loss"] or {}
    severity = document["severity"]
    current = _median(loss, "galvanic_current_density_mA_per_m2")
    return Prediction(
        anode=document["anode"]["side"],
        is_in_doubt=document["anode"]["is_in_doubt"],
        severity=None if severity == "unknown" else Severity(severity),
        is_suitable=document["verdict"] == "suitable",
        attack=_median(loss, "galvanic_rate_um_per_year"),
        rate_um_per_year=_rate(case, loss, document["joint"]["design_life_years"]),
        acceleration=_acceleration(loss),
        cathode_current_A_per_m2=_per_cathode(case, current),
        note=f"{document['verdict']}, {document['deciding_witness']}",
    )


def of_the_kinetics(case: Case, answer: Answer) -> Prediction:
    """Take the word of the computed loss alone, without rules and documented experience.

    Experience may hold the very lesson that a case tells, so this is the part of the score that
    rests on physics.
    """
    whole = of_the_service(case, answer)
    finding = next((item for item in answer.document()["findings"] if item["witness"] == "kinetics"), None)
    if finding is None or not finding["applies"]:
        return Prediction("", is_in_doubt=True, severity=None, is_suitable=False, attack=None)
    severity = Severity(finding["severity"])
    return replace(
        whole,
        anode=finding["anode"] or "",
        is_in_doubt=finding["is_polarity_in_doubt"],
        severity=severity,
        is_suitable=severity.rank <= Severity.SLIGHT.rank,
        note="",
    )


def of_the_baseline(answer: Answer, catalogue: Catalogue) -> Prediction:
    """Take the word of the potential difference alone."""
    if answer.judgement is None:
        return Prediction("", is_in_doubt=True, severity=None, is_suitable=False, attack=None)
    couple, environment = answer.judgement.couple, answer.environment
    first, second = subject_of(couple.first, catalogue), subject_of(couple.second, catalogue)
    found = _on_sea_water(compare(first, second, environment.screening_class, catalogue))
    if found is None:
        return Prediction("", is_in_doubt=True, severity=None, is_suitable=False, attack=None)
    difference_V = abs(found.first.low_V + found.first.high_V - found.second.low_V - found.second.high_V) / 2
    band = sum(difference_V > limit_V for limit_V in BASELINE_LIMITS_V.values())
    return Prediction(
        anode=found.anode.value,
        is_in_doubt=found.is_polarity_in_doubt,
        severity=list(Severity)[band],
        is_suitable=difference_V <= BASELINE_LIMITS_V[environment.screening_class],
        attack=difference_V,
        note=f"{difference_V * 1e3:.0f} mV, {found.scale.id}",
    )


def _on_sea_water(comparisons: Sequence[Comparison]) -> Comparison | None:
    """Return the first comparison of potentials in sea water, the index derived from them last."""
    fit = [item for item in comparisons if item.scale.electrolyte_class is ElectrolyteClass.CHLORIDE]
    order = {"potential": 0, "index": 1}
    ranked = [item for item in fit if item.scale.kind in order]
    return min(ranked, key=lambda item: order[item.scale.kind], default=None)


def _median(loss: dict[str, Any], name: str) -> float | None:
    figure = loss.get(name)
    return None if figure is None else float(figure["median"])


def _rate(case: Case, loss: dict[str, Any], years: float) -> float | None:
    """Return the mean rate of all loss over the exposure, of the side that is documented to lose."""
    documented = case.documented.anode
    if not loss or (documented and loss["side"] != documented):
        return None
    name = "deepest_loss_um" if case.documented.rate_is == "deepest" else "galvanic_loss_um"
    added, own = _median(loss, name), _median(loss, "uncoupled_loss_um")
    return None if added is None else (added + (own or 0.0)) / years


def _acceleration(loss: dict[str, Any]) -> float | None:
    added, own = _median(loss, "galvanic_loss_um"), _median(loss, "uncoupled_loss_um")
    return (added + own) / own if added is not None and own else None


def _per_cathode(case: Case, anode_mA_per_m2: float | None) -> float | None:
    areas = {side: float(case.row[f"{side}_area_m2"]) for side in ("first", "second")}
    anode = case.documented.anode
    if anode_mA_per_m2 is None or anode not in areas:
        return None
    cathode = "second" if anode == "first" else "first"
    return anode_mA_per_m2 / 1e3 * areas[anode] / areas[cathode]
