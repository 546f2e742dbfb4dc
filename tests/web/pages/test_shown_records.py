from __future__ import annotations

import pytest

from service.web.pages.shown_records import TABLES, known_as, matching, name_of, related, shown
from tests.seed_catalogue import seed_catalogue


def test_a_material_is_found_by_any_of_its_names() -> None:
    found = [row.id for row in matching(seed_catalogue(), "materials", "1.4401")]
    assert "ss-316" in found
    assert matching(seed_catalogue(), "materials", "no such metal") == []


def test_every_word_of_a_search_counts() -> None:
    catalogue = seed_catalogue()
    both = {row.id for row in matching(catalogue, "finishes", "zinc nickel")}
    assert both
    assert both < {row.id for row in matching(catalogue, "finishes", "zinc")}


@pytest.mark.parametrize("table", list(TABLES))
def test_every_record_can_be_shown(table: str) -> None:
    catalogue = seed_catalogue()
    for record in getattr(catalogue, table).values():
        page = shown(catalogue, table, record)
        assert page.name == name_of(record)
        assert all(entry.value for entry in (*page.entries, *page.provenance))
        if table != "sources" and hasattr(record, "obtained"):
            assert {"Source", "Obtained", "Grade"} <= {entry.name for entry in page.provenance}


def test_units_stand_beside_their_figures() -> None:
    catalogue = seed_catalogue()
    entries = {
        entry.name: entry.value
        for entry in shown(catalogue, "materials", catalogue.materials["al-6082-t6"]).entries
    }
    assert entries["Strength"].endswith("MPa")


def test_links_lead_to_records_that_are_there() -> None:
    catalogue = seed_catalogue()
    for table in TABLES:
        for record in list(getattr(catalogue, table).values())[:40]:
            page = shown(catalogue, table, record)
            for entry in (*page.entries, *page.provenance):
                if entry.address.startswith("/"):
                    _, _, held, record_id = entry.address.split("/", 3)
                    assert record_id in getattr(catalogue, held)


def test_a_material_is_known_by_its_designations() -> None:
    assert "1.4401" in known_as(seed_catalogue(), "ss-316")
    assert known_as(seed_catalogue(), "no such material") == []


def test_figures_set_aside_come_last_with_their_reason() -> None:
    catalogue = seed_catalogue()
    quarantined = next(row for row in catalogue.measurements.values() if row.quarantine_reason)
    table = {"material": "materials", "electrode": "electrodes", "finish": "finishes"}[
        quarantined.subject_kind
    ]
    ((_, data), *_) = related(catalogue, table, getattr(catalogue, table)[quarantined.subject_id])
    aside = [datum for datum in data if datum.set_aside]
    assert quarantined.quarantine_reason in {datum.set_aside for datum in aside}
    assert data[-len(aside) :] == aside


def test_a_source_lists_what_rests_on_it() -> None:
    catalogue = seed_catalogue()
    used = next(iter(catalogue.measurements.values())).source_id
    headings = [heading for heading, _ in related(catalogue, "sources", catalogue.sources[used])]
    assert "Measurements from this source" in headings
