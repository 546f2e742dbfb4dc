"""Whether a judged couple is a way out, and if not, every reason why."""

from __future__ import annotations

from collections.abc import Iterator

from service.judgement import Judgement, Verdict
from service.judgement.findings import Witness
from service.remedies.constraints import Constraints
from service.remedies.measures import Life
from service.remedies.reasons import Exclusion, Reason


def shortfalls(judgement: Judgement, life: Life | None, constraints: Constraints) -> tuple[Exclusion, ...]:
    """Return why a judged couple is no way out; none means that it is one.

    Parameters
    ----------
    judgement : Judgement
    life : Life or None
        Of the couple; ``None`` where it is not known [years].
    constraints : Constraints

    Returns
    -------
    tuple of Exclusion
    """
    return (
        *_verdict(judgement, constraints.accept),
        *_life(life, constraints.min_life_years),
        *_bond_limit(judgement),
    )


def why(judgement: Judgement) -> str:
    """Statement of the finding that decided a judgement."""
    deciding = judgement.outcome.deciding
    return judgement.findings[deciding].statement if deciding else "Nothing is known of this couple here."


def _verdict(judgement: Judgement, accept: Verdict) -> Iterator[Exclusion]:
    verdict = judgement.outcome.verdict
    if verdict is Verdict.UNDETERMINED:
        yield Exclusion(Reason.UNDETERMINED, why(judgement))
    elif verdict is Verdict.UNSUITABLE:
        yield Exclusion(Reason.UNSUITABLE, why(judgement))
    elif verdict is Verdict.CONDITIONAL and accept is Verdict.SUITABLE:
        yield Exclusion(Reason.UNSUITABLE, "It is conditional, and only suitable is accepted.")


def _life(life: Life | None, least_years: float | None) -> Iterator[Exclusion]:
    if least_years is None:
        return
    if life is None:
        yield Exclusion(Reason.LIFE, "Its life cannot be computed, so it is not shown to last.")
    elif life.low_years < least_years:
        yield Exclusion(Reason.LIFE, f"It lasts {life.low_years:g} years, less than {least_years:g}.")


def _bond_limit(judgement: Judgement) -> Iterator[Exclusion]:
    figures = judgement.findings[Witness.FUNCTION].figures
    if figures.get("meets_bond_limit") is False:
        resistance = figures["contact_resistance_mOhm"]
        yield Exclusion(Reason.BOND_LIMIT, f"Its contact has {resistance:.3g} mOhm when new.")
