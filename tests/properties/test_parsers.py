"""Whatever comes in from outside is read, or refused in the words of the room that reads it."""

from __future__ import annotations

import gzip
import io
import json
import tempfile
from collections.abc import Callable
from contextlib import suppress
from functools import cache, partial
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from service.assemblies import File, read_assembly
from service.assemblies.errors import AssemblyError
from service.assemblies.tables import Limits
from service.catalogue.errors import CatalogueError
from service.catalogue.records import Environment, Rule
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Inquiry, InvalidInquiryError, answer
from service.judgement.errors import MalformedTriggerError
from service.judgement.facts import facts_of
from service.judgement.rules import hits
from service.judgement.triggers import NUMBERS, PARTS, SETS, parse
from service.storage import StorageError
from service.storage.backup_file import verified
from service.storage.offline import _read as read_release_file
from service.storage.repositories.pages import encode_cursor, number_cursor, text_cursor
from service.web.batch_input import JSON, NDJSON, couple_of, read_batch
from service.web.errors import WebError
from service.web.inquiries import inquiry_of
from service.web.pagination import Cursor
from service.web.schemas.couples import CoupleQuery, CoupleRequest
from tests.factories.workbooks import archive, sheet_of, workbook
from tests.seed_catalogue import seed_catalogue
from tests.thoroughness import THOROUGH, examples

FUZZED = settings(
    max_examples=examples(60),
    deadline=None,
    derandomize=not THOROUGH,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
SCALARS = st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=12,
)
DEEP = b"[" * 100_000
LONG_NUMBER = b"1" * 6000


def mutated(whole: bytes) -> st.SearchStrategy[bytes]:
    """Bytes like these, with some cut out, doubled or changed."""

    def change(edits: list[tuple[int, int, bytes]]) -> bytes:
        data = whole
        for start, length, new in edits:
            place = start % (len(data) + 1)
            data = data[:place] + new + data[place + length :]
        return data

    edit = st.tuples(st.integers(0, 2**20), st.integers(0, 40), st.binary(max_size=12))
    return st.lists(edit, min_size=1, max_size=4).map(change)


def read_or_refused(read: Callable[[], object], *errors: type[Exception]) -> Any:
    """Read, or be refused by one of these errors; any other fails the test."""
    with suppress(*errors):
        return read()
    return None


BOM = """Part number;Description;Material;Finish;Qty
1;Mast foot;EN AW-6082-T6;anodized 15 µm;1
2;Screw;A4-80;;4
""".encode()
BOOK = workbook(
    {
        "bom": [["Part number", "Material", "Area"], ["1", "EN AW-6082-T6", 12.5], ["2", "A4-80", None]],
        "joints": [["First", "Second", "Function"], ["1", "2", "seal"]],
    }
)
SMALL = Limits(file_bytes=100_000, rows=500, columns=60, uncompressed_bytes=2_000_000)
CELL = st.text(max_size=30).map(lambda text: "".join(each for each in text if each.isprintable()))


@FUZZED
@given(data=mutated(BOM) | st.binary(max_size=300))
@example(data=b'"' * 5000)
@example(data=b"Part number;Material\n" + b";" * 70)
@example(data=b'{"parts":' + DEEP)
@example(data=b'{"parts":[{"part_number":' + LONG_NUMBER + b"}]}")
def test_any_table_of_text_is_read_or_refused(data: bytes) -> None:
    found = read_or_refused(lambda: read_assembly([File("list", data)], SMALL), AssemblyError)
    assert found is None or found.assembly.parts


@FUZZED
@given(
    document=st.fixed_dictionaries(
        {"parts": VALUES | st.lists(VALUES, max_size=3)},
        optional={"joints": VALUES, "zones": VALUES, "programme": VALUES},
    )
)
def test_any_document_is_read_or_refused(document: dict[str, Any]) -> None:
    data = json.dumps(document).encode("utf-8", "replace")
    read_or_refused(lambda: read_assembly([File("list", data)], SMALL), AssemblyError)


@settings(FUZZED, max_examples=examples(30))
@given(data=mutated(BOOK))
def test_any_damaged_workbook_is_read_or_refused(data: bytes) -> None:
    read_or_refused(lambda: read_assembly([File("list.xlsx", data)], SMALL), AssemblyError)


@settings(FUZZED, max_examples=examples(30))
@given(
    rows=st.lists(
        st.lists(CELL | st.floats() | st.booleans() | st.integers(-(2**60), 2**60), max_size=5), max_size=4
    )
)
def test_any_sheet_is_read_or_refused(rows: list[list[object]]) -> None:
    def cell(value: object) -> str:
        if isinstance(value, str):
            text = value.replace("&", "&amp;").replace("<", "&lt;")
            return f'<c t="inlineStr"><is><t>{text}</t></is></c>'
        return f'<c t="{"b" if isinstance(value, bool) else "n"}"><v>{value}</v></c>'

    head = "<row>" + "".join(map(cell, ["Part number", "Material", "Area", "Qty"])) + "</row>"
    body = "".join(f"<row>{''.join(map(cell, row))}</row>" for row in rows)
    data = archive(sheet_of(head + body))
    read_or_refused(lambda: read_assembly([File("list.xlsx", data)], SMALL), AssemblyError)


@FUZZED
@given(text=st.text(max_size=60) | st.integers().map(encode_cursor) | st.text(max_size=20).map(encode_cursor))
@example(text="Ww" * 50_000)
def test_any_cursor_is_read_or_refused(text: str) -> None:
    read_or_refused(lambda: text_cursor(text), StorageError)
    read_or_refused(lambda: number_cursor(text), StorageError)
    read_or_refused(lambda: Cursor.read(text, "f"), WebError)


@FUZZED
@given(after=st.text(max_size=40), release=st.text(max_size=20), filters=st.text(max_size=20))
def test_a_cursor_leads_back_to_its_place(after: str, release: str, filters: str) -> None:
    try:
        written = Cursor(after, release, filters).write()
    except ValueError:  # half a surrogate pair is no text
        return
    assert Cursor.read(written, filters) == Cursor(after, release, filters)


BATCH = b"""{"surfaces":["A4-80","EN AW-6082-T6"],"defaults":{"environment":"heated-indoor"}}
[0,1]
{"ref":"a","first":"A2","second":1}
[1,0,7]
"""


@FUZZED
@given(data=mutated(BATCH) | st.binary(max_size=300) | VALUES.map(lambda value: json.dumps(value).encode()))
@example(data=DEEP)
@example(data=b'{"surfaces":' + DEEP)
@example(data=LONG_NUMBER + b"\n" + LONG_NUMBER)
@example(data=b'{"couples":[' + LONG_NUMBER + b"]}")
@example(data=b'{"surfaces":["\x80"]}\n[0,0]')
@example(data=b" " * 200_000)
def test_any_batch_is_read_line_by_line_or_refused(data: bytes) -> None:
    for kind in (NDJSON, JSON):
        batch = read_or_refused(partial(read_batch, io.BytesIO(data), kind), WebError)
        if batch:
            raws = list(batch.raws)
            assert len(raws) == batch.count
            for raw in raws:
                read_or_refused(partial(couple_of, raw), WebError)


OPERATORS = st.sampled_from(["above", "below", "has", "has_any", "not", "near"])
MATCHERS = st.recursive(
    SCALARS | st.lists(SCALARS, max_size=3),
    lambda inner: st.dictionaries(OPERATORS, inner, max_size=2),
    max_leaves=4,
)


@st.composite
def conditions(draw: st.DrawFn, part: str) -> dict[str, Any]:
    """Conditions on facts, many of them sensible."""
    names = draw(st.lists(st.sampled_from(sorted(PARTS[part])), max_size=3, unique=True))
    made: dict[str, Any] = {}
    for name in names:
        sensible: st.SearchStrategy[Any] = st.text(max_size=8)
        if name in NUMBERS:
            sensible = st.dictionaries(
                st.sampled_from(["above", "below"]), st.floats(-100, 1000), min_size=1, max_size=1
            )
        elif name in SETS:
            sensible = st.fixed_dictionaries({"has_any": st.lists(st.text(max_size=8), max_size=2)})
        made[name] = draw(sensible | MATCHERS)
    return made


@st.composite
def triggers(draw: st.DrawFn) -> dict[str, Any]:
    parts = draw(st.lists(st.sampled_from(sorted(PARTS)), min_size=1, max_size=3, unique=True))
    return {
        part: [draw(conditions(part)), draw(conditions(part))] if part == "pair" else draw(conditions(part))
        for part in parts
    }


@cache
def a_couple() -> tuple[Couple, Environment, Rule]:
    catalogue = seed_catalogue()
    couple = Couple(Surface("al-6082-t6"), Surface("steel-s235"))
    return couple, catalogue.environments["marine-atmosphere-0-100-m"], next(iter(catalogue.rules.values()))


@FUZZED
@given(trigger=triggers().map(json.dumps) | st.text(max_size=60) | VALUES.map(json.dumps))
@example(trigger=DEEP.decode())
@example(trigger=LONG_NUMBER.decode())
@example(trigger='{"one":{"material":{"above":1}}}')
@example(trigger='{"one":{"strength_MPa":{"above":"high"}}}')
@example(trigger='{"environment":{"tags":{"has_any":[["a"]]}}}')
@example(trigger='{"environment":{"tags":{"has":["a"]}}}')
def test_any_trigger_that_is_accepted_can_be_asked_of_any_couple(trigger: str) -> None:
    if read_or_refused(lambda: parse("r", trigger), MalformedTriggerError) is None:
        return
    couple, environment, rule = a_couple()
    facts = facts_of(couple, environment, seed_catalogue(), {"difference_V": 0.4, "anode": "first"})
    changed = Rule(**{name: getattr(rule, name) for name in Rule.__slots__} | {"trigger": trigger})
    assert len(hits([changed], [facts, facts])) == 2


FIGURES = (
    "temperature_C", "pH", "conductivity_S_per_m", "film_thickness_um", "relative_humidity_pct",
    "so2_mg_per_m2_d", "chloride_mg_per_m2_d", "hours_rain_per_year", "salt_load_g_per_m2", "flow_m_per_s",
)  # fmt: skip
ANY_FIGURE = st.floats() | st.integers(-(10**6), 10**6) | st.none() | st.floats(0, 100)


@settings(FUZZED, max_examples=examples(40))
@given(
    place=st.fixed_dictionaries(
        {},
        optional={
            "id": st.sampled_from(["marine-atmosphere-0-100-m", "heated-indoor", "nowhere"]),
            "exposure": st.sampled_from(["immersed", "outdoor", "indoor", "splash", "buried", "?"]),
            "electrolyte_class": st.sampled_from(["chloride", "fresh", "?"]),
            **dict.fromkeys(FIGURES, ANY_FIGURE),
        },
    ),
    life=ANY_FIGURE,
)
def test_any_figures_of_a_place_are_judged_or_refused(place: dict[str, Any], life: float | None) -> None:
    body = {"first": "EN AW-6082-T6", "second": "A4-80", "environment": place, "design_life_years": life}
    request = read_or_refused(lambda: CoupleRequest.model_validate(body), ValidationError)
    if request is None:
        return
    catalogue = seed_catalogue()
    inquiry = read_or_refused(lambda: inquiry_of(request, catalogue), InvalidInquiryError, CatalogueError)
    if inquiry is not None:
        found = read_or_refused(judged(inquiry), InvalidInquiryError)
        if found is not None:
            json.dumps(found, allow_nan=False)


def judged(inquiry: Inquiry) -> Callable[[], Any]:
    def judge() -> Any:
        return answer([inquiry], seed_catalogue())[0].document()

    return judge


@FUZZED
@given(
    query=st.dictionaries(
        st.sampled_from([*CoupleQuery.model_fields, "other"]),
        st.text(max_size=20) | st.sampled_from(["1e999", "nan", "-0", "true"]),
        max_size=6,
    )
)
def test_any_query_is_read_or_refused(query: dict[str, str]) -> None:
    full = {"first": "A2", "second": "A4", "environment": "heated-indoor"} | query
    asked = read_or_refused(lambda: CoupleQuery.model_validate(full), ValidationError)
    if asked is not None:
        read_or_refused(asked.to_request, ValidationError)


RELEASE = gzip.compress(
    b'{"format":"faying-release-1","label":"a","content_hash":"0","published_at":"2026-01-01T00:00:00+00:00",'
    b'"published_by":"x","note":"","engine":"1"}\n{"format":1,"label":"a","tables":{}}\n',
    mtime=0,
)


@FUZZED
@given(
    data=mutated(RELEASE)
    | mutated(gzip.decompress(RELEASE)).map(gzip.compress)
    | st.binary(max_size=100).map(gzip.compress)
)
@example(data=gzip.compress(DEEP))
@example(data=gzip.compress(b"{}\n" + DEEP))
@example(data=gzip.compress(LONG_NUMBER))
def test_any_file_is_a_release_or_a_backup_or_refused(data: bytes) -> None:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "some.gz"
        file.write_bytes(data)
        read_or_refused(lambda: read_release_file(file), StorageError)
        read_or_refused(lambda: verified(file), StorageError)


def test_what_is_not_foreseen_fails_here() -> None:
    def fail() -> None:
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        read_or_refused(fail, StorageError)
