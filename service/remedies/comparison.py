"""What gets better and what gets worse when one joint takes the place of another, in plain words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from service.catalogue.catalogue import Catalogue
from service.judgement import Judgement, Policy
from service.judgement.findings import Anode, Witness
from service.judgement.loss import COAT_BASIS
from service.judgement.severity import Severity
from service.judgement.surface_names import surface_name
from service.remedies.measures import Life, Measures

_REMARKABLE = 1.1
"""Figures that differ by less are not worth a sentence."""

_LEAST_RATIO = 0.01
"""Smaller shares of an allowance are told as less than this."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """Sentences about a change, most important first."""

    better: tuple[str, ...]
    worse: tuple[str, ...]


def compare(
    before: tuple[Judgement, Measures],
    after: tuple[Judgement, Measures],
    catalogue: Catalogue,
    policy: Policy,
) -> Comparison:
    """Compare a joint with the one that it would replace.

    Parameters
    ----------
    before, after : tuple of Judgement and Measures
    catalogue : Catalogue
    policy : Policy

    Returns
    -------
    Comparison
        The same sentences for the same joints, whatever else was judged with them.
    """
    changes = [
        *_verdict(before[1], after[1]),
        *_loss(before[1], after[1]),
        *_life(before[1].life, after[1].life, after[0], policy),
        *_eaten_side(before[0], after[0], catalogue),
        *_hazards(before[1], after[1]),
        *_function(before[0], after[0]),
        *_evidence(before[0], after[0]),
        *_strength(before[0], after[0], catalogue),
        *_cost(before[1], after[1]),
    ]
    return Comparison(
        tuple(sentence for is_better, sentence in changes if is_better),
        tuple(sentence for is_better, sentence in changes if not is_better),
    )


_Change = tuple[bool, str]


def _verdict(before: Measures, after: Measures) -> Iterator[_Change]:
    if after.verdict is not before.verdict:
        is_better = after.vector[0] < before.vector[0]
        yield is_better, f"The verdict changes from {before.verdict.value} to {after.verdict.value}."
    if before.severity is not None and after.severity is not None and after.severity is not before.severity:
        verb = "falls" if after.severity.rank < before.severity.rank else "rises"
        yield verb == "falls", f"Attack {verb} from {before.severity.value} to {after.severity.value}."


def _loss(before: Measures, after: Measures) -> Iterator[_Change]:
    if before.ratio_95 is None or after.ratio_95 is None:
        return
    low, high = sorted((before.ratio_95, after.ratio_95))
    if high <= low * _REMARKABLE:
        return
    verb = "falls" if after.ratio_95 < before.ratio_95 else "rises"
    figures = f"from {_ratio(before.ratio_95)} to {_ratio(after.ratio_95)} times the allowance"
    yield verb == "falls", f"The loss over the design life (95 %) {verb} {figures}."


def _ratio(value: float) -> str:
    return f"{value:g}" if value >= _LEAST_RATIO else f"less than {_LEAST_RATIO:g}"


def _life(before: Life | None, after: Life | None, judgement: Judgement, policy: Policy) -> Iterator[_Change]:
    if after is None:
        if before is not None:
            yield False, "Its life cannot be computed."
        return
    years = policy.life_years(judgement.couple)
    if after.low_years < years:
        basis = "The coat" if after.basis == COAT_BASIS else "The allowance"
        span = f"{after.low_years:g} to {after.high_years:g} years"
        yield False, f"{basis} may be used up after {span}, before the design life of {years:g} years."
    elif before is not None and before.low_years < years:
        yield True, f"It lasts {after.low_years:g} years or more, against {before.low_years:g} years."


def _eaten_side(before: Judgement, after: Judgement, catalogue: Catalogue) -> Iterator[_Change]:
    was, now = before.outcome.anode, after.outcome.anode
    is_hurt = after.outcome.severity not in {None, Severity.NONE}
    if now in {was, Anode.NONE} or was is Anode.NONE or not is_hurt:
        return
    names = {
        Anode.FIRST: surface_name(after.couple.first, catalogue),
        Anode.SECOND: surface_name(after.couple.second, catalogue),
        Anode.BOTH: "both sides",
    }
    yield False, f"Another side is eaten: {names[now]}."


def _hazards(before: Measures, after: Measures) -> Iterator[_Change]:
    known = {hit.rule.id for hit in before.hazards}
    left = {hit.rule.id for hit in after.hazards}
    yield from (
        (True, f"No longer: {hit.rule.name.lower()}.") for hit in before.hazards if hit.rule.id not in left
    )
    for hit in after.hazards:
        if hit.rule.id not in known:
            yield False, f"{hit.rule.name}: {hit.rule.statement}"


def _function(before: Judgement, after: Judgement) -> Iterator[_Change]:
    was = before.findings[Witness.FUNCTION].figures
    now = after.findings[Witness.FUNCTION].figures
    resistance, other = was.get("contact_resistance_mOhm"), now.get("contact_resistance_mOhm")
    if resistance and other and max(resistance, other) > min(resistance, other) * _REMARKABLE:
        verb = "falls" if other < resistance else "rises"
        figures = f"from {resistance:.3g} to {other:.3g} mOhm"
        yield verb == "falls", f"The contact resistance when new {verb} {figures}."
    limits = was.get("meets_bond_limit"), now.get("meets_bond_limit")
    if limits in {(True, False), (False, True)}:
        yield bool(limits[1]), f"The bond limit is {'met' if limits[1] else 'no longer met'}."


def _evidence(before: Judgement, after: Judgement) -> Iterator[_Change]:
    was, now = _deciding_grade(before), _deciding_grade(after)
    if was and now and was != now:
        verb = "gains" if now < was else "loses"
        yield verb == "gains", f"The deciding evidence {verb} in grade, from {was} to {now}."


def _deciding_grade(judgement: Judgement) -> str | None:
    deciding = judgement.outcome.deciding
    return judgement.findings[deciding].grade if deciding else None


def _strength(before: Judgement, after: Judgement, catalogue: Catalogue) -> Iterator[_Change]:
    for side in ("first", "second"):
        was = catalogue.materials.get(getattr(before.couple, side).material_id or "")
        now = catalogue.materials.get(getattr(after.couple, side).material_id or "")
        if was is None or now is None or not was.strength_MPa or not now.strength_MPa:
            continue
        if now.strength_MPa < was.strength_MPa:
            figures = f"from {was.strength_MPa:g} to {now.strength_MPa:g} MPa"
            yield False, f"Tensile strength of the {side} side falls {figures}."


def _cost(before: Measures, after: Measures) -> Iterator[_Change]:
    if after.cost_tier != before.cost_tier:
        verb = "fall" if after.cost_tier < before.cost_tier else "rise"
        tiers = f"from {before.cost_tier} to {after.cost_tier}"
        yield verb == "fall", f"Cost tiers of the finishes together {verb} {tiers}."
