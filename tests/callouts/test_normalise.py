from __future__ import annotations

import pytest

from service.callouts.normalise import normalise


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("EN AW-6082–T6", "en aw-6082-t6"),
        ("brüniert", "brueniert"),
        ("bru\u0308niert", "brueniert"),
        ("GROSS ß", "gross ss"),
        ("zingué", "zingue"),
        ("8 µm", "8 um"),
        ("8 μm", "8 um"),
        ("M6×20", "m6x20"),
        ("30 µ″", '30 u"'),
        ("275 g/m²", "275 g/m2"),
        ("½", "1/2"),
        ("Inconel™ 718", "inconel  718"),
        ("≥ 5", ">= 5"),
        ("a\tb\nc", "a b;c"),
        ("nul\x00", "nul "),
        ("ﬁn", "fin"),
    ],
)
def test_spellings_are_evened_out(text: str, wanted: str) -> None:
    assert normalise(text).text == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("0,8", "0.8"),
        ("0,254", "0.254"),
        ("AlMg4,5Mn0,7", "almg4.5mn0.7"),
        ("Sn96,5Ag3Cu0,5", "sn96.5ag3cu0.5"),
        ("M6x10,304", "m6x10,304"),
        ("M6x20,8.8", "m6x20,8.8"),
        ("1,2,3", "1,2,3"),
        ("Type I,1A", "type i,1a"),
    ],
)
def test_a_comma_is_decimal_only_between_two_lone_figures(text: str, wanted: str) -> None:
    assert normalise(text).text == wanted


def test_plain_text_needs_no_map() -> None:
    normalised = normalise("Fe//Zn8//A")
    assert normalised.offsets is None
    assert normalised.span(4, 7) == (4, 7)


@pytest.mark.parametrize(
    ("text", "word", "written"),
    [
        ("Stahl brüniert blank", "brueniert", "brüniert"),
        ("ü 8.8", "8.8", "8.8"),
        ("Maß ½ Zoll", "1/2", "½"),
        ("bru\u0308n 8", "bruen", "bru\u0308n"),
    ],
)
def test_a_stretch_leads_back_to_the_text_as_written(text: str, word: str, written: str) -> None:
    normalised = normalise(text)
    start = normalised.text.index(word)
    first, last = normalised.span(start, start + len(word))
    assert text[first:last] == written


def test_an_empty_stretch_leads_to_one_place() -> None:
    assert normalise("ü8").span(2, 2) == (1, 2)
