"""One assembly judged again: what it rests on, what is written, what is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import orjson
import pytest

from service.catalogue.catalogue import Catalogue
from service.curation.dependence import PINNED
from service.jobs.rejudging import JudgedAssembly, Readable, Rejudging, remove
from service.storage import Database, Shelf
from service.storage.repositories.assemblies import AssembliesRepository, StoredAssembly
from service.storage.repositories.policies import PoliciesRepository
from tests.factories.portfolio import FIRST, MARINE, body, lines, publish_first, read, see, store, stored


@pytest.fixture
def station(database: Database) -> Database:
    publish_first(database)
    return database


def judged(database: Database, assembly: StoredAssembly) -> JudgedAssembly:
    shelf = Shelf(database)
    (found,) = Rejudging(database, see(shelf), read, shelf.as_of(FIRST)).judge_all([assembly.id])
    return found


def write(database: Database, *found: JudgedAssembly) -> None:
    with database.writing() as session:
        for each in found:
            each.write(session)


def test_a_report_remembers_what_it_rests_on(station: Database) -> None:
    found = judged(station, store(station, "mast", body()))
    assert {f"environments/{MARINE}", "materials/al-6082-t6"} <= set(found.judged.rests_on)
    assert orjson.loads(found.judged.report)["totals"]["joints"] == 1
    assert found.line["events"] == ["verdicts.created"]


def test_a_pinned_assembly_rests_on_its_release_alone(station: Database) -> None:
    found = judged(station, store(station, "mast", body(release=FIRST)))
    assert PINNED not in found.judged.rests_on
    shelf = Shelf(station)
    from tests.factories.portfolio import publish_changed

    label = publish_changed(station, "environments", MARINE, exposure="indoor")
    (later,) = Rejudging(station, see(shelf), read, shelf.as_of(label)).judge_all([found.stored.id])
    assert list(later.judged.rests_on) == [PINNED]
    assert orjson.loads(later.judged.report)["release"]["label"] == FIRST


def test_what_two_workers_found_is_written_once(station: Database) -> None:
    mast = store(station, "mast", body())
    write(station, judged(station, mast))
    write(station, judged(station, mast), judged(station, mast))
    assert [line.kind for line in lines(station)] == ["verdicts.created"]


def test_the_same_finding_twice_is_told_once(station: Database) -> None:
    mast = store(station, "mast", body())
    one, other = judged(station, mast), judged(station, mast)
    write(station, one, other)
    assert [line.kind for line in lines(station)] == ["verdicts.created"]


def test_a_report_on_an_older_version_is_dropped(station: Database) -> None:
    mast = store(station, "mast", body())
    found = judged(station, mast)
    with station.writing() as session:
        AssembliesRepository(session).replace(mast.id, body(second="EN AW-6082-T6"), version=1)
    write(station, found)
    assert stored(station, mast).holds_under is None
    assert lines(station) == []


def test_an_edit_says_so(station: Database) -> None:
    mast = store(station, "mast", body())
    write(station, judged(station, mast))
    with station.writing() as session:
        AssembliesRepository(session).replace(mast.id, body(second="EN AW-6082-T6"), version=1)
    write(station, judged(station, mast))
    reasons = [line.detail["reason"] for line in lines(station)]
    assert reasons == ["the assembly was stored", "the assembly was edited"]


def test_removing_leaves_a_line_that_stays(station: Database) -> None:
    mast = store(station, "mast", body())
    write(station, judged(station, mast))
    with station.writing() as session:
        remove(session, mast)
    last = lines(station)[-1]
    assert (last.kind, last.subject, last.detail["reason"]) == (
        "verdicts.withdrawn",
        "mast",
        "the assembly was removed",
    )
    assert [joint["after"] for joint in last.detail["joints"]] == [None]


def test_many_are_judged_together_and_each_as_alone(station: Database) -> None:
    stations = [
        store(station, name, body(second=second)) for name, second in (("a", "A4-80"), ("b", "CW024A"))
    ]
    broken = store(station, "c", body("nowhere"))
    shelf = Shelf(station)
    together = Rejudging(station, see(shelf), read, shelf.as_of(FIRST)).judge_all(
        [stations[0].id, broken.id, "assembly_0", stations[1].id]
    )
    assert [each.stored.name for each in together] == ["a", "c", "b"]
    assert together[1].judged.summary["reason"] == "no environment nowhere"
    for place, alone in zip((0, 2), stations, strict=True):
        assert together[place].judged.report == judged(station, alone).judged.report


def test_a_policy_that_is_edited_meanwhile_leaves_the_report_in_doubt(station: Database) -> None:
    mast = store(station, "mast", body())
    shelf = Shelf(station)

    def read_with_policy(tenant_id: str, content: Mapping[str, Any], catalogue: Catalogue) -> Readable:
        readable = read(tenant_id, content, catalogue)
        return replace(readable, policy="house@1", follows_policy=True)

    def judge_again() -> JudgedAssembly:
        rejudging = Rejudging(station, see(shelf), read_with_policy, shelf.as_of(FIRST))
        (found,) = rejudging.judge_all([mast.id])
        return found

    with station.writing() as session:
        PoliciesRepository(session).add("port", "house", "h1", {}, "ada")
    write(station, judge_again())
    assert stored(station, mast).holds_under == FIRST
    found = judge_again()
    assert found.judged.summary["stored_policy"] == "house@1"
    with station.writing() as session:
        PoliciesRepository(session).add("port", "house", "h2", {}, "ada")
    write(station, found)
    assert stored(station, mast).holds_under is None
    with station.reading() as reading:
        assert AssembliesRepository(reading).report(mast.id) is not None
