"""Changes touch what they can change, and little else."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.release import freeze, thaw
from service.catalogue.surfaces import Layer, Surface
from service.catalogue.tables import row_from_record
from service.curation.dependence import keys_of_answer, words_key
from service.curation.reach import Reach, could_apply
from service.judgement import Answer, Inquiry, Side, answer
from tests.seed_catalogue import seed_catalogue

PLACE = "marine-atmosphere-0-100-m"
PLATED = Surface("s235jr", (Layer("zn-electroplate"),))
Rows = dict[str, list[dict[str, Any]]]


@cache
def rows() -> Rows:
    tables = seed_catalogue().records().items()
    return {table: [row_from_record(record) for record in records] for table, records in tables}


def changed(table: str, change: Callable[[dict[str, Any]], dict[str, Any] | None]) -> Catalogue:
    """The seed release with every row of a table changed; ``None`` takes a row out."""
    found = [change(dict(row)) for row in rows()[table]]
    return thaw(freeze("later", {**rows(), table: [row for row in found if row is not None]}))


def one(table: str, record_id: str, **values: Any) -> Catalogue:
    return changed(table, lambda row: row | values if row["id"] == record_id else row)


@cache
def answers() -> Sequence[Answer]:
    return answer(
        [
            Inquiry(Side(text="EN AW-6082-T6"), Side(text="A4-80"), PLACE),
            Inquiry(Side(text="CW024A"), Side(text="S235JR"), "heated-indoor"),
        ],
        seed_catalogue(),
    )


def touched(after: Catalogue) -> list[bool]:
    reach = Reach.of(seed_catalogue(), after)
    return [bool(reach.touching(keys_of_answer(each))) for each in answers()]


def electrode(place: int, side: int) -> str:
    couple = answers()[place].judgements[0].couple
    material = (couple.first, couple.second)[side].material_id
    return seed_catalogue().materials[material or ""].electrode_id


def test_nothing_is_touched_by_nothing() -> None:
    reach = Reach.of(seed_catalogue(), thaw(freeze("later", rows())))
    assert reach.changes == ()
    assert [reach.touching(keys_of_answer(each)) for each in answers()] == [(), ()]


def test_kinetics_touch_where_their_metal_stands() -> None:
    record = seed_catalogue().kinetics_of[electrode(0, 0)][0]
    assert touched(one("kinetics", record.id, cathodic_slope_V=0.123)) == [True, False]


def test_a_measurement_touches_its_subject_even_when_it_goes() -> None:
    name = electrode(1, 0)
    record = seed_catalogue().measurements_of["electrode", name][0]
    gone = changed("measurements", lambda row: None if row["id"] == record.id else row)
    assert touched(gone) == [False, True]


def test_an_environment_touches_who_lives_there() -> None:
    assert touched(one("environments", PLACE, temperature_C=30.0)) == [True, False]


def test_a_limit_touches_its_class_of_service() -> None:
    classes = [answer.environment.screening_class for answer in answers()]
    assert classes[0] != classes[1]
    limits = [row for row in seed_catalogue().limits.values() if row.screening_class == classes[0]]
    assert touched(one("limits", limits[0].id, limit_V=0.01)) == [True, False]


def test_what_no_verdict_rests_on_touches_nothing() -> None:
    assert touched(changed("mitigations", lambda row: row | {"name": "x"})) == [False, False]
    assert touched(changed("sources", lambda row: row | {"title": "x"})) == [False, False]


def test_a_name_touches_only_what_reads_differently_without_it() -> None:
    names = {"A4-80", "A4"}
    gone = changed("designations", lambda row: None if row["text"] in names else row)
    assert touched(gone)[1] is False
    (change, *_) = Reach.of(seed_catalogue(), gone).changes
    assert change.table == "designations"


def test_words_of_a_part_are_read_again() -> None:
    gone = changed("designations", lambda row: None if "6082" in row["text"] else row)
    reach = Reach.of(seed_catalogue(), gone)
    read = {
        text: bool(reach.touching({words_key(text, "")})) for text in ("flange EN AW-6082", "bag of nuts")
    }
    assert read["bag of nuts"] is False


RULE = {
    "pair": [{"electrode": ["zinc", "tin"]}, {"family": "copper"}],
    "joint": {"functions": {"has": "seal"}},
}


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({"electrode": {"zinc"}, "family": {"copper"}, "functions": {"seal"}}, True),
        ({"electrode": {"zinc"}, "family": {"copper"}, "functions": {"rf"}}, False),
        ({"electrode": {"iron"}, "family": {"copper"}, "functions": {"seal"}}, False),
        ({"electrode": {"?"}, "family": {"copper"}, "functions": {"seal"}}, True),
        ({"electrode": {"tin"}, "functions": {"seal"}}, False),
    ],
)
def test_a_rule_is_ruled_out_by_what_is_known(facts: dict[str, set[str]], expected: bool) -> None:  # noqa: FBT001
    assert could_apply(RULE, facts) is expected


def test_figures_and_denials_rule_nothing_out() -> None:
    for condition in ({"strength_MPa": {"above": 1000}}, {"electrode": {"not": "zinc"}}, {"thickness_um": 3}):
        assert could_apply({"one": condition}, {"electrode": {"zinc"}})
    assert could_apply(
        {"computed": {"difference_V": {"above": 1}}, "environment": {"tags": {"not": "x"}}}, {}
    )
    assert not could_apply({"environment": {"tags": {"has_any": ["sulfide"]}}}, {"tags": set()})
    assert could_apply({"joint": {"is_isolated": True}}, {"is_isolated": {"True"}})
