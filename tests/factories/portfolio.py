"""Stored assemblies for the tests of the watch: a small harbour station of invented parts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.assemblies import Assembly
from service.assemblies.assembly import Programme
from service.assemblies.house_policy import DEFAULT_HOUSE_POLICY
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.catalogue.catalogue import Catalogue
from service.catalogue.tables import row_from_record
from service.curation.views import Views
from service.jobs.errors import UnreadableAssemblyError
from service.jobs.portfolio import Portfolio
from service.jobs.rejudging import Readable, See
from service.storage import Database, Shelf, publish, seed
from service.storage.repositories.assemblies import AssembliesRepository, StoredAssembly
from service.storage.repositories.changes import ChangesRepository, FeedLine
from service.storage.repositories.jobs import Job, JobsRepository
from service.storage.repositories.keys import TenantsRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.seed_catalogue import seed_catalogue

MARINE, INDOOR = "marine-atmosphere-0-100-m", "heated-indoor"
FIRST = "2026.01.01-1"
Body = dict[str, Any]


def publish_first(database: Database) -> None:
    """Publish the delivered release for two tenants."""
    rows = {
        table: [row_from_record(record) for record in records]
        for table, records in seed_catalogue().records().items()
    }
    with database.writing() as session:
        for tenant in ("port", "yard"):
            TenantsRepository(session).ensure(tenant, tenant.title())
        seed(session, rows)
        publish(session, FIRST, by="test")


def publish_changed(database: Database, table: str, key: str, **values: Any) -> str:
    """Change one row and publish."""
    with database.writing() as session:
        knowledge = KnowledgeRepository(session)
        (row,) = [row for row in knowledge.all_rows()[table] if row["id"] == key]
        knowledge.update(table, [row | values])
        return publish(session, by="test").label


def body(place: str = MARINE, second: str = "A4-80", *, release: str = "") -> Body:
    """Write an assembly of two parts and a joint."""
    return {"parts": {"1": "EN AW-6082-T6", "2": second}, "place": place, "release": release}


def read(_tenant_id: str, content: Mapping[str, Any], catalogue: Catalogue) -> Readable:
    """Read such an assembly, as the API does with its own."""
    if content["place"] not in catalogue.environments:
        message = f"no environment {content['place']}"
        raise UnreadableAssemblyError(message)
    parts = {name: Part(name, text=text) for name, text in content["parts"].items()}
    programme = Programme(environment=content["place"], release=content["release"])
    return Readable(Assembly(parts, (Joint("J1", "1", "2"),), programme=programme), DEFAULT_HOUSE_POLICY)


def portfolio_of(database: Database) -> Portfolio:
    """Return the kind of work that watches."""
    shelf = Shelf(database)
    shelf.refresh()
    return Portfolio(database, shelf, Views(database, shelf), read)


def see(shelf: Shelf) -> See:
    """See releases as a tenant without an overlay does."""
    return lambda label, _: shelf.as_of(label)


def store(database: Database, name: str, content: Body, tenant_id: str = "port") -> StoredAssembly:
    """Store an assembly without judging it."""
    with database.writing() as session:
        return AssembliesRepository(session).add(tenant_id, name, content)


def stored(database: Database, assembly: StoredAssembly) -> StoredAssembly:
    """Look again."""
    with database.reading() as session:
        return AssembliesRepository(session).get(assembly.id)


def lines(database: Database, tenant_id: str = "port") -> list[FeedLine]:
    """Return what was told about verdicts."""
    with database.reading() as session:
        found = ChangesRepository(session).since(0, tenant_id=tenant_id, limit=1000)
    return [line for line in found if line.kind.startswith("verdicts.")]


def job_of(database: Database, job: Job) -> Job:
    """Look at a job again."""
    with database.reading() as session:
        return JobsRepository(session).get(job.id)
