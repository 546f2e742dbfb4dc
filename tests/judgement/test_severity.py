from __future__ import annotations

import pytest

from service.judgement.severity import VERDICT_OF, Severity, Verdict, by_rank, worst


def test_severities_are_ordered_from_none_to_severe() -> None:
    assert [severity.rank for severity in Severity] == [0, 1, 2, 3]


def test_worst_of_nothing_is_none() -> None:
    assert worst([]) is Severity.NONE


def test_worst_takes_the_highest_rank() -> None:
    assert worst([Severity.SLIGHT, Severity.SEVERE, Severity.NONE]) is Severity.SEVERE


@pytest.mark.parametrize(
    ("rank", "severity"), [(-1, Severity.NONE), (2, Severity.MODERATE), (9, Severity.SEVERE)]
)
def test_by_rank_stays_within_the_ends(rank: int, severity: Severity) -> None:
    assert by_rank(rank) is severity


def test_a_cap_only_makes_it_milder() -> None:
    assert Severity.SEVERE.capped(Severity.MODERATE) is Severity.MODERATE
    assert Severity.SLIGHT.capped(Severity.MODERATE) is Severity.SLIGHT


def test_every_severity_leads_to_a_verdict() -> None:
    assert set(VERDICT_OF) == set(Severity)
    assert VERDICT_OF[Severity.SEVERE] is Verdict.UNSUITABLE
