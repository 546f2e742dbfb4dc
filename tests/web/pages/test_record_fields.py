from __future__ import annotations

from service.web.pages.record_fields import Entry, entries_of, text_of
from tests.seed_catalogue import seed_catalogue


def fields_of(table: str, record_id: str) -> dict[str, Entry]:
    catalogue = seed_catalogue()
    record = getattr(catalogue, table)[record_id]
    return {entry.name: entry for entry in entries_of(catalogue, record)}


def test_a_range_stands_beside_its_middle() -> None:
    found = fields_of("environments", "marine-atmosphere-0-100-m")
    assert found["Temperature"].value == "13\u00a0°C (5 to 26)"
    assert "Temperature low" not in found
    assert fields_of("finishes", "znni")["Thickness"].value == "8\u00a0µm (5 to 15)"


def test_a_range_without_a_middle_is_one_field() -> None:
    found = fields_of("electrodes", "aluminium-6xxx")
    assert found["Pitting factor"].value == "5 to 50"
    assert "Pitting factor low" not in found


def test_abbreviations_are_written_as_people_write_them() -> None:
    assert {"SO₂ deposition", "ISO 9223 category", "pH"} <= set(
        fields_of("environments", "marine-atmosphere-0-100-m")
    )
    assert {"RoHS", "REACH"} <= set(fields_of("finishes", "znni"))


def test_another_record_is_named_and_linked() -> None:
    electrode = fields_of("materials", "al-6082-t6")["Electrode"]
    assert electrode.value == seed_catalogue().electrodes["aluminium-6xxx"].name
    assert electrode.address == "/knowledge/electrodes/aluminium-6xxx"


def test_a_page_elsewhere_is_linked() -> None:
    catalogue = seed_catalogue()
    source = next(each for each in catalogue.sources.values() if each.url.startswith("https://"))
    (address,) = (entry for entry in entries_of(catalogue, source) if entry.name == "Address")
    assert address.address == source.url


def test_one_end_alone_says_which() -> None:
    catalogue = seed_catalogue()
    values = [
        entry.value for compound in catalogue.compounds.values() for entry in entries_of(catalogue, compound)
    ]
    assert any(value.startswith(("from ", "up to ")) or " to " in value for value in values)


def test_values_are_written_plainly() -> None:
    assert text_of(("a", "b")) == "a, b"
    assert text_of(value=True) == "yes"
    assert text_of(0.25) == "0.25"
