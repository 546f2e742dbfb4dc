from __future__ import annotations

from service.callouts.resolver import Resolver


def spans(text: str, resolver: Resolver) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for span in resolver.resolve(text).candidates[0].spans:
        found.setdefault(span.field, []).append(text[span.start : span.end])
    return found


def test_every_field_points_at_its_characters(resolver: Resolver) -> None:
    text = "Gehäuse EN AW-6082-T6, schwarz eloxiert 20 µm, zerkratzt"
    assert spans(text, resolver) == {
        "material": ["EN AW-6082-T6"],
        "temper": ["EN AW-6082-T6"],
        "finish": ["schwarz", "eloxiert"],
        "thickness": ["20 µm"],
        "condition": ["zerkratzt"],
    }


def test_a_code_justifies_finish_and_thickness(resolver: Resolver) -> None:
    assert spans("8.8, Fe//Zn8//An//T0", resolver) == {
        "material": ["8.8"],
        "finish": ["Fe//Zn8//An//T0"],
        "thickness": ["Fe//Zn8//An//T0"],
    }


def test_a_document_and_its_types_justify_the_finish(resolver: Resolver) -> None:
    found = spans("S235JR, ASTM B633, Type III SC2", resolver)
    assert found["finish"] == ["ASTM B633", "Type III", "SC2"]


def test_a_temper_apart_from_the_name_points_at_itself(resolver: Resolver) -> None:
    assert spans("CW004A, R290", resolver)["temper"] == ["R290"]


def test_the_word_for_no_finish_justifies_the_finish(resolver: Resolver) -> None:
    assert spans("1.4301 blank", resolver)["finish"] == ["blank"]


def test_a_span_says_how_it_was_read(resolver: Resolver) -> None:
    (span,) = resolver.resolve("A4-80").candidates[0].spans
    assert span.reason == "stainless fastener group ISO 3506"


def test_a_corrected_word_points_at_what_was_written(resolver: Resolver) -> None:
    assert spans("6061-T6 hard anodzied", resolver)["finish"] == ["hard anodzied"]
