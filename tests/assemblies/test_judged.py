from __future__ import annotations

import pytest

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.joints import Joint
from service.assemblies.judged import BLOCK_JOINTS, JudgedJoint, by_part, judge_joints
from service.assemblies.outcomes import Outcomes
from service.assemblies.parts import Part
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Severity, Verdict

PLACE = "marine-atmosphere-0-100-m"
PARTS = {
    "plate": Part("plate", text="EN AW-6082-T6", wetted_area_m2=0.1),
    "bar": Part("bar", text="CW024A", wetted_area_m2=0.1),
    "twin": Part("twin", text="EN AW-6082-T6", wetted_area_m2=0.1),
    "riddle": Part("riddle", text="qqxj wvvk", wetted_area_m2=0.1),
    "board": Part("board"),
}


def judge(catalogue: Catalogue, *joints: Joint, place: str = PLACE) -> list[JudgedJoint]:
    assembly = Assembly(PARTS, joints, programme=Programme(environment=place))
    return judge_joints(assembly, Outcomes(catalogue, DEFAULT_POLICY))


def test_joints_come_back_in_their_order_with_their_verdicts(catalogue: Catalogue) -> None:
    bad, good, unknown = judge(
        catalogue, Joint("1", "plate", "bar"), Joint("2", "plate", "twin"), Joint("3", "plate", "riddle")
    )
    assert (bad.verdict, bad.severity) == (Verdict.UNSUITABLE, Severity.SEVERE)
    assert good.verdict in {Verdict.SUITABLE, Verdict.CONDITIONAL}
    assert (unknown.verdict, unknown.severity) == (Verdict.UNDETERMINED, None)
    assert bad.urgency < unknown.urgency < good.urgency


def test_what_cannot_be_asked_is_told(catalogue: Catalogue) -> None:
    nameless, placeless, misplaced = (
        judge(catalogue, Joint("1", "plate", "board"))[0],
        judge(catalogue, Joint("2", "plate", "bar"), place="")[0],
        judge(catalogue, Joint("3", "plate", "bar", environment="nowhere"))[0],
    )
    for item, pointer in ((nameless, "/second"), (placeless, "/environment"), (misplaced, "/environment")):
        assert item.verdict is Verdict.UNDETERMINED
        assert (item.worst, item.severity) == (None, None)
        assert [refusal.pointer for refusal in item.refusals] == [pointer]
        assert item.kinetic_severity_of("plate") is None


def test_a_joint_is_as_bad_as_its_worst_case(catalogue: Catalogue) -> None:
    assembly = Assembly(
        {**PARTS, "dry": Part("dry", text="CW024A", zone="clean-room", wetted_area_m2=0.1)},
        (Joint("1", "plate", "dry"),),
        programme=Programme(environment=PLACE),
    )
    parts = {**assembly.parts, "plate": Part("plate", text="EN AW-6082-T6", zone=PLACE, wetted_area_m2=0.1)}
    (item,) = judge_joints(Assembly(parts, assembly.joints), Outcomes(catalogue, DEFAULT_POLICY))
    assert len(item.cases) == 2
    assert item.depends_on_case
    assert item.verdict is Verdict.UNSUITABLE
    assert item.worst is not None
    assert item.worst[0].inquiry.environment == PLACE


def test_one_refused_case_leaves_the_question_open(catalogue: Catalogue) -> None:
    parts = {
        "plate": Part("plate", text="EN AW-6082-T6", zone="clean-room", wetted_area_m2=0.1),
        "twin": Part("twin", text="EN AW-6082-T6", zone="nowhere", wetted_area_m2=0.1),
    }
    (item,) = judge_joints(
        Assembly(parts, (Joint("1", "plate", "twin"),)), Outcomes(catalogue, DEFAULT_POLICY)
    )
    assert len(item.cases) == 1
    assert item.verdict is Verdict.UNDETERMINED


def test_the_computed_attack_belongs_to_the_part_that_is_eaten(catalogue: Catalogue) -> None:
    (item,) = judge(catalogue, Joint("1", "bar", "plate"))
    assert item.kinetic_severity_of("plate") is Severity.SEVERE
    assert item.kinetic_severity_of("bar") is Severity.NONE
    assert item.kinetic_severity_of("board") is Severity.NONE


def test_progress_is_told_block_by_block(catalogue: Catalogue) -> None:
    joints = tuple(Joint(str(number), "plate", "twin") for number in range(BLOCK_JOINTS + 3))
    told: list[int] = []
    assembly = Assembly(PARTS, joints, programme=Programme(environment="clean-room"))
    judged = judge_joints(assembly, Outcomes(catalogue, DEFAULT_POLICY), advance=told.append)
    assert told == [BLOCK_JOINTS, 3]
    assert [item.joint.id for item in judged] == [joint.id for joint in joints]


@pytest.mark.parametrize("name", ["plate", "bar", "twin"])
def test_joints_of_a_part_include_those_it_shares(catalogue: Catalogue, name: str) -> None:
    judged = judge(catalogue, Joint("1", "plate", "bar", alike=(("twin", "bar"),)))
    assert by_part(judged)[name] == judged
