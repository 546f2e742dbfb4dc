from __future__ import annotations

import pytest

from service.callouts.documents import keys_in


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("astm b633", "astmb633"),
        ("astm-b633-19", "astmb633"),
        ("astm a153/a153m-16a", "astma153"),
        ("b633", "astmb633"),
        ("mil-prf-8625f", "mil8625"),
        ("mil-a-8625", "mil8625"),
        ("mil-std-810", "milstd810"),
        ("mil-dtl-5541", "mil5541"),
        ("mil-c-5541e", "milc5541"),
        ("dod-p-16232f", "mil16232"),
        ("qq-p-416f", "qqp416"),
        ("ams-qq-p-416", "qqp416"),
        ("ams2404", "ams2404"),
        ("ams-c-26074", "mil26074"),
        ("def stan 03-20", "defstan03-20"),
        ("iso 2081", "iso2081"),
        ("din en iso 2081:2018-07", "iso2081"),
        ("din 50979", "din50979"),
        ("jis h 8610", "jish8610"),
        ("uni 3740", "std3740"),
    ],
)
def test_revision_year_and_spelling_do_not_change_the_key(text: str, key: str) -> None:
    assert set(keys_in(text)) == {key}


def test_a_text_may_name_several_documents() -> None:
    assert set(keys_in("astm b633 or ams 2404, not en")) == {"astmb633", "ams2404"}
