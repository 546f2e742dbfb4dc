from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY, Ban, HousePolicy
from service.assemblies.joints import Joint
from service.assemblies.outcomes import canonical
from service.assemblies.parts import Part
from service.assemblies.report import Report, check
from service.assemblies.standing import CODE, standing_document
from service.assemblies.waivers import Waiver
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Function

TODAY = dt.date(2026, 11, 25)
PLACE = "marine-atmosphere-0-100-m"
PARTS = {
    "plate": Part("plate", "P-1", text="EN AW-6082-T6", wetted_area_m2=0.1),
    "bar": Part("bar", "P-2", text="CW024A", wetted_area_m2=0.1),
    "feet": Part("feet", "P-3", surface=Surface("steel-s355", (Layer("zn-hdg"),)), wetted_area_m2=0.1),
}
WAIVER = Waiver("W1", "bad", "Spare part.", "A. Person", "design authority", TODAY, TODAY)


@pytest.fixture(scope="module")
def report(catalogue: Catalogue) -> Report:
    joints = (Joint("bad", "plate", "bar"), Joint("fine", "plate", "feet"))
    return check(Assembly(PARTS, joints, programme=Programme(environment=PLACE)), catalogue)


def test_the_report_is_named_and_left_as_it_is(report: Report) -> None:
    before = canonical(report.document)
    found = standing_document(report, DEFAULT_HOUSE_POLICY, [WAIVER], TODAY)
    assert found["report_sha256"] == report.document["sha256"]
    assert canonical(report.document) == before
    assert found["policy"]["sha256"] == DEFAULT_HOUSE_POLICY.sha256
    assert found["date"] == "2026-11-25"


def test_joints_stand_clear_open_or_waived(report: Report) -> None:
    rows = {row["joint"]: row for row in standing_document(report, DEFAULT_HOUSE_POLICY, [], TODAY)["joints"]}
    assert (rows["bad"]["standing"], rows["bad"]["verdict"]) == ("open", "unsuitable")
    found = standing_document(report, DEFAULT_HOUSE_POLICY, [WAIVER], TODAY)
    rows = {row["joint"]: row for row in found["joints"]}
    assert (rows["bad"]["standing"], rows["bad"]["verdict"]) == ("waived", "unsuitable")
    assert found["totals"]["waived"] == 1
    assert sum(found["totals"].values()) == 2


def test_parts_stand_against_bans_and_preferences(report: Report) -> None:
    house = HousePolicy(
        bans=(Ban("B", "No copper.", families=("copper",), waivable_by=("buyer",)),),
        preferred_finishes=("zn-hdg",),
    )
    by_number = replace(WAIVER, subject="P-2", role="buyer")
    rows = {row["part"]: row for row in standing_document(report, house, [by_number], TODAY)["parts"]}
    assert set(rows) == {"bar", "feet"}
    assert rows["bar"]["standing"] == "waived"
    assert rows["feet"]["has_preferred_finish"] is True


def test_nobody_waives_a_code(catalogue: Catalogue) -> None:
    joint = Joint("earth", "plate", "bar", functions=(Function.PROTECTIVE_EARTH,), is_isolated=True)
    report = check(Assembly(PARTS, (joint,), programme=Programme(environment=PLACE)), catalogue)
    assert report.document["joints"][0]["deciding_witness"] == "mandatory"
    waiver = replace(WAIVER, subject="earth")
    (row,) = standing_document(report, DEFAULT_HOUSE_POLICY, [waiver], TODAY)["joints"]
    assert row["standing"] == "open"
    assert {violation["rule"]: violation["is_waived"] for violation in row["violations"]} == {
        "accepted-verdicts": True,
        CODE: False,
    }
