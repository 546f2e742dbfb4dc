"""The kinds of long work that speak the language of the API: batches and checks of assemblies."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import msgspec
import orjson
from pydantic import ValidationError

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError
from service.curation.views import Views
from service.jobs.crew import BEATS_PER_SILENCE, Work, queue_for
from service.jobs.errors import HopelessError, UnreadableAssemblyError
from service.jobs.kinds import Kind, Outcome, Piece
from service.jobs.outbound import Outbound
from service.jobs.portfolio import Portfolio
from service.jobs.rejudging import Read, Readable
from service.jobs.tasks import Bench
from service.judgement import InvalidInquiryError
from service.settings import Settings
from service.storage.engine import Database, WriteSession
from service.storage.repositories.jobs import Input, Job
from service.storage.shelf import Shelf
from service.web.answers import AnswerBook
from service.web.api_operations import couple_operation
from service.web.assembly_checks import Checking
from service.web.assembly_requests import assembly_of, waivers_in
from service.web.batch_answers import Answering, chunks
from service.web.batch_input import Batch, Head
from service.web.batch_questions import Questions
from service.web.errors import WebError
from service.web.house_policies import HousePolicies
from service.web.problem_documents import faults_of
from service.web.problems import kind_of
from service.web.schemas.assemblies import AssemblyRequest, CheckQuery, ReportFormat
from service.web.schemas.couples import View

BATCH, ASSEMBLY = "batch", "assembly"
COUPLES_PER_CHUNK = 256
"""Couples of one chunk of a job, and so of one page of its results."""

Releases = Callable[[Job], Catalogue]
REFUSALS = (WebError, InvalidInquiryError)


def open_work(settings: Settings, database: Database, book: AnswerBook) -> Work:
    """Make everything ready for long work; nothing is done yet.

    Releases are read by a shelf of its own: only the server's shelf tells requests of a new one.
    """
    shelf = Shelf(database, settings.open_releases)
    views = Views(database, shelf, settings.open_overlays)
    portfolio = Portfolio(database, shelf, views, reader(database))

    def seen(job: Job) -> Catalogue:
        """Open the release of a job as its tenant saw it when it put the job in."""
        try:
            return views.of(job.release_label or "", job.tenant_id or "", job.overlay_hash)
        except DanglingOverlayError as error:
            raise hopeless(error) from error

    kinds: list[Kind] = [BatchWork(seen, book), AssemblyWork(seen, book, database), portfolio]
    beat_s = settings.job_stale_s / BEATS_PER_SILENCE
    bench = Bench(database, {kind.name: kind for kind in kinds}, beat_s=beat_s)
    outbound = Outbound(allow_private=settings.webhooks_allow_private, timeout_s=settings.webhook_timeout_s)
    return Work(bench, queue_for(bench, settings), portfolio, outbound)


class _BatchRequest(msgspec.Struct):
    surfaces: list[Any]
    defaults: dict[str, Any]
    view: str
    tenant_id: str


def batch_job(batch: Batch, view: View, tenant_id: str) -> tuple[bytes, list[Input]]:
    """Take a batch apart into what its chunks have in common, and the couples of each."""
    head = batch.head
    request = _BatchRequest(list(head.surfaces), dict(head.defaults), view.value, tenant_id)
    return msgspec.json.encode(request), list(_inputs(batch.raws))


def _inputs(raws: Iterable[bytes]) -> Iterator[Input]:
    start = 0
    for portion in chunks(raws, COUPLES_PER_CHUNK):
        lines = (raw.replace(b"\n", b" ") for raw in portion)  # in a document a couple may span lines
        yield Input(len(portion), b"%d\n" % start + b"\n".join(lines))
        start += len(portion)


@dataclass
class BatchWork:
    """Judges the couples of a batch; each line is the one that the stream of a request would have."""

    releases: Releases
    book: AnswerBook
    name: str = BATCH

    def run(self, piece: Piece) -> Outcome:
        """Answer the couples of a chunk."""
        request = msgspec.json.decode(piece.request, type=_BatchRequest)
        catalogue = self.releases(piece.job)
        head = Head(tuple(request.surfaces), request.defaults)
        questions = Questions(head, catalogue, self._operation)
        first, *raws = piece.input.split(b"\n")
        start = int(first)
        answering = Answering(catalogue, View(request.view), request.tenant_id, self.book)
        lines = answering.lines([questions.read(start + place, raw) for place, raw in enumerate(raws)])
        self.book.settle()
        return Outcome(lines.content)

    def sum_up(self, _session: WriteSession, _job: Job) -> bytes | None:
        """Leave it to the results."""
        return None

    @cached_property
    def _operation(self) -> Any:
        return couple_operation()


@dataclass(frozen=True)
class AssemblyWork:
    """Checks one assembly; its result is the document of a synchronous check."""

    releases: Releases
    book: AnswerBook
    database: Database
    name: str = ASSEMBLY

    def run(self, piece: Piece) -> Outcome:
        """Check the assembly of a job."""
        catalogue, tenant_id = self.releases(piece.job), piece.job.tenant_id or ""
        request = AssemblyRequest.model_validate(orjson.loads(piece.input))
        try:
            asked = assembly_of(request, CheckQuery(), catalogue)
            decider = HousePolicies(self.database, tenant_id).of(request)
            today = request.date or dt.datetime.now(dt.UTC).date()
            checking = Checking(catalogue, tenant_id, self.book)
            body, _ = checking.report(asked, decider, waivers_in(request), today, ReportFormat.JSON)
        except REFUSALS as error:
            raise hopeless(error) from error
        return Outcome(body + b"\n")

    def sum_up(self, _session: WriteSession, _job: Job) -> bytes | None:
        """Leave it to the result."""
        return None


def hopeless(error: Exception) -> HopelessError:
    """Say of work what a request would have been told."""
    pointer = next((fault.pointer for fault in faults_of(error)), "")
    return HopelessError(kind_of(type(error)).slug, str(error), pointer)


def reader(database: Database) -> Read:
    """Return what reads assemblies as tenants have stored them, with the policies that they name."""

    def read(tenant_id: str, body: Mapping[str, Any], catalogue: Catalogue) -> Readable:
        try:
            request = AssemblyRequest.model_validate(body)
            assembly = assembly_of(request, CheckQuery(), catalogue).assembly
            decider = HousePolicies(database, tenant_id).of(request)
        except (*REFUSALS, ValidationError) as error:
            raise UnreadableAssemblyError(str(error)) from error
        is_pinned = decider.reference == request.stored_policy
        return Readable(assembly, decider.house, decider.reference, follows_policy=not is_pinned)

    return read
