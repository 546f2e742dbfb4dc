from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import UnknownRecordError
from service.judgement.evidence import MOST_ALTERNATIVES, EvidenceItem, citation, collect, csl, item
from service.judgement.findings import Finding, Witness
from tests.factories.couples import ALUMINIUM, COAST, COPPER, SEA, STAINLESS, TAP, judged
from tests.factories.knowledge import Values, catalogue_of, row, small_package


@pytest.mark.parametrize("environment_id", [COAST, SEA, TAP, "soil-corrosive"])
def test_every_item_names_a_source_that_exists(environment_id: str, catalogue: Catalogue) -> None:
    judgement = judged(ALUMINIUM, STAINLESS, environment_id, catalogue)
    items = collect(judgement.findings, catalogue)
    assert items
    for entry in items:
        assert entry.source_id in catalogue.sources
        assert entry.citation
        assert entry.used_by
        assert catalogue.record(entry.table, entry.id).source_id == entry.source_id


def test_a_record_is_listed_once_with_all_who_used_it(catalogue: Catalogue) -> None:
    rule = next(iter(catalogue.rules))
    findings = {
        witness: Finding(witness, "", evidence=(("rules", rule),))
        for witness in (Witness.HAZARDS, Witness.EXPERIENCE)
    }
    (entry,) = collect(findings, catalogue)
    assert entry.used_by == ("hazards", "experience")


def test_a_record_that_is_not_there_is_an_error(catalogue: Catalogue) -> None:
    finding = Finding(Witness.HAZARDS, "", evidence=(("rules", "no such rule"),))
    with pytest.raises(UnknownRecordError):
        collect({Witness.HAZARDS: finding}, catalogue)


def described(table: str, catalogue: Catalogue) -> EvidenceItem:
    return item(table, next(iter(getattr(catalogue, table))), catalogue, ["kinetics"])


def test_a_measurement_comes_with_its_conditions_and_reference(catalogue: Catalogue) -> None:
    record = next(row for row in catalogue.measurements.values() if row.quantity == "corrosion_potential")
    entry = item("measurements", record.id, catalogue, [])
    assert (entry.value, entry.low, entry.high, entry.unit) == (
        record.value,
        record.low,
        record.high,
        record.unit,
    )
    assert entry.reference_electrode == record.reference_electrode
    assert record.electrolyte_id in entry.conditions
    assert "; -" not in entry.conditions


def test_kinetics_are_named_by_state_and_electrolyte(catalogue: Catalogue) -> None:
    entry = described("kinetics", catalogue)
    record = catalogue.kinetics[entry.id]
    assert (entry.unit, entry.reference_electrode) == ("V", "SHE")
    assert record.state.value in entry.conditions


def test_a_limit_says_which_rule_it_is(catalogue: Catalogue) -> None:
    entry = described("limits", catalogue)
    assert entry.value == catalogue.limits[entry.id].limit_V
    assert (entry.low, entry.high) == (None, None)
    assert entry.conditions == catalogue.limits[entry.id].rule


@pytest.mark.parametrize("table", ["rules", "compounds", "finishes"])
def test_what_holds_no_figure_is_named_by_its_kind(table: str, catalogue: Catalogue) -> None:
    entry = described(table, catalogue)
    record = catalogue.record(table, entry.id)
    assert entry.subject == record.name
    assert entry.quantity == getattr(record, "kind", "record")
    assert (entry.value, entry.unit, entry.not_used) == (None, "", ())


def measured(identifier: str, **figures: object) -> Values:
    defaults: Values = {
        "value": -1.0,
        "unit": "V",
        "scale_id": "series",
        "electrolyte_id": "brine",
        "state": "-",
        "quantity": "corrosion_potential",
    }
    return row(
        "measurements", id=identifier, subject_kind="electrode", subject_id="zinc", **(defaults | figures)
    )


def test_figures_set_aside_are_shown_with_the_reason() -> None:
    package = small_package()
    package["measurements"] = [
        measured("used"),
        measured("spoilt", quarantine_reason="polluted"),
        measured("active", state="active", low=-1.1, high=-0.9),
        measured("elsewhere", electrolyte_id="", value=None, low=-0.8),
        measured("below", electrolyte_id="", value=None, high=-0.35),
        measured("weaker", obtained="from memory", value=None),
        measured("density", quantity="density"),
    ]
    reasons = {
        entry.id: (entry.value, entry.reason)
        for entry in item("measurements", "used", catalogue_of(package), []).not_used
    }
    assert reasons == {
        "spoilt": ("-1 V", "polluted"),
        "active": ("-1.1 to -0.9 V", "another state"),
        "elsewhere": ("-0.8 V", "another scale or electrolyte"),
        "below": ("at most -0.35 V", "another scale or electrolyte"),
        "weaker": ("", "grade D against D"),
    }


def test_other_kinetics_of_the_electrode_are_shown(catalogue: Catalogue) -> None:
    electrode = next(key for key, rows in catalogue.kinetics_of.items() if len(rows) > 1)
    used, *others = catalogue.kinetics_of[electrode]
    shown = item("kinetics", used.id, catalogue, []).not_used
    assert [entry.id for entry in shown] == [row.id for row in others][:MOST_ALTERNATIVES]
    assert all(entry.reason for entry in shown)


def test_a_citation_lets_a_reader_find_the_page(catalogue: Catalogue) -> None:
    source = next(entry for entry in catalogue.sources.values() if entry.doi)
    text = citation(source, "table 2")
    assert source.title in text
    assert "table 2" in text
    assert text.endswith(f"doi {source.doi}")
    assert "doi" not in citation(replace(source, doi=""), "")


@pytest.mark.parametrize(
    ("kind", "said"),
    [("memory", "from memory, no page consulted"), ("practice", "common practice, no source")],
)
def test_a_citation_says_when_nothing_was_read(kind: str, said: str, catalogue: Catalogue) -> None:
    source = next(iter(catalogue.sources.values()))
    assert citation(replace(source, kind=kind), "page 3") == said


def test_a_source_becomes_an_item_of_the_citation_style_language(catalogue: Catalogue) -> None:
    source = next(iter(catalogue.sources.values()))
    paper = replace(
        source, kind="paper", authors="F. Mansfeld; J. V. Kenkel", year=1974, doi="10.1/x", url="", edition=""
    )
    entry = csl(paper)
    assert entry["type"] == "article-journal"
    assert entry["author"] == [{"literal": "F. Mansfeld"}, {"literal": "J. V. Kenkel"}]
    assert entry["issued"] == {"date-parts": [[1974]]}
    assert entry["DOI"] == "10.1/x"
    assert "URL" not in entry


def test_a_source_without_authors_or_year_leaves_them_out(catalogue: Catalogue) -> None:
    source = next(iter(catalogue.sources.values()))
    entry = csl(replace(source, kind="memory", authors="", year=None))
    assert entry["type"] == "document"
    assert not {"author", "issued"} & set(entry)


def test_copper_and_aluminium_at_sea_rest_on_more_than_one_witness(catalogue: Catalogue) -> None:
    items = collect(judged(ALUMINIUM, COPPER, SEA, catalogue).findings, catalogue)
    assert len({name for entry in items for name in entry.used_by}) > 2
