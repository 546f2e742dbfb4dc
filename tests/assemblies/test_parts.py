from __future__ import annotations

import pytest

from service.assemblies import Assembly, Joint, Part
from service.judgement import Side

PARTS = {
    "P1": Part("P1", "Mast", "EN AW-6082-T6", "anodized 15 µm", 120.0),
    "P2": Part("P2", "Screw", "A4-80"),
}


def test_a_finish_note_kept_apart_stays_apart() -> None:
    assert PARTS["P1"].side == Side(material="EN AW-6082-T6", finish="anodized 15 µm")
    assert PARTS["P2"].side == Side(text="A4-80")


def test_a_joint_becomes_a_question_in_si_units() -> None:
    joint = Joint("J1", "P1", "P2", "somewhere", second_area_cm2=2.0, fastener_radius_mm=4.0, current_A=16.0)
    inquiry = Assembly(PARTS, (joint,)).inquiry(joint)
    assert inquiry.first_area_m2 == pytest.approx(0.012)
    assert inquiry.second_area_m2 == pytest.approx(0.0002)
    assert inquiry.fastener_radius_m == pytest.approx(0.004)
    assert inquiry.contact.current_A == 16.0


def test_the_area_of_the_joint_goes_before_that_of_the_part() -> None:
    joint = Joint("J1", "P1", "P2", "somewhere", first_area_cm2=5.0)
    inquiry = Assembly(PARTS, (joint,)).inquiry(joint)
    assert inquiry.first_area_m2 == pytest.approx(0.0005)
    assert inquiry.second_area_m2 is None
