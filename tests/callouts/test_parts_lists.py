"""Texts as parts lists and drawings write them, each with the reading that metallurgy asks for.

The expectations were written down before the texts were read. A cell holds names with wildcards, a name
that starts with ``@`` stands for a group, ``-`` for no material and ``?`` for a finish that was
reported as not understood. A thickness in micrometres follows a colon.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fnmatch import fnmatch
from pathlib import Path

import pytest

from service.callouts.reading import Candidate, Match, Reading
from service.callouts.resolver import Resolver
from tests.callouts.outlines import RESOLVED, thickness_agrees

TABLE = Path(__file__).parent / "data" / "callouts_lists.csv"
LEAST_RIGHT_SHARE = 0.97

ELECTROPLATED_ZINC = (
    "zn-passivated-clear zn-passivated-iridescent zn-chromate-yellow zn-chromate-olive zn-plain zn-black "
    "zn-passivated-sealed"
)
GROUPS = {
    "@a2": "ss-302 ss-303 ss-304 ss-304l ss-305",
    "@carbon": "steel-*",
    "@brass": "brass-*",
    "@znep": ELECTROPLATED_ZINC,
    "@zn": f"{ELECTROPLATED_ZINC} zn-hdg zn-hdg-sheet zn-mechanical zn-eg-sheet zn-sherardized",
    "@ni": "ni-* en-*",
    "@sn": "sn-matte sn-bright sn-reflow sn-over-ni sn-over-cu-al sn-hotdip lead-free-hotdip-sn imm-sn",
    "@paint": "powder-coat e-coat epoxy-* pu-topcoat acrylic-lacquer pvdf-coil",
}
TINS = "sn-matte sn-bright sn-reflow sn-over-ni sn-hotdip lead-free-hotdip-sn"
GROUPS |= {f"@sn{um}": " ".join(f"{tin}:{um}" for tin in TINS.split()) for um in (3, 5, 8, 10)}


def names(cell: str) -> list[str]:
    return [name for word in cell.split() for name in GROUPS.get(word, word).split()]


@dataclass(frozen=True)
class Wanted:
    text: str
    materials: list[str]
    layers: list[str]
    expected: str

    def allows(self, candidate: Candidate) -> bool:
        material = candidate.surface.material_id
        return any(fnmatch(material or "-", name) for name in self.materials) and any(
            is_layer(name, candidate) for name in self.layers
        )

    def is_right(self, reading: Reading) -> bool:
        if reading.match is Match.UNKNOWN:
            return "unknown" in self.expected
        if self.expected == "ambiguous" and reading.match is not Match.AMBIGUOUS:
            return False
        return any(map(self.allows, reading.candidates))


def is_layer(name: str, candidate: Candidate) -> bool:
    layers = candidate.surface.layers
    if name == "?":
        return any("finish" in missing or "not read" in missing for missing in candidate.missing)
    if name in {"bare", "-"} or not layers:
        return not layers and name in {"bare", "-"}
    finish, _, um = name.partition(":")
    return fnmatch(layers[0].finish_id, finish) and (
        not um or thickness_agrees(layers[0].thickness_um, float(um))
    )


def table() -> list[Wanted]:
    with TABLE.open(encoding="utf-8", newline="") as stream:
        return [
            Wanted(row["text"], names(row["material"]), names(row["outer_layer"]), row["expected"])
            for row in csv.DictReader(stream)
        ]


WANTED = table()


def test_the_table_has_its_size() -> None:
    assert len(WANTED) >= 800
    assert len({wanted.text for wanted in WANTED}) == len(WANTED)
    assert sum(wanted.expected == "unknown" for wanted in WANTED) >= 100


def test_the_share_of_right_readings(resolver: Resolver) -> None:
    wrong = [wanted.text for wanted in WANTED if not wanted.is_right(resolver.resolve(wanted.text))]
    assert 1.0 - len(wrong) / len(WANTED) >= LEAST_RIGHT_SHARE, wrong


def test_nothing_is_resolved_to_a_wrong_reading(resolver: Resolver) -> None:
    readings = ((wanted, resolver.resolve(wanted.text)) for wanted in WANTED)
    assert [
        (wanted.text, reading.candidates[0].surface)
        for wanted, reading in readings
        if reading.match in RESOLVED and not wanted.is_right(reading)
    ] == []


@pytest.mark.parametrize("wanted", [w for w in WANTED if w.expected == "unknown"], ids=lambda w: w.text)
def test_what_is_no_metal_is_never_read_as_one(wanted: Wanted, resolver: Resolver) -> None:
    reading = resolver.resolve(wanted.text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason
