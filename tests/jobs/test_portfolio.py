"""A release judges again what it can touch, and nothing else; what changed is told once."""

from __future__ import annotations

import orjson
import pytest

from service.jobs.inline import InlineWorkers
from service.jobs.portfolio import JOINTS_PER_CHUNK, Portfolio
from service.jobs.tasks import Bench
from service.storage import Database
from service.storage.repositories.assemblies import AssembliesRepository, StoredAssembly
from service.storage.repositories.jobs import Job, JobsRepository
from tests.factories.portfolio import (
    FIRST,
    INDOOR,
    MARINE,
    body,
    job_of,
    lines,
    portfolio_of,
    publish_changed,
    publish_first,
    store,
    stored,
)  # fmt: skip


@pytest.fixture
def station(database: Database) -> Database:
    publish_first(database)
    return database


def do(database: Database, portfolio: Portfolio, job: Job) -> Job:
    """Do a job here and now."""
    bench = Bench(database, {portfolio.name: portfolio})
    with database.writing() as session:
        JobsRepository(session).join(job.id)
    for chunk in range(job.chunks):
        bench.do(job.id, chunk)
    return job_of(database, job)


def submit(database: Database, portfolio: Portfolio, tenant_id: str = "port") -> Job:
    queue = InlineWorkers(Bench(database, {}))
    return portfolio.submit(queue, tenant_id, by="ada")


def judge(database: Database, *assemblies: StoredAssembly) -> None:
    portfolio = portfolio_of(database)
    do(database, portfolio, submit(database, portfolio))
    assert all(stored(database, each).holds_under for each in assemblies)


def summary(database: Database, job: Job) -> dict[str, int]:
    with database.reading() as session:
        found: dict[str, int] = orjson.loads(JobsRepository(session).result(job.id) or b"{}")
    return found


def test_what_was_never_judged_is_judged(station: Database) -> None:
    mast = store(station, "mast", body())
    portfolio = portfolio_of(station)
    job = do(station, portfolio, submit(station, portfolio))
    assert (job.state, job.release_label, summary(station, job)) == (
        "done",
        FIRST,
        {"judged": 1, "changed": 1},
    )
    kept = stored(station, mast)
    assert (kept.release_label, kept.holds_under, kept.joints) == (FIRST, FIRST, 1)
    assert [(line.kind, line.subject) for line in lines(station)] == [("verdicts.created", "mast")]


def test_only_what_a_release_can_touch_is_judged_again(station: Database) -> None:
    mast, cabinet = store(station, "mast", body()), store(station, "cabinet", body(INDOOR))
    judge(station, mast, cabinet)
    label = publish_changed(station, "environments", MARINE, exposure="indoor")
    portfolio = portfolio_of(station)
    job = submit(station, portfolio)
    assert (job.chunks, job.total) == (1, 1)
    assert stored(station, cabinet).holds_under == label
    assert stored(station, mast).holds_under == FIRST
    do(station, portfolio, job)
    assert (stored(station, mast).release_label, stored(station, cabinet).release_label) == (label, FIRST)
    told = [line for line in lines(station) if line.kind != "verdicts.created"]
    assert {line.subject for line in told} == {"mast"}
    for line in told:
        assert line.detail["release"] == {"before": FIRST, "after": label}
        assert {cause["key"][0] for joint in line.detail["joints"] for cause in joint["because"]} == {MARINE}


def test_a_release_that_touches_nothing_is_done_at_once(station: Database) -> None:
    mast = store(station, "mast", body())
    judge(station, mast)
    label = publish_changed(station, "sources", "from-memory", title="other words")
    job = submit(station, portfolio_of(station))
    assert (job.state, job.chunks) == ("done", 0)
    assert stored(station, mast).holds_under == label
    assert len(lines(station)) == 1


def test_a_touched_assembly_whose_verdicts_stay_is_no_news(station: Database) -> None:
    mast = store(station, "mast", body())
    judge(station, mast)
    label = publish_changed(station, "environments", MARINE, note="looked at again")
    portfolio = portfolio_of(station)
    job = do(station, portfolio, submit(station, portfolio))
    assert summary(station, job) == {"judged": 1, "changed": 0}
    assert stored(station, mast).holds_under == label
    assert len(lines(station)) == 1


def test_an_assembly_pinned_to_a_release_stays_with_it(station: Database) -> None:
    mast = store(station, "mast", body(release=FIRST))
    judge(station, mast)
    label = publish_changed(station, "environments", MARINE, exposure="indoor")
    judge(station, mast)
    kept = stored(station, mast)
    assert kept.holds_under == label
    assert len(lines(station)) == 1


def test_what_a_release_cannot_judge_any_more_is_withdrawn_and_may_come_back(station: Database) -> None:
    mast = store(station, "mast", body("quay"))
    judge(station, mast)
    judge(station, mast)
    ((line),) = lines(station)
    assert (line.kind, line.detail["reason"]) == ("verdicts.withdrawn", "no environment quay")


def test_two_tenants_do_not_meet(station: Database) -> None:
    store(station, "mast", body())
    other = store(station, "mast", body(), "yard")
    judge(station)
    assert stored(station, other).holds_under is None
    assert lines(station, "yard") == []


def test_a_job_of_an_older_release_changes_nothing(station: Database) -> None:
    mast = store(station, "mast", body())
    portfolio = portfolio_of(station)
    slow = submit(station, portfolio)
    label = publish_changed(station, "environments", MARINE, exposure="indoor")
    judge(station, mast)
    told = lines(station)
    do(station, portfolio, slow)
    assert stored(station, mast).holds_under == label
    assert lines(station) == told


def test_an_assembly_that_was_removed_meanwhile_is_passed_over(station: Database) -> None:
    mast, cabinet = store(station, "mast", body()), store(station, "cabinet", body(INDOOR))
    portfolio = portfolio_of(station)
    job = submit(station, portfolio)
    with station.writing() as session:
        AssembliesRepository(session).remove(mast.id)
    done = do(station, portfolio, job)
    assert (done.state, summary(station, done)["judged"]) == ("done", 1)
    assert stored(station, cabinet).holds_under == FIRST


def test_one_assembly_is_put_in_by_itself(station: Database) -> None:
    mast, cabinet = store(station, "mast", body()), store(station, "cabinet", body(INDOOR))
    portfolio = portfolio_of(station)
    with station.writing() as session:
        job = portfolio.submit_one(session, InlineWorkers(Bench(station, {})), mast, by="ada")
    do(station, portfolio, job)
    assert (stored(station, mast).holds_under, stored(station, cabinet).holds_under) == (FIRST, None)


def test_large_portfolios_come_in_portions(station: Database) -> None:
    ids = [store(station, f"a{number}", body()).id for number in range(3)]
    with station.writing() as session:
        from service.storage.tables import AssemblyRow

        for assembly_id in ids:
            session.get_one(AssemblyRow, assembly_id).joints = JOINTS_PER_CHUNK // 2 + 1
    with station.reading() as session:
        plan = portfolio_of(station).plan(session, "port", (FIRST, ""))
    assert [len(portion) for portion in plan.portions] == [1, 1, 1]
    assert plan.examined == 3
