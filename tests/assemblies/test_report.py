from __future__ import annotations

import hashlib
from dataclasses import replace

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.errors import InvalidAssemblyError, ReleaseMismatchError
from service.assemblies.joints import Joint
from service.assemblies.outcomes import Outcomes, canonical
from service.assemblies.parts import Part
from service.assemblies.reading import File, read_assembly
from service.assemblies.report import Report, check, questions_of
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Severity, Verdict
from tests.seed_catalogue import SEED_DATA

PLACE = "marine-atmosphere-0-100-m"
PARTS = {
    "plate": Part("plate", "P-1", "Plate", text="EN AW-6082-T6", wetted_area_m2=0.1, revision="B"),
    "bar": Part("bar", "P-2", "Bar", text="CW024A", wetted_area_m2=0.1),
    "twin": Part("twin", "P-3", "Twin", text="EN AW-6082-T6", wetted_area_m2=0.1),
}
JOINTS = (Joint("mild", "plate", "twin"), Joint("bad", "plate", "bar"))
ASSEMBLY = Assembly(PARTS, JOINTS, programme=Programme(environment=PLACE), name="Mast")


@pytest.fixture(scope="module")
def report(catalogue: Catalogue) -> Report:
    return check(ASSEMBLY, catalogue)


@pytest.fixture(scope="module")
def station(catalogue: Catalogue) -> Report:
    names = ("harbour-tide-gauge.csv", "harbour-tide-gauge-joints.csv")
    files = [File(name, (SEED_DATA / "demo" / name).read_bytes()) for name in names]
    return check(read_assembly(files).assembly, catalogue)


def test_joints_come_worst_first(report: Report) -> None:
    assert [item.joint.id for item in report.joints] == ["bad", "mild"]


def test_totals_count_verdicts_severities_and_parts(report: Report) -> None:
    totals = report.totals
    assert totals["joints"] == totals["pairs"] == 2
    assert sum(totals["by_verdict"].values()) == 2
    assert totals["by_verdict"]["unsuitable"] == 1
    assert totals["by_severity"]["severe"] == 1
    assert (totals["parts"], totals["parts_with_surface"], totals["assumed_joints"]) == (3, 3, 0)


def test_the_hash_is_that_of_the_rest(report: Report) -> None:
    body = {name: value for name, value in report.document.items() if name != "sha256"}
    assert report.sha256 == hashlib.sha256(canonical(body)).hexdigest()
    assert report.json == canonical(report.document)


def test_the_same_assembly_gives_the_same_bytes(report: Report, catalogue: Catalogue) -> None:
    assert canonical(check(ASSEMBLY, catalogue).document) == canonical(report.document)


def test_judgements_that_are_known_are_used(report: Report, catalogue: Catalogue) -> None:
    outcomes = Outcomes(catalogue, DEFAULT_POLICY)
    first = check(ASSEMBLY, catalogue, outcomes=outcomes)
    again = check(ASSEMBLY, catalogue, outcomes=outcomes)
    assert first.joints[0].cases[0][1] is again.joints[0].cases[0][1]
    assert canonical(again.document) == canonical(report.document)


def test_progress_is_told(catalogue: Catalogue) -> None:
    told: list[int] = []
    check(ASSEMBLY, catalogue, advance=told.append)
    assert told == [2]


def test_a_list_without_joints_is_judged_by_assumed_contacts(catalogue: Catalogue) -> None:
    found = check(replace(ASSEMBLY, joints=()), catalogue)
    assert found.contacts is not None
    assert found.totals["assumed_joints"] == len(found.joints) == 2
    assert found.totals["pairs"] == 3


def test_a_programme_is_judged_by_its_own_release(catalogue: Catalogue) -> None:
    pinned = replace(ASSEMBLY, programme=Programme("Mast", release=catalogue.label, environment=PLACE))
    assert check(pinned, catalogue).totals["joints"] == 2
    other = replace(ASSEMBLY, programme=Programme("Mast", release="2020.1"))
    with pytest.raises(ReleaseMismatchError, match=r"pinned to release '2020\.1'"):
        check(other, catalogue)


def test_a_joint_of_a_part_that_does_not_exist_is_refused(catalogue: Catalogue) -> None:
    with pytest.raises(InvalidAssemblyError) as caught:
        check(replace(ASSEMBLY, joints=(*JOINTS, Joint("x", "plate", "none"))), catalogue)
    assert caught.value.pointer == "/joints/2/second"


def test_effectivity_picks_parts_and_joints(catalogue: Catalogue) -> None:
    parts = {
        **PARTS,
        "bar": replace(PARTS["bar"], effectivity="SN 1-10"),
        "twin": replace(PARTS["twin"], effectivity="SN 11 and on"),
    }
    joints = (*JOINTS, Joint("never", "bar", "twin"))
    whole = check(replace(ASSEMBLY, parts=parts, joints=joints), catalogue)
    assert whole.never_together == ("never",)
    assert whole.totals["joints"] == 2
    early = replace(
        ASSEMBLY, parts=parts, joints=joints, programme=Programme(environment=PLACE, effective_at="SN 5")
    )
    found = check(early, catalogue)
    assert set(found.assembly.parts) == {"plate", "bar"}
    assert [item.joint.id for item in found.joints] == ["bad"]


def test_the_station_is_judged_whole(station: Report) -> None:
    assert station.totals["joints"] == 34
    verdicts = {item.joint.id: item.verdict for item in station.joints}
    assert verdicts["J16"] is Verdict.UNSUITABLE  # carbon fibre on aluminium
    assert verdicts["J11"] is Verdict.SUITABLE  # galvanized on galvanized
    assert all(
        item.severity is not Severity.SEVERE for item in station.joints if item.verdict is Verdict.SUITABLE
    )


def test_the_zinc_of_the_station_protects_its_neighbours(station: Report) -> None:
    (sea,) = [network for network in station.networks if network.network.solutions]
    by_name = {each.finding.part: each for each in sea.parts}
    assert by_name["SK-1115"].is_sacrificial
    assert by_name["SK-1114"].finding.effect.value == "protected"
    assert by_name["SK-1114"].against.value == "milder"


def test_questions_that_were_asked_before_are_not_asked_again(catalogue: Catalogue, report: Report) -> None:
    heard = []
    outcomes = Outcomes(catalogue, DEFAULT_POLICY, lambda inquiry, _: heard.append(inquiry))
    questions = questions_of(ASSEMBLY, catalogue)
    outcomes.of(questions)
    assert check(ASSEMBLY, catalogue, outcomes=outcomes).json == report.json
    assert heard == questions
    assert len(questions) == len(JOINTS)
