"""What an answer can depend on."""

from __future__ import annotations

from service.assemblies.parts import Part
from service.catalogue.surfaces import Layer, Surface
from service.curation.dependence import (
    keys_of_answer,
    keys_of_part,
    keys_of_surface,
    side_key,
    source_keys,
    words_key,
)
from service.judgement import Function, Inquiry, Side, answer
from tests.factories.knowledge import catalogue_of, small_package
from tests.seed_catalogue import seed_catalogue

PLACE = "marine-atmosphere-0-100-m"


def test_a_surface_depends_on_its_records_and_where_they_lead() -> None:
    catalogue = seed_catalogue()
    finish = next(row for row in catalogue.finishes.values() if row.underplate_id and row.outer_electrode_id)
    keys = keys_of_surface(Surface("al-6082-t6", (Layer(finish.id),)), catalogue)
    electrode = catalogue.materials["al-6082-t6"].electrode_id
    representative = catalogue.electrodes[electrode].representative_material_id
    assert {
        "materials/al-6082-t6",
        f"electrodes/{electrode}",
        f"materials/{representative}",
        f"finishes/{finish.id}",
        f"finishes/{finish.underplate_id}",
        f"electrodes/{finish.outer_electrode_id}",
        f"fact/finish={finish.id}",
    } <= keys


def test_what_is_not_known_is_a_fact_too() -> None:
    keys = keys_of_surface(Surface(None), catalogue_of(small_package()))
    assert {"fact/material=?", "fact/electrode=?"} <= keys


def test_an_answer_depends_on_its_texts_its_place_and_its_joint() -> None:
    inquiry = Inquiry(Side(text="A4-80"), Side(text="CW024A"), PLACE, functions=(Function.SEAL,))
    (judged,) = answer([inquiry], seed_catalogue())
    keys = keys_of_answer(judged)
    assert {
        side_key(inquiry.first),
        f"environments/{PLACE}",
        "fact/functions=seal",
        "fact/exposure=atmosphere",
        "fact/compound=none",
    } <= keys
    assert any(key.startswith("fact/screening_class=") for key in keys)


def test_a_place_that_the_caller_described_is_no_record() -> None:
    place = seed_catalogue().environments[PLACE]
    (judged,) = answer([Inquiry(Side(text="A4-80"), Side(text="CW024A"), place)], seed_catalogue())
    assert not any(key.startswith("environments/") for key in keys_of_answer(judged))


def test_a_part_depends_on_its_surface_or_on_the_words_that_may_name_one() -> None:
    catalogue = catalogue_of(small_package())
    named = Part("1", text="S235JR")
    assert side_key(named.side) in keys_of_part(named, Surface("s235"), catalogue)
    assert "materials/s235" in keys_of_part(named, Surface("s235"), catalogue)
    wordy = Part("2", description="bracket", note="see drawing")
    assert keys_of_part(wordy, None, catalogue) == {words_key("bracket", "see drawing")}


def test_cited_sources_are_found() -> None:
    (judged,) = answer([Inquiry(Side(text="A4-80"), Side(text="CW024A"), PLACE)], seed_catalogue())
    document = judged.document()
    keys = source_keys(document, seed_catalogue())
    assert {f"sources/{item['source_id']}" for item in document["evidence"]} <= keys
