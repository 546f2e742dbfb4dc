from __future__ import annotations

from service.judgement import Inquiry, Side, answer
from service.web.pages.asked import _choices
from tests.seed_catalogue import seed_catalogue

PLACE = "marine-atmosphere-0-100-m"


def test_each_reading_of_a_text_can_be_chosen_with_the_verdict_it_leads_to() -> None:
    catalogue = seed_catalogue()
    (judged,) = answer([Inquiry(Side(text="Cu-ETP, tinned 5 µm"), Side(text="A4-80"), PLACE)], catalogue)
    choices = _choices(judged, catalogue)
    assert len(choices) == len(judged.readings[0].candidates)
    assert {choice.side for choice in choices} == {"first"}
    assert all(choice.verdict for choice in choices)


def test_a_text_that_is_clear_offers_no_choice() -> None:
    catalogue = seed_catalogue()
    (judged,) = answer([Inquiry(Side(text="EN AW-6082-T6"), Side(text="A4-80"), PLACE)], catalogue)
    assert _choices(judged, catalogue) == []
