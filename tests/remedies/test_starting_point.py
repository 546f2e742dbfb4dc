from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Inquiry, InvalidInquiryError, Side
from service.remedies.errors import UnreadableSurfaceError
from service.remedies.starting_point import starting_point
from tests.factories.remedies import SEA_FRONT


def test_a_joint_is_read_and_judged(catalogue: Catalogue) -> None:
    inquiry = Inquiry(Side(text="EN AW-6082-T6"), Side(text="Cu-ETP"), SEA_FRONT)
    start = starting_point(inquiry, catalogue, DEFAULT_POLICY)
    assert (start.couple.first.material_id, start.couple.second.material_id) == ("al-6082-t6", "cu-etp")
    assert start.environment.id == SEA_FRONT
    assert start.judgement is start.answer.judgement


def test_what_cannot_be_read_cannot_be_helped(catalogue: Catalogue) -> None:
    inquiry = Inquiry(Side(text="zzqx 000"), Side(text="Cu-ETP"), SEA_FRONT)
    with pytest.raises(UnreadableSurfaceError) as caught:
        starting_point(inquiry, catalogue, DEFAULT_POLICY)
    assert any("zzqx 000" in entry for entry in caught.value.missing)
    assert caught.value.sides == ("first",)


def test_a_reading_that_is_too_loose_puts_both_sides_in_question(catalogue: Catalogue) -> None:
    inquiry = Inquiry(
        Side(text="aluminium 6082 T6 anodised"), Side(text="Cu-ETP"), SEA_FRONT, strictest_match=Match.EXACT
    )
    with pytest.raises(UnreadableSurfaceError) as caught:
        starting_point(inquiry, catalogue, DEFAULT_POLICY)
    assert caught.value.sides == ("first", "second")


def test_a_place_that_does_not_exist_is_the_inquiry_at_fault(catalogue: Catalogue) -> None:
    inquiry = Inquiry(Side(text="EN AW-6082-T6"), Side(text="Cu-ETP"), "atlantis")
    with pytest.raises(InvalidInquiryError):
        starting_point(inquiry, catalogue, DEFAULT_POLICY)
