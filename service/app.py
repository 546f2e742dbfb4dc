"""Wiring: from settings to an application that answers."""

from __future__ import annotations

import asyncio
import contextlib
import gc
import logging
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import FastAPI
from sqlalchemy.exc import SQLAlchemyError

from service import telemetry
from service.access.administration import ensure_local_tenant, has_local_tenant
from service.access.keys import KeyRing
from service.access.keystore import KeyStore
from service.access.quotas import TokenBuckets
from service.catalogue.errors import CatalogueError
from service.jobs.crew import Crew
from service.settings import Settings
from service.storage.engine import Database
from service.storage.errors import StorageError
from service.storage.shelf import Shelf
from service.web.answer_store import AnswerStore
from service.web.answers import AnswerBook
from service.web.api import assemble
from service.web.shelf import ReleaseShelf
from service.web.shortcut import Shortcut
from service.web.state import LifespanState, Services
from service.web.work import open_work

logger = logging.getLogger(__name__)


def create_app(settings: Settings | None = None) -> FastAPI:
    """Build the application; it opens the database when it starts and closes it when it stops."""
    chosen = settings or Settings()
    telemetry.set_up(chosen.log_level)

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[LifespanState]:
        app.openapi()  # the first request shall not wait for it
        services = open_services(chosen)
        crew = Crew(services.work, chosen).start() if chosen.is_embedded else None
        watch = asyncio.create_task(_watch_releases(services))
        _spare_the_collector()
        try:
            yield {"services": services}
        finally:
            watch.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await watch
            if crew:
                await asyncio.to_thread(crew.close)
            services.answers.close()
            services.database.close()

    return assemble(lifespan)


def open_services(settings: Settings) -> Services:
    """Open the database and everything that stands on it.

    A database without a release is no failure: the service starts, says so at ``/readyz`` and takes up
    the first release when it comes.
    """
    database = Database.open(settings.database_url)
    keystore, answers = KeyStore(database), AnswerStore(database)
    shelf = ReleaseShelf(Shelf(database, settings.open_releases), settings.open_releases)
    if shelf.refresh():
        logger.info("release open", extra={"facts": {"release": shelf.current.label}})
    if settings.effective_development_key:
        _ensure_owner(database)
    book = AnswerBook(settings.answer_cache_bytes, answers.write, answers.read)
    return Services(
        settings=settings,
        database=database,
        shelf=shelf,
        keys=KeyRing(
            keystore.find,
            pepper=settings.key_pepper.get_secret_value(),
            fresh_s=settings.key_cache_s,
            development_key=settings.effective_development_key,
        ),
        requests=TokenBuckets(settings.requests_per_minute, settings.request_burst),
        refusals=TokenBuckets(settings.refusals_per_minute, settings.refusals_per_minute),
        answers=book,
        shortcut=Shortcut(book),
        work=open_work(settings, database, book),
    )


def _spare_the_collector() -> None:
    """Let the garbage collector pass over what stays: a release alone is half a million objects."""
    gc.collect()
    gc.freeze()


def _ensure_owner(database: Database) -> None:
    """Write only where there is something to write: a database may be read-only for a while."""
    with database.reading() as session:
        if has_local_tenant(session):
            return
    with database.writing() as writing:
        ensure_local_tenant(writing)


async def _watch_releases(services: Services) -> None:
    """Take up new releases; a look that fails is logged and repeated."""
    while True:
        await asyncio.sleep(services.settings.release_poll_s)
        try:
            if await asyncio.to_thread(services.shelf.refresh):
                logger.info("release open", extra={"facts": {"release": services.shelf.current.label}})
        except (StorageError, CatalogueError, SQLAlchemyError):
            logger.exception("could not look for a new release")
