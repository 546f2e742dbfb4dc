"""Whole assemblies in one process: joints per second, and memory per million joints.

Distinct joints differ in their areas, so that none is judged twice; repeated ones are a bill of
materials as it comes, where the same few couples return. Memory is the resident set of a fresh process
after the report, less that before, scaled from the joints that were judged.
"""

from __future__ import annotations

import itertools
import multiprocessing
import resource
import time
from collections.abc import Iterator

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.joints import Joint
from service.assemblies.parts import Part
from service.assemblies.reading import File, read_assembly
from service.assemblies.report import check
from tests.benchmarks.rows import Row
from tests.seed_catalogue import seed_catalogue

TEXTS = (
    "EN AW-6082-T6, anodized 15 µm",
    "EN AW-5083 H116",
    "A4-80",
    "1.4404",
    "CW024A",
    "CuZn39Pb3, Ni 5 µm",
    "S355J2+N, hot dip galvanized ISO 1461",
    "8.8 Fe//Zn8//A",
)
PLACE = "marine-atmosphere-0-100-m"
DISTINCT = 2_000
REPEATED = 40_000
TABLE_ROWS = 50_000


def assembly_of(joints: int, *, is_distinct: bool) -> Assembly:
    parts = {text: Part(text, text=text) for text in TEXTS}
    pairs = itertools.cycle(itertools.combinations(TEXTS, 2))
    made = tuple(_joint(number, *next(pairs), is_distinct=is_distinct) for number in range(joints))
    return Assembly(parts, made, programme=Programme(environment=PLACE))


def _joint(number: int, first: str, second: str, *, is_distinct: bool) -> Joint:
    area = 0.01 + (number * 1e-6 if is_distinct else 0.0)
    return Joint(f"J{number}", first, second, first_area_m2=area, second_area_m2=0.01)


def judged(joints: int, *, is_distinct: bool) -> tuple[float, float, int]:
    """Processor seconds, growth of the resident set [B], and size of the report [B]."""
    check(assembly_of(8, is_distinct=False), seed_catalogue())  # catalogue and tables are there before
    assembly = assembly_of(joints, is_distinct=is_distinct)
    before, start = _resident_bytes(), time.process_time()
    written = check(assembly, seed_catalogue()).json
    return time.process_time() - start, _resident_bytes() - before, len(written)


def _resident_bytes() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024.0


def read(rows: int) -> tuple[float, float, int]:
    """Processor seconds, growth of the resident set [B], and size of the file [B]."""
    data = "\n".join(_table(rows)).encode()
    before, start = _resident_bytes(), time.process_time()
    found = read_assembly([File("list.csv", data)])
    seconds = time.process_time() - start
    assert len(found.assembly.parts) == rows
    return seconds, _resident_bytes() - before, len(data)


def _table(rows: int) -> Iterator[str]:
    yield "part_number,parent,description,material,finish,quantity,area_cm2"
    for number in range(rows):
        yield f"P{number},P{number // 8},Bracket {number},EN AW-6082-T6,anodized 15 µm,{number % 9},12.5"


def apart(work: object, *arguments: object, **named: object) -> tuple[float, float, int]:
    """Run in a process of its own, so that memory of one measurement does not hide that of the next."""
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        result: tuple[float, float, int] = pool.apply(work, arguments, named)  # type: ignore[arg-type]
    return result


def measure() -> Iterator[Row]:
    """Judge and read, each in a process of its own."""
    for name, joints, is_distinct in (("distinct", DISTINCT, True), ("repeated", REPEATED, False)):
        _, half, _ = apart(judged, joints // 2, is_distinct=is_distinct)
        seconds, whole, size = apart(judged, joints, is_distinct=is_distinct)
        memory = 2.0 * (whole - half) / joints
        note = f"{memory:,.0f} B a joint in memory, {size / joints:,.0f} B as JSON"
        yield Row("assemblies", f"{joints:,} {name} joints", joints / seconds, "joints/s", note=note)
    seconds, memory, size = apart(read, TABLE_ROWS)
    note = f"{size / 1e6:.1f} MB, {memory / TABLE_ROWS:,.0f} B a row in memory"
    yield Row("assemblies", f"{TABLE_ROWS:,} rows of CSV", TABLE_ROWS / seconds, "rows/s", note=note)
