"""A new release is noticed, and each tenant's assemblies are looked at once."""

from __future__ import annotations

from service.jobs.inline import InlineWorkers
from service.jobs.tasks import Bench
from service.jobs.watch import ReleaseWatch
from service.judgement import ENGINE_VERSION
from service.storage import Database
from service.storage.repositories.assemblies import AssembliesRepository, JudgedVersion
from service.storage.repositories.jobs import JobsRepository
from tests.factories.portfolio import FIRST, MARINE, body, portfolio_of, publish_changed, publish_first, store


def watch_of(database: Database) -> ReleaseWatch:
    return ReleaseWatch(portfolio_of(database), InlineWorkers(Bench(database, {})))


def judged(database: Database, tenant_id: str, label: str, engine: str = ENGINE_VERSION) -> None:
    """Keep an assembly with a report."""
    assembly = store(database, f"mast of {engine}", body(), tenant_id)
    version = JudgedVersion(1, engine, label, 1, (f"environments/{MARINE}",), {"joints": {}}, b"{}")
    with database.writing() as session:
        AssembliesRepository(session).keep_report(assembly.id, version, held_under=None)


def tenants_of_jobs(database: Database) -> list[str]:
    with database.reading() as session:
        return sorted(str(job.tenant_id) for job in JobsRepository(session).page().items)


def test_a_release_is_looked_at_once_for_each_tenant(database: Database) -> None:
    publish_first(database)
    for tenant in ("port", "yard"):
        judged(database, tenant, FIRST)
    watch, another = watch_of(database), watch_of(database)
    assert watch.look() == 0
    publish_changed(database, "environments", MARINE, exposure="indoor")
    assert watch.look() == 2
    assert (watch.look(), another.look()) == (0, 0)
    assert tenants_of_jobs(database) == ["port", "yard"]


def test_another_engine_is_looked_at_too(database: Database) -> None:
    publish_first(database)
    judged(database, "port", FIRST, engine="0.0.1")
    assert watch_of(database).look() == 1
    assert tenants_of_jobs(database) == ["port"]


def test_what_was_never_judged_has_a_job_of_its_own(database: Database) -> None:
    publish_first(database)
    store(database, "mast", body())
    assert watch_of(database).look() == 0


def test_before_the_first_release_there_is_nothing_to_look_at(database: Database) -> None:
    assert watch_of(database).look() == 0
