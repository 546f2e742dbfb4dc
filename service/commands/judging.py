"""Judging from the shell: one couple, or a bill of materials worst first."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.markup import escape
from rich.progress import Progress
from rich.table import Table

from service.assemblies import Assembly, File, Report, check, read_assembly
from service.assemblies.exports import as_csv, as_xlsx
from service.catalogue.catalogue import Catalogue
from service.commands.errors import Failure
from service.commands.places import configured, opened
from service.judgement import Function, Geometry, Inquiry, Side, answer
from service.storage.errors import NothingPublishedError
from service.storage.releases import current_release, load

output = Console(highlight=False)
complaints = Console(stderr=True, highlight=False)
MOST_TOLD = 100
"""Multiples of the allowance above which the figure tells nothing more."""

STYLES = {"unsuitable": "red", "undetermined": "magenta", "conditional": "yellow", "suitable": "green"}

Text = Annotated[str | None, typer.Argument(help="Drawing text, such as 'EN AW-6082-T6, anodized 15 µm'.")]
Environment = Annotated[
    str | None, typer.Option("--environment", "-e", help="Identifier such as marine-atmosphere-0-100-m.")
]
Life = Annotated[float | None, typer.Option(min=0.01, help="Design life in years.")]
Functions = Annotated[list[Function] | None, typer.Option("--function", help="What the joint is for.")]
Area = Annotated[float | None, typer.Option(min=1e-6, help="Wetted area in square centimetres.")]
SourceFile = Annotated[Path | None, typer.Option(exists=True, dir_okay=False, help="CSV, XLSX or JSON file.")]


def judge(
    first: Text = None,
    second: Text = None,
    environment: Environment = None,
    life: Life = None,
    function: Functions = None,
    geometry: Annotated[Geometry, typer.Option(help="Shape of the joint line.")] = Geometry.STRIP,
    bore_mm: Annotated[float | None, typer.Option(min=0.1, help="Inside diameter of pipes in mm.")] = None,
    first_area_cm2: Area = None,
    second_area_cm2: Area = None,
    bom: SourceFile = None,
    joints: SourceFile = None,
    as_of: Annotated[str | None, typer.Option(help="Release to judge by; the newest unless given.")] = None,
    export: Annotated[
        Path | None, typer.Option(dir_okay=False, help="Write the report of a bill: .csv, .xlsx or .json.")
    ] = None,
    *,
    as_json: Annotated[bool, typer.Option("--json", help="Print the whole answer as JSON.")] = False,
) -> None:
    """Judge two surfaces in an environment, or all joints of a bill of materials."""
    if bom and not first:
        assembly = _with_programme(_read(bom, joints), environment, life)
        report = _check(assembly, _catalogue(as_of or assembly.programme.release or None))
        if export:
            _export(report, export)
        _print_report(report, as_json=as_json)
    elif first and second and environment and not (bom or joints):
        inquiry = Inquiry(
            Side(text=first),
            Side(text=second),
            environment,
            first_area_m2=first_area_cm2 and first_area_cm2 / 1e4,
            second_area_m2=second_area_cm2 and second_area_cm2 / 1e4,
            geometry=geometry,
            bore_m=bore_mm and bore_mm / 1e3,
            functions=tuple(function or [Function.STRUCTURAL]),
            design_life_years=life,
        )
        _print_couple(answer([inquiry], _catalogue(as_of))[0].document(), as_json=as_json)
    else:
        raise Failure("give two surfaces and --environment, or a bill of materials with --bom")


def _catalogue(label: str | None) -> Catalogue:
    with opened(configured()) as database, database.reading() as session:
        current = current_release(session)
        if current is None:
            raise NothingPublishedError
        return load(session, label or current.label)


def _read(*paths: Path | None) -> Assembly:
    read = read_assembly([File(path.name, path.read_bytes()) for path in paths if path])
    for fault in read.assembly.faults:
        complaints.print(f"! {fault.table}:{fault.line or ''}: {fault.column}: {fault.reason}", markup=False)
    return read.assembly


def _with_programme(assembly: Assembly, environment: str | None, life: float | None) -> Assembly:
    """What the command line says holds for all joints that say nothing themselves."""
    given = assembly.programme
    programme = replace(
        given,
        environment=environment or given.environment,
        design_life_years=life or given.design_life_years,
    )
    return replace(assembly, programme=programme)


def _check(assembly: Assembly, catalogue: Catalogue) -> Report:
    with Progress(console=complaints, transient=True) as progress:
        task = progress.add_task("judging joints", total=len(assembly.joints) or None)
        return check(assembly, catalogue, advance=lambda done: progress.advance(task, done))


def _export(report: Report, path: Path) -> None:
    writers: dict[str, Callable[[], bytes]] = {
        ".csv": lambda: as_csv(report.document),
        ".xlsx": lambda: as_xlsx(report.document),
        ".json": lambda: report.json,
    }
    if path.suffix.lower() not in writers:
        raise Failure(f"{path}: a report is written as {', '.join(writers)}")
    try:
        path.write_bytes(writers[path.suffix.lower()]())
    except OSError as error:
        raise Failure(f"cannot write {path}: {error.strerror}") from error


def _print_couple(document: dict[str, Any], *, as_json: bool) -> None:
    if as_json:
        _print_json(document)
        return
    style = STYLES[document["verdict"]]
    output.print(f"[bold {style}]{document['verdict']}[/] (severity {document['severity']})")
    output.print(document["summary"]["paragraph"], markup=False)
    for condition in document["conditions"]:
        output.print(f"- {condition['action']} ({condition['who']})", markup=False)
    for line in (*document["cautions"], *(warning["detail"] for warning in document["warnings"])):
        output.print(f"! {line}", markup=False)
    for item in document["evidence"]:
        output.print(
            f"  [{item['grade']}] {item['quantity']} of {item['subject']}: {item['citation']}", markup=False
        )
    output.print(f"release {document['release']['label']}, engine {document['engine']}")


def _print_report(report: Report, *, as_json: bool) -> None:
    document = report.document
    if as_json:
        _print_json(document)
        return
    output.print(_joints(document["joints"]))
    for network in document["networks"]:
        for part in network["parts"]:
            if part["against_couples"] not in {"same", "unknown"}:
                output.print(_in_network(part, network["environment"]["name"]), markup=False)
    for entry in document["unresolved"]:
        output.print(f"? {entry['text']} ({', '.join(entry['parts'][:3])}): {_doubt(entry)}", markup=False)
    for rule in document["assumptions"]["contacts"]:
        output.print(f"assumed: {rule}", markup=False)
    output.print(f"release {document['release']['label']}, engine {document['engine']}, {document['sha256']}")


def _joints(joints: list[dict[str, Any]]) -> Table:
    """A line for each joint; the sentences behind it are in the export."""
    table = Table(
        "joint",
        "parts",
        "place",
        "verdict",
        "severity",
        "attacked",
        "by",
        "loss/allowance",
        box=None,
        pad_edge=False,
    )
    for joint in joints:
        style = STYLES[joint["verdict"]]
        table.add_row(
            escape(joint["joint"]),
            escape(f"{joint['first']['number']} / {joint['second']['number']}"),
            escape(joint["environment"]["id"] if joint["environment"] else ""),
            f"[{style}]{joint['verdict']}[/]",
            joint["severity"],
            escape(_attacked(joint)),
            joint["deciding_witness"] or "",
            _loss(joint["loss"]),
        )
    return table


def _attacked(joint: dict[str, Any]) -> str:
    side = joint["anode"]["side"]
    parts = [joint[each]["number"] for each in ("first", "second") if side in {each, "both"}]
    return " and ".join(parts) + (" ?" if parts and joint["anode"]["is_in_doubt"] else "")


def _loss(loss: dict[str, Any] | None) -> str:
    """The 95 % loss by the end of life as a multiple of what the joint can stand."""
    if loss is None:
        return ""
    multiple = loss["galvanic_loss_um"]["high"] / loss["allowance_um"]
    return f"> {MOST_TOLD} x" if multiple > MOST_TOLD else f"{multiple:.2g} x"


def _in_network(part: dict[str, Any], place: str) -> str:
    partners = ", ".join(partner["part"] for partner in part["partners"])
    word = {"worse": "worse", "milder": "better"}[part["against_couples"]]
    return f"~ {part['part']} is {part['effect']} by {partners} ({place}): {word} than its joints alone say"


def _doubt(entry: dict[str, Any]) -> str:
    candidates = " or ".join(candidate["surface"] for candidate in entry["candidates"][:3])
    return entry["question"] or candidates or "not understood"


def _print_json(value: Any) -> None:
    json.dump(value, sys.stdout, ensure_ascii=False, indent=2)
    sys.stdout.write("\n")
