"""The page of bills of materials: files in, mapping, progress, report, repairs, downloads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import orjson
from fastapi import APIRouter, Request, Response
from starlette.background import BackgroundTask
from starlette.datastructures import FormData, UploadFile
from starlette.responses import RedirectResponse

from service.access.scopes import Scope
from service.assemblies import File, check, read_assembly
from service.assemblies.assembly import Assembly
from service.assemblies.errors import AssemblyError
from service.assemblies.exports import as_csv, as_xlsx
from service.assemblies.outcomes import canonical
from service.assemblies.reading import ReadAssembly
from service.assemblies.template import template_workbook
from service.catalogue.catalogue import Catalogue
from service.judgement import InvalidInquiryError
from service.web.errors import NoSuchPathError
from service.web.pages.joint_graph import joint_graph
from service.web.pages.picture_files import picture_file
from service.web.pages.places import places
from service.web.pages.rendering import page
from service.web.pages.runs import Run
from service.web.pages.serving import PageRoute
from service.web.releases import release_for
from service.web.replies import JSON
from service.web.state import principal, services

router = APIRouter(include_in_schema=False, route_class=PageRoute)
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
_MOST_FILES = 4
_LONGEST_LIFE_YEARS = 500.0


class NoFileError(AssemblyError):
    """Choose a file first."""

    def __str__(self) -> str:
        """Say what to do."""
        return "Choose a file first."


@router.get("/bom")
async def show_form(request: Request) -> Response:
    """Ask for the files of an assembly."""
    principal(request).require(Scope.ASSEMBLIES)
    catalogue = (await release_for(request, None)).catalogue
    return page(request, "bom.html", groups=places(catalogue), fault="")


@router.get("/bom/template.xlsx")
async def get_template(_request: Request) -> Response:
    """Serve a workbook with our headings and what each means."""
    headers = {"Content-Disposition": 'attachment; filename="bill-of-materials.xlsx"'}
    return Response(template_workbook(), headers=headers, media_type=XLSX)


@router.post("/bom")
async def take_files(request: Request) -> Response:
    """Read the files and begin to judge; the report has an address of its own."""
    principal(request).require(Scope.ASSEMBLIES)
    catalogue = (await release_for(request, None)).catalogue
    try:
        async with request.form(max_files=_MOST_FILES) as form:
            read = await _read(form)
    except AssemblyError as error:
        return page(request, "bom.html", status=422, groups=places(catalogue), fault=str(error))
    return _begun(request, read, catalogue)


@router.get("/bom/{run_id}")
async def show_run(request: Request, run_id: str) -> Response:
    """Show how far judging is, and the report once it is there."""
    run = _run(request, run_id)
    if run.document is None:
        return page(request, "bom_progress.html", run=run)
    return page(
        request,
        "report.html",
        run=run,
        document=run.document,
        deciding=[entry for entry in run.document["unresolved"] if entry["decides"]],
        mapping_open=False,
        picture=joint_graph(run.document),
        picture_address=lambda kind, name: f"/bom/{run.id}/pictures/{name}.{kind}",
        texts={part["part"]: part["text"] for part in run.document["parts"]},
    )


@router.get("/bom/{run_id}/progress")
async def get_progress(request: Request, run_id: str) -> Response:
    """Tell how far judging is."""
    run = _run(request, run_id)
    state = {"joints": run.joints, "done": run.done, "is_over": run.is_over}
    return Response(orjson.dumps(state), headers={"Cache-Control": "no-store"}, media_type=JSON)


@router.get("/bom/{run_id}/report.{kind}")
async def get_report(request: Request, run_id: str, kind: str) -> Response:
    """Serve the report as JSON, CSV or a workbook."""
    run = _run(request, run_id)
    writers = {"json": (canonical, JSON), "csv": (as_csv, "text/csv"), "xlsx": (as_xlsx, XLSX)}
    if run.document is None or kind not in writers:
        raise NoSuchPathError(request.url.path, ())
    write, media_type = writers[kind]
    headers = {"Content-Disposition": f'attachment; filename="report.{kind}"'}
    return Response(write(run.document), headers=headers, media_type=media_type)


@router.get("/bom/{run_id}/pictures/{name}.{kind}")
async def get_picture(request: Request, run_id: str, name: str, kind: str) -> Response:
    """Serve the picture of the joints as SVG, or its figures as CSV."""
    run = _run(request, run_id)
    picture = joint_graph(run.document) if run.document else None
    if picture is None or picture.id != name:
        raise NoSuchPathError(request.url.path, ())
    return picture_file(request, picture, kind)


@router.post("/bom/{run_id}/texts")
async def mend(request: Request, run_id: str) -> Response:
    """Judge again with other texts for those that were not understood."""
    run = _run(request, run_id)
    form = await request.form()
    unresolved = run.document["unresolved"] if run.document else ()
    wanted = {
        part: str(form.get(f"text-{number}", "")).strip() or str(form.get(f"choice-{number}", "")).strip()
        for number, entry in enumerate(unresolved)
        for part in entry["parts"]
    }
    catalogue = (await release_for(request, None)).catalogue
    return _begun(request, replace(run.read, assembly=mended(run.read.assembly, wanted)), catalogue)


def mended(assembly: Assembly, wanted: Mapping[str, str]) -> Assembly:
    """Return the assembly with other texts for some parts; an empty text changes nothing."""
    parts = {
        name: replace(part, text=wanted[name], material="", finish="", surface=None)
        if wanted.get(name)
        else part
        for name, part in assembly.parts.items()
    }
    return replace(assembly, parts=parts)


def judge_run(run: Run, catalogue: Catalogue) -> None:
    """Judge the assembly of a run; what goes wrong is told on its page."""
    try:
        run.document = check(run.read.assembly, catalogue, advance=run.advance).document
    except (AssemblyError, InvalidInquiryError) as error:
        run.failure = str(error)
    except Exception:
        run.failure = "The service failed while judging this assembly."
        raise


async def _read(form: FormData) -> ReadAssembly:
    """Read the files of a form.

    Raises
    ------
    AssemblyError
        If they are no bill of materials.
    """
    uploads = [entry for entry in form.getlist("files") if isinstance(entry, UploadFile) and entry.filename]
    if not uploads:
        raise NoFileError
    read = read_assembly([File(upload.filename or "", await upload.read()) for upload in uploads])
    return replace(read, assembly=_with_programme(read.assembly, form))


def _with_programme(assembly: Assembly, form: FormData) -> Assembly:
    """What the form says holds for all joints that say nothing themselves."""
    try:
        life = float(str(form.get("design_life_years", "")))
    except ValueError:
        life = 0.0
    given = assembly.programme
    programme = replace(
        given,
        environment=given.environment or str(form.get("environment", "")),
        design_life_years=given.design_life_years or (life if 0.0 < life <= _LONGEST_LIFE_YEARS else None),
    )
    return replace(assembly, programme=programme)


def _begun(request: Request, read: ReadAssembly, catalogue: Catalogue) -> Response:
    run = services(request).runs.begin(principal(request).tenant_id, read)
    return RedirectResponse(f"/bom/{run.id}", 303, background=BackgroundTask(judge_run, run, catalogue))


def _run(request: Request, run_id: str) -> Run:
    principal(request).require(Scope.ASSEMBLIES)
    run = services(request).runs.find(principal(request).tenant_id, run_id)
    if run is None:
        raise NoSuchPathError(request.url.path, ("/bom",))
    return run
