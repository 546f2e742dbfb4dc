"""The mapping puts every documented case, once and with a reason where it does not."""

from __future__ import annotations

import hashlib
from collections import Counter

import pytest

from tests.validation.cases import DATA, FILES, inquiry_of, mapping, seed_catalogue, sources, usable_cases

ROWS = {
    "galvanic_couples_measured.csv": (55, "a0f59572cdae"),
    "galvanic_numeric.csv": (12, "0f12dd9fb3a8"),
    "qualitative_cases.csv": (45, "10c2e668c252"),
}


@pytest.mark.parametrize("name", FILES)
def test_the_cases_are_the_ones_that_were_collected(name: str) -> None:
    content = (DATA / name).read_bytes()
    assert (content.count(b"\n") - 1, hashlib.sha256(content).hexdigest()[:12]) == ROWS[name]


def test_every_case_is_mapped_and_every_row_names_a_case() -> None:
    assert {row["case_id"] for row in mapping()} == set(sources())


def test_no_part_stands_twice() -> None:
    counts = Counter((row["case_id"], row["part"]) for row in mapping())
    assert max(counts.values()) == 1


def test_what_is_left_out_says_why() -> None:
    for row in mapping():
        assert (row["usable"] == "no") == bool(row["excluded_because"]), row["case_id"]


def test_every_case_can_be_asked() -> None:
    catalogue = seed_catalogue()
    for case in usable_cases():
        inquiry = inquiry_of(case, catalogue)
        for side in (inquiry.first, inquiry.second):
            assert side.material in catalogue.materials, case.name
            assert not side.finish or side.finish in catalogue.finishes, case.name


def test_every_question_can_be_scored() -> None:
    for case in usable_cases():
        known = case.documented
        assert known.anode or known.severity or known.function_severity or known.rank or known.acceleration


def test_a_study_compares_at_least_two() -> None:
    sizes = Counter(case.documented.study for case in usable_cases() if case.documented.study)
    assert min(sizes.values()) > 1
