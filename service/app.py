"""Wiring: from settings to an application that answers."""

from __future__ import annotations

import asyncio
import contextlib
import gc
import logging
import sys
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager

from fastapi import FastAPI
from sqlalchemy.exc import SQLAlchemyError

from service import telemetry
from service.access.administration import ensure_local_tenant, has_local_tenant
from service.access.credentials import CredentialRing
from service.access.keys import KeyRing
from service.access.keystore import KeyStore
from service.access.quotas import TokenBuckets
from service.access.uses import WRITTEN_EVERY_S, UseLog
from service.catalogue.errors import CatalogueError
from service.curation.overlays import overlays_in_force
from service.curation.views import Views
from service.jobs.crew import Crew
from service.settings import Settings
from service.storage.engine import Database
from service.storage.errors import StorageError
from service.storage.notices import Hearing
from service.storage.shelf import Shelf
from service.web.answer_store import AnswerStore
from service.web.answers import AnswerBook
from service.web.api import assemble
from service.web.deadlines import Deadlines
from service.web.gauges import Gauges
from service.web.known_lines import KnownLines
from service.web.shelf import ReleaseShelf
from service.web.shortcut import Shortcut
from service.web.state import LifespanState, Services
from service.web.tenant_shelf import TenantShelf
from service.web.together import Together
from service.web.work import open_work

logger = logging.getLogger(__name__)

MINUTES_PER_DAY = 1440

SWITCH_S = 0.0005
"""How long a thread may go on while another waits for the interpreter, a tenth of what is usual: the event
loop asks for it several times in each request and would wait that long each time while couples are judged."""

COLLECTIONS = (20_000, 10, 10)
"""New objects until the garbage collector looks at them, and looks until it looks at older ones as well."""


def create_app(settings: Settings | None = None, *, owns_process: bool = False) -> FastAPI:
    """Build the application; it opens the database when it starts and closes it when it stops.

    Where it ``owns_process``, it suits the interpreter to itself once it is open.
    """
    chosen = settings or Settings()
    telemetry.set_up(chosen.log_level, secrets=chosen.secrets)

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[LifespanState]:
        app.openapi()  # the first request shall not wait for it
        services = open_services(chosen)
        crew = Crew(services.work, chosen).start() if chosen.is_embedded else None
        news, loop = asyncio.Event(), asyncio.get_running_loop()
        hearing = Hearing(services.database, lambda: loop.call_soon_threadsafe(news.set))
        watch = asyncio.create_task(_watch_releases(services, news))
        if owns_process:
            suit_the_interpreter()
        uses = asyncio.create_task(_write_uses(services.uses))
        try:
            with telling(services):
                yield {"services": services}
        finally:
            for task in (watch, uses):
                task.cancel()
                with contextlib.suppress(asyncio.CancelledError):
                    await task
            await asyncio.to_thread(hearing.close)
            await asyncio.to_thread(services.uses.flush)
            if crew:
                await asyncio.to_thread(crew.close)
            services.answers.close()
            services.request_log.flush()
            services.database.close()

    return assemble(lifespan, chosen.token_endpoint)


def open_services(settings: Settings) -> Services:
    """Open the database and everything that stands on it.

    A database without a release is no failure: the service starts, says so at ``/readyz`` and takes up
    the first release when it comes.
    """
    database = Database.open(settings.database_url)
    keystore, answers = KeyStore(database), AnswerStore(database)
    uses = UseLog(keystore.note_uses)
    stored = Shelf(database, settings.open_releases)
    shelf = ReleaseShelf(stored, settings.open_releases)
    views = Views(database, stored, settings.open_overlays)
    tenants = TenantShelf(shelf, views, lambda: overlays_in_force(database), settings.open_overlays)
    if shelf.refresh():
        logger.info("release open", extra={"facts": {"release": shelf.current.label}})
    tenants.refresh()
    if settings.effective_development_key:
        _ensure_owner(database)
    book, metrics = AnswerBook(settings.answer_cache_bytes, answers.write, answers.read), telemetry.Metrics()
    services = Services(
        settings=settings,
        database=database,
        shelf=shelf,
        tenants=tenants,
        keys=_keys(settings, keystore, uses),
        tokens=_tokens(settings, keystore),
        uses=uses,
        requests=TokenBuckets(settings.requests_per_minute, settings.request_burst),
        refusals=TokenBuckets(settings.refusals_per_minute, settings.refusals_per_minute),
        quotas=_quotas(settings),
        answers=book,
        shortcut=Shortcut(book),
        known_lines=KnownLines(settings.batch_cache_bytes),
        together=Together(metrics.group),
        metrics=metrics,
        tracing=telemetry.Tracing.sending_to(settings.traces_endpoint) if settings.traces_endpoint else None,
        request_log=telemetry.RequestLog("service.web.edge"),
        deadlines=Deadlines(settings.request_timeout_s),
        work=open_work(settings, database, book),
    )
    metrics.registry.register(Gauges(services))
    return services


@contextlib.contextmanager
def telling(services: Services) -> Iterator[None]:
    """Show figures and send traces, as far as the settings want it, until the block ends."""
    settings = services.settings
    with contextlib.ExitStack() as stack:
        if services.tracing:
            stack.callback(services.tracing.close)
        if settings.metrics_port:
            where = settings.metrics_host, settings.metrics_port
            stack.enter_context(telemetry.exposed(services.metrics, *where))
        yield


def suit_the_interpreter() -> None:
    """Let threads take turns sooner, and the garbage collector look less often, and not at what stays.

    A release alone is half a million objects, and judging makes thousands of short-lived ones for each
    couple, none of them in a cycle.
    """
    sys.setswitchinterval(SWITCH_S)
    gc.collect()
    gc.freeze()
    gc.set_threshold(*COLLECTIONS)


def _ensure_owner(database: Database) -> None:
    """Write only where there is something to write: a database may be read-only for a while."""
    with database.reading() as session:
        if has_local_tenant(session):
            return
    with database.writing() as writing:
        ensure_local_tenant(writing)


def _keys(settings: Settings, keystore: KeyStore, uses: UseLog) -> KeyRing:
    former = settings.key_pepper_before
    return KeyRing(
        keystore.find,
        pepper=settings.key_pepper.get_secret_value(),
        former_pepper=None if former is None else former.get_secret_value(),
        renew=keystore.renew,
        note_use=uses.note,
        fresh_s=settings.key_cache_s,
        development_key=settings.effective_development_key,
    )


def _tokens(settings: Settings, keystore: KeyStore) -> CredentialRing | None:
    """Return what checks access tokens, if an issuer is set; only then is its library loaded."""
    if not settings.token_issuer:
        return None
    from service.access.published_keys import PublishedKeys, fetching
    from service.access.token_ring import TokenRing
    from service.access.tokens import TokenReader, Trust

    trust = Trust(
        issuer=settings.token_issuer,
        audience=settings.token_audience,
        tenant_claim=settings.token_tenant_claim,
        leeway_s=settings.token_leeway_s,
        longest_life_s=settings.token_longest_s,
    )
    published = PublishedKeys(fetching(settings.token_keys_url), fresh_s=settings.token_keys_s)
    reader = TokenReader(published.find, trust)
    return TokenRing(reader.read, keystore.is_admitted, fresh_s=settings.key_cache_s)


def _quotas(settings: Settings) -> TokenBuckets | None:
    daily = settings.tenant_requests_per_day
    return TokenBuckets(daily / MINUTES_PER_DAY, daily, name="day") if daily else None


async def _write_uses(uses: UseLog) -> None:
    """Write when keys were last used, now and then."""
    while True:
        await asyncio.sleep(WRITTEN_EVERY_S)
        await asyncio.to_thread(uses.flush)


async def _watch_releases(services: Services, news: asyncio.Event) -> None:
    """Take up new releases and overlays, at the latest after some seconds; a look that fails is logged."""
    while True:
        with contextlib.suppress(TimeoutError):
            await asyncio.wait_for(news.wait(), services.settings.release_poll_s)
        news.clear()
        try:
            await asyncio.to_thread(services.tenants.refresh)
            if await asyncio.to_thread(services.shelf.refresh):
                logger.info("release open", extra={"facts": {"release": services.shelf.current.label}})
        except (StorageError, CatalogueError, SQLAlchemyError):
            services.metrics.look_failed()
            logger.exception("could not look for a new release")
