"""What must hold for every assembly: a batch is its singles, order and spelling change nothing."""

from __future__ import annotations

import csv
import io
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.assemblies.assembly import Assembly, Programme
from service.assemblies.exports import harmless
from service.assemblies.joints import Joint
from service.assemblies.network import Member, solve_network
from service.assemblies.outcomes import canonical, canonical_sha256
from service.assemblies.parts import Part
from service.assemblies.reading import File, read_assembly
from service.assemblies.report import check
from service.catalogue.surfaces import Surface
from service.judgement import Function, Geometry, answer
from tests.seed_catalogue import seed_catalogue

TEXTS = (
    "EN AW-6082-T6, anodized 15 µm",
    "A4-80",
    "CW024A",
    "S355J2+N, hot dip galvanized ISO 1461",
    "aluminium",
    "qqxj wvvk",
    "CuZn39Pb3, Ni 5 µm",
)
PLACES = ("marine-atmosphere-0-100-m", "seawater-quiescent", "clean-room", "soil-mild", "nowhere")
AREAS_M2 = st.sampled_from([None, 0.001, 0.1])


@st.composite
def assemblies(draw: st.DrawFn) -> Assembly:
    parts = {
        f"P{number}": Part(f"P{number}", text=draw(st.sampled_from(TEXTS)), wetted_area_m2=draw(AREAS_M2))
        for number in range(draw(st.integers(2, 5)))
    }
    ends = st.lists(st.sampled_from(sorted(parts)), min_size=2, max_size=2, unique=True)
    joints = []
    for number in range(draw(st.integers(1, 6))):
        first, second = draw(ends)
        joints.append(
            Joint(
                f"J{number}",
                first,
                second,
                environment=draw(st.sampled_from(PLACES)),
                functions=(draw(st.sampled_from(list(Function))),),
                geometry=draw(st.sampled_from(list(Geometry))),
            )
        )
    return Assembly(parts, tuple(joints), programme=Programme(design_life_years=12.0))


def rows(assembly: Assembly) -> dict[str, dict[str, Any]]:
    """Joints of a report by name, without what their network adds: a joint alone has none."""
    found = check(assembly, seed_catalogue()).document["joints"]
    return {row["joint"]: {**row, "in_network": None} for row in found}


@settings(max_examples=12, deadline=None, derandomize=True)
@given(assembly=assemblies())
def test_a_batch_is_its_singles_byte_for_byte(assembly: Assembly) -> None:
    together = rows(assembly)
    for joint in assembly.joints:
        alone = rows(Assembly(assembly.parts, (joint,), programme=assembly.programme))
        assert canonical(alone[joint.id]) == canonical(together[joint.id])


@settings(max_examples=6, deadline=None, derandomize=True)
@given(assembly=assemblies())
def test_every_case_is_the_answer_to_its_question(assembly: Assembly) -> None:
    catalogue = seed_catalogue()
    for item in check(assembly, catalogue).joints:
        for case, outcome in item.cases:
            (given_alone,) = answer([case.inquiry], catalogue)
            assert outcome.answer_sha256 == canonical_sha256(given_alone.document())


@settings(max_examples=6, deadline=None, derandomize=True)
@given(order=st.permutations(["zn-pure", "steel-s355", "cu-etp", "ss-316l", "al-5083-h116"]))
def test_the_order_of_members_changes_nothing(order: list[str]) -> None:
    def potentials(names: list[str]) -> np.ndarray[Any, np.dtype[np.float64]]:
        members = [Member(name, Surface(name), None if name == "cu-etp" else 0.1) for name in names]
        network = solve_network(
            members, seed_catalogue().environments["seawater-quiescent"], seed_catalogue()
        )
        return np.stack([solution.potential for solution in network.solutions])

    assert potentials(order) == pytest.approx(potentials(sorted(order)), abs=1e-8)


WORDS = st.text('abcdefgh ÄöüéµΩ0123456789-+/()",;\n|', min_size=1, max_size=20).filter(
    lambda text: text.strip().lower() not in {"", "-", "--"} and not text.lstrip().startswith("# ")
)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    names=st.lists(WORDS, min_size=1, max_size=5),
    delimiter=st.sampled_from([",", ";", "\t", "|"]),
    encoding=st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"]),
)
def test_encoding_and_delimiter_change_nothing(names: list[str], delimiter: str, encoding: str) -> None:
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, delimiter=delimiter)
    writer.writerow(["Part number", "Description", "Material"])
    writer.writerows([f"N{number}", name, "S355"] for number, name in enumerate(names))
    found = read_assembly([File("list", stream.getvalue().encode(encoding))]).assembly
    assert list(found.parts) == [f"N{number}" for number in range(len(names))]
    for part, name in zip(found.parts.values(), names, strict=True):
        assert part.description.replace(" ", "") in name.replace(" ", "").replace("\n", "")
        assert part.material == "S355"


@given(text=st.text(max_size=30))
def test_no_text_starts_a_formula_once_it_is_harmless(text: str) -> None:
    made = harmless(text)
    assert isinstance(made, str)
    assert made.lstrip()[:1] not in set("=+-@|%")
    assert harmless(made) == made
    assert made.removeprefix("'") in (text, text.removeprefix("'"))
