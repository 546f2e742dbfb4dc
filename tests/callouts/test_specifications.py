from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.marks import Aside, Clues, Sense, Spec, Unread
from service.callouts.patterns import grams_of, marks_of
from service.callouts.specifications import PATTERNS


def read(text: str, lexicon: Lexicon) -> list[Sense]:
    return [mark.sense for mark in marks_of(PATTERNS, text, grams_of(text), lexicon)]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("astm b633", "ASTM B633"),
        ("astm-b633-19", "ASTM B633"),
        ("b633", "ASTM B633"),
        ("mil-prf-8625f", "MIL-PRF-8625"),
        ("mil-a-8625", "MIL-PRF-8625"),
        ("mil-dtl-5541", "MIL-DTL-5541"),
        ("mil-c-5541e", "MIL-C-5541"),
        ("qq-p-416f", "QQ-P-416"),
        ("ams-qq-p-416", "QQ-P-416"),
        ("ams2404", "AMS 2404"),
        ("ams-c-26074", "MIL-C-26074"),
        ("iso 2081", "ISO 2081"),
        ("din en iso 2081:2018-07", "ISO 2081"),
        ("ipc-4552", "enig"),
        ("tt-c-490", "TT-C-490"),
        ("def stan 03-20", "DEF STAN 03-20"),
    ],
)
def test_one_document_has_one_key(text: str, name: str, lexicon: Lexicon) -> None:
    sense = read(text, lexicon)[0]
    assert isinstance(sense, Spec)
    assert sense.name == name


@pytest.mark.parametrize(
    "text",
    [
        "din 912",
        "iso 4762",
        "asme b18.3",
        "nas1149",
        "ms16995",
        "mil-std-810",
        "ams 4027",
        "astm b209",
        "en 10025-2:2019",
        "jis b 1180",
    ],
)
def test_product_and_material_documents_are_set_aside(text: str, lexicon: Lexicon) -> None:
    assert all(isinstance(sense, Aside) for sense in read(text, lexicon))
    assert read(text, lexicon)


@pytest.mark.parametrize("text", ["ams 2416", "mil-c-99999", "astm b999", "bac5732", "tt-p-9999"])
def test_an_unknown_process_document_is_reported(text: str, lexicon: Lexicon) -> None:
    assert read(text, lexicon) == [Unread(text)]


def test_the_catalogue_answers_for_documents_beyond_the_grammars(lexicon: Lexicon) -> None:
    (sense,) = read("ams2447", lexicon)
    assert isinstance(sense, Spec)
    callout = sense.read(Clues())
    assert callout is not None
    assert [option.finish_id for option in callout.coats[0].options] == ["hvof-wc"]
    assert sense.read(Clues(kinds=frozenset({"zn"}))) is None


def test_a_document_of_several_finishes_asks(lexicon: Lexicon) -> None:
    (sense,) = read("mil-dtl-38999", lexicon)
    assert isinstance(sense, Spec)
    callout = sense.read(Clues())
    assert callout is not None
    assert callout.coats[0].question == "Which finish of MIL-DTL-38999 is it?"


@pytest.mark.parametrize("text", ["gmw3044", "tl 244", "vw 13750", "wss-m1p87-b1", "psa b15 4101", "mfzn2"])
def test_a_finish_document_of_a_maker_is_reported(text: str, lexicon: Lexicon) -> None:
    assert any(isinstance(sense, Unread) for sense in read(text, lexicon))
