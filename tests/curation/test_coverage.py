from __future__ import annotations

from service.catalogue.records import Obtained
from service.curation.coverage import COUPLES, ENVIRONMENTS, conflicts, deciding_figures, fixed_couples, gaps
from tests.seed_catalogue import seed_catalogue


def test_the_fixed_set_does_not_move() -> None:
    first, second = list(fixed_couples(seed_catalogue())), list(fixed_couples(seed_catalogue()))
    assert first == second
    assert len(first) == COUPLES
    assert {environment for environment, _ in first} == set(ENVIRONMENTS)


def test_every_couple_of_the_fixed_set_is_counted() -> None:
    found = deciding_figures(seed_catalogue())
    assert found.couples == COUPLES
    assert sum(found.witnesses.values()) == COUPLES
    assert 0.0 < found.read_share < 1.0
    assert found.figures[Obtained.READ] > 0


def test_gaps_name_electrodes_of_the_release() -> None:
    catalogue = seed_catalogue()
    assert all(electrode in catalogue.electrodes for ids in gaps(catalogue).values() for electrode in ids)


def test_a_conflict_names_two_figures_that_differ_and_why_one_is_used() -> None:
    found = conflicts(seed_catalogue())
    assert found
    for conflict in found:
        assert conflict.used.subject_id == conflict.other.subject_id
        assert conflict.used.id != conflict.other.id
        assert conflict.reason
