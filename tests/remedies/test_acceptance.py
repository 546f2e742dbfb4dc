from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Contact, Function, Verdict
from service.remedies.acceptance import shortfalls, why
from service.remedies.constraints import Constraints
from service.remedies.measures import Life
from service.remedies.reasons import Reason
from tests.factories.remedies import COPPER, couple_of, judged


def reasons(*args: object, **kwargs: object) -> list[Reason]:
    return [exclusion.reason for exclusion in shortfalls(*args, **kwargs)]  # type: ignore[arg-type]


def test_unsuitable_and_undetermined_are_no_way_out(catalogue: Catalogue) -> None:
    bad = judged(catalogue)
    assert reasons(bad, None, Constraints()) == [Reason.UNSUITABLE]
    unknown = replace(bad, outcome=replace(bad.outcome, verdict=Verdict.UNDETERMINED, deciding=None))
    (exclusion,) = shortfalls(unknown, None, Constraints())
    assert exclusion.reason is Reason.UNDETERMINED
    assert exclusion.detail == why(unknown) == "Nothing is known of this couple here."


def test_conditional_is_accepted_unless_only_suitable_is(catalogue: Catalogue) -> None:
    isolated = judged(catalogue, couple_of(is_isolated=True))
    assert isolated.outcome.verdict is Verdict.CONDITIONAL
    assert reasons(isolated, None, Constraints()) == []
    assert reasons(isolated, None, Constraints(accept=Verdict.SUITABLE)) == [Reason.UNSUITABLE]


@pytest.mark.parametrize(
    ("life", "expected"),
    [
        (None, [Reason.LIFE]),
        (Life(4.0, 9.0, "thickness of the coat"), [Reason.LIFE]),
        (Life(5.0, 9.0, "thickness of the coat"), []),
    ],
)
def test_the_least_life_has_to_be_shown(
    life: Life | None, expected: list[Reason], catalogue: Catalogue
) -> None:
    isolated = judged(catalogue, couple_of(is_isolated=True))
    assert reasons(isolated, life, Constraints(min_life_years=5.0)) == expected


def test_the_bond_limit_counts(catalogue: Catalogue) -> None:
    duty = Contact(force_N=1.0, bond_limit_ohm=1e-9)
    bond = couple_of(COPPER, COPPER, functions=(Function.ELECTRICAL_BOND,), contact=duty)
    assert reasons(judged(catalogue, bond), None, Constraints()) == [Reason.BOND_LIMIT]
