"""When a joint is better or worse than before, and how reasons become accept, review or reject.

1. A verdict that is undetermined after, and was not before, is undetermined; one that was before and
   is not after is better or worse by what it is now.
2. Else the worse verdict is worse. Under equal verdicts the severity decides, and under equal
   severities the loss against its allowance, where it moves by more than a factor of two.
3. Hazards and conditions that come new, and an anode on the other side, are reasons of their own.
4. The first code of the house's list that is among the reasons decides: reject before review.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from service.assemblies.house_policy import AcceptanceRules
from service.assemblies.judged import JudgedJoint
from service.judgement import Verdict
from service.judgement.findings import Anode

NOTABLE_FACTOR = 2.0
"""Losses that differ by less are the same: about the scatter of one figure. House rule."""

NEGLIGIBLE_RATIO = 0.1
"""Losses below a tenth of the allowance are not compared."""

ACCEPT, REVIEW, REJECT = "accept", "review", "reject"


class Change(StrEnum):
    """A joint after against before, from the best to what needs most care."""

    BETTER = "better"
    SAME = "same"
    UNDETERMINED = "undetermined"
    WORSE = "worse"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a change is what it is: a stable code with its detail, of one joint or of the whole."""

    code: str
    detail: str
    joint: str = ""


_RANK = {Verdict.SUITABLE: 0, Verdict.CONDITIONAL: 1, Verdict.UNSUITABLE: 2}


def compare(before: JudgedJoint, after: JudgedJoint) -> tuple[Change, tuple[Reason, ...]]:
    """Compare a joint before and after.

    Parameters
    ----------
    before, after : JudgedJoint
        The same joint with another part in it.
    """
    change, detail = _change(before, after)
    name = after.joint.id
    codes = {Change.WORSE: "worse", Change.BETTER: "better", Change.UNDETERMINED: "undetermined"}
    reasons = [Reason(codes[change], detail, name)] if change in codes else []
    if after.verdict is Verdict.UNSUITABLE and before.verdict is not Verdict.UNSUITABLE:
        reasons.append(Reason("becomes-unsuitable", detail, name))
    reasons += [Reason("new-hazard", text, name) for text in _new(before, after, "hazards", "name")]
    reasons += [Reason("new-condition", text, name) for text in _new(before, after, "conditions", "action")]
    if _anode(before) and _anode(after) and _anode(before) != _anode(after):
        reasons.append(
            Reason(
                "polarity-changed", f"the {_anode(after)} side is eaten now, not the {_anode(before)}", name
            )
        )
    return change, tuple(reasons)


def decide(reasons: Sequence[Reason], rules: AcceptanceRules) -> tuple[str, Reason | None]:
    """Decide on a substitute.

    Returns
    -------
    str
        ``accept``, ``review`` or ``reject``.
    Reason or None
        The one that decided; ``None`` where nothing speaks against it.
    """
    for decision, codes in ((REJECT, rules.reject_on), (REVIEW, rules.review_on)):
        for code in codes:
            found = next((reason for reason in reasons if reason.code == code), None)
            if found is not None:
                return decision, found
    return ACCEPT, None


def _change(before: JudgedJoint, after: JudgedJoint) -> tuple[Change, str]:
    was, now = before.verdict, after.verdict
    if now is Verdict.UNDETERMINED:
        if was is Verdict.UNDETERMINED:
            return Change.UNDETERMINED, "undetermined before and after"
        return Change.UNDETERMINED, f"{was.value} before, undetermined now"
    if was is Verdict.UNDETERMINED:
        change = Change.WORSE if now is Verdict.UNSUITABLE else Change.BETTER
        return change, f"undetermined before, {now.value} now"
    if was is not now:
        change = Change.WORSE if _RANK[now] > _RANK[was] else Change.BETTER
        return change, f"{was.value} before, {now.value} now"
    return _finer(before, after)


def _finer(before: JudgedJoint, after: JudgedJoint) -> tuple[Change, str]:
    """Compare joints of one verdict, by severity and then by loss."""
    old, new = before.severity, after.severity
    if old is not None and new is not None and old is not new:
        change = Change.WORSE if new.rank > old.rank else Change.BETTER
        return change, f"severity {old.value} before, {new.value} now"
    was, now = _loss(before), _loss(after)
    if was is not None and now is not None and max(was, now) > NEGLIGIBLE_RATIO:
        if now > NOTABLE_FACTOR * was:
            return Change.WORSE, f"loss over allowance {was:g} before, {now:g} now"
        if was > NOTABLE_FACTOR * now:
            return Change.BETTER, f"loss over allowance {was:g} before, {now:g} now"
    return Change.SAME, f"{after.verdict.value} before and after"


def _loss(item: JudgedJoint) -> float | None:
    found = [
        outcome.loss_over_allowance for _, outcome in item.cases if outcome.loss_over_allowance is not None
    ]
    return max(found, default=None)


def _anode(item: JudgedJoint) -> str:
    """Side that is eaten, empty where none or both are."""
    if item.worst is None:
        return ""
    anode = item.worst[1].anode
    return anode.value if anode in {Anode.FIRST, Anode.SECOND} else ""


def _new(before: JudgedJoint, after: JudgedJoint, table: str, text: str) -> Iterable[str]:
    """Entries of a list that were not there before."""
    known = {entry[text] for _, outcome in before.cases for entry in outcome.brief[table]}
    found = (entry[text] for _, outcome in after.cases for entry in outcome.brief[table])
    return [entry for entry in dict.fromkeys(found) if entry not in known]
