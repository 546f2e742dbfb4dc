"""The invented tide-gauge station: every row points at something that exists."""

from __future__ import annotations

import csv
from functools import cache

from service.judgement.couples import Function, Geometry
from tests.seed_data.csv_rows import SEED_DATA, ids

DEMO = SEED_DATA / "demo"


@cache
def table(name: str) -> list[dict[str, str]]:
    with (DEMO / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def parts() -> dict[str, dict[str, str]]:
    return {row["part_number"]: row for row in table("harbour-tide-gauge.csv")}


def joints() -> list[dict[str, str]]:
    return table("harbour-tide-gauge-joints.csv")


def test_the_station_is_of_the_promised_size() -> None:
    assert 35 <= sum(bool(row["material"]) for row in parts().values()) <= 50
    assert len(parts()) == len(table("harbour-tide-gauge.csv"))
    assert len(joints()) >= 25


def test_the_tree_hangs_together() -> None:
    assert {row["parent"] for row in parts().values()} - {""} <= set(parts())
    assert [row["part_number"] for row in parts().values() if not row["parent"]] == ["SK-1000"]


def test_zones_and_environments_exist() -> None:
    assert {row["zone"] for row in parts().values()} - {""} <= ids("environments")
    assert {row["environment"] for row in joints()} <= ids("environments")


def test_joints_name_parts_functions_geometries_and_compounds() -> None:
    for row in joints():
        for side in ("part_a", "part_b"):
            assert parts()[row[side]]["material"], row["joint"]
        assert {Function(name) for name in row["functions"].split(";")}, row["joint"]
        assert Geometry(row["geometry"]), row["joint"]
        assert row["compound"] in ids("compounds") | {""}, row["joint"]
        assert float(row["area_a_cm2"]) > 0 < float(row["area_b_cm2"]), row["joint"]


def test_every_part_is_in_a_joint_or_inside_the_logger() -> None:
    used = {row[side] for row in joints() for side in ("part_a", "part_b")}
    alone = {number for number, row in parts().items() if row["material"] and number not in used}
    assert alone == {"SK-1319"}


def test_the_demonstration_says_that_it_is_invented() -> None:
    assert "invented" in (DEMO / "README.md").read_text(encoding="utf-8")
