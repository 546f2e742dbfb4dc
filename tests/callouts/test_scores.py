"""Both tables of callouts, scored: what must be right, and that nothing is resolved to a wrong reading."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

import pytest

from service.callouts.reading import Candidate, Match, Reading
from service.callouts.resolver import Resolver
from tests.callouts.outlines import RESOLVED, thickness_agrees

DATA = Path(__file__).parent / "data"
LEAST_RIGHT_SHARE = 0.97


@dataclass(frozen=True)
class Wanted:
    """``layers`` outermost first, each with its thickness if the text gives one."""

    text: str
    material_id: str | None
    layers: tuple[tuple[str, float | None], ...]
    expected: str

    def fits(self, candidate: Candidate) -> bool:
        surface = candidate.surface
        if surface.material_id != self.material_id or bool(surface.layers) != bool(self.layers):
            return False
        if len(self.layers) > 1 and len(surface.layers) != len(self.layers):
            return False
        return all(
            layer.finish_id == finish_id and (um is None or thickness_agrees(layer.thickness_um, um))
            for layer, (finish_id, um) in zip(surface.layers, self.layers, strict=False)
        )

    def is_right(self, reading: Reading) -> bool:
        if self.expected == "unknown":
            return reading.match is Match.UNKNOWN
        if self.expected == "unresolved finish":
            return reading.match is Match.AMBIGUOUS and any(
                c.surface.material_id == self.material_id and any("finish" in m for m in c.missing)
                for c in reading.candidates
            )
        if reading.match is Match.AMBIGUOUS:
            return any(self.fits(candidate) for candidate in reading.candidates)
        if self.expected == "ambiguous" or not reading.candidates:
            return False
        return self.fits(reading.candidates[0])


def published() -> list[Wanted]:
    with (DATA / "callouts_published.csv").open(encoding="utf-8", newline="") as stream:
        return [
            Wanted(
                row["text"],
                row["material_id"] or None,
                ((row["finish_id"], float(row["thickness_um"]) if row["thickness_um"] else None),)
                if row["finish_id"]
                else (),
                row["expected"],
            )
            for row in csv.DictReader(stream)
        ]


def grammar_derived() -> list[Wanted]:
    with (DATA / "callouts_grammar.csv").open(encoding="utf-8", newline="") as stream:
        return [
            Wanted(row["text"], row["material_id"] or None, _layers(row["layers"]), _expected(row))
            for row in csv.DictReader(stream)
        ]


def _layers(text: str) -> tuple[tuple[str, float | None], ...]:
    pairs = [part.partition(":") for part in text.split("/") if part and part != "?"]
    return tuple((finish_id, float(um) if um else None) for finish_id, _, um in pairs)


def _expected(row: dict[str, str]) -> str:
    return "unresolved finish" if row["layers"] == "?" else row["expected"]


TABLES = {"published": published(), "grammar-derived": grammar_derived()}


def test_the_tables_have_their_size() -> None:
    assert len(TABLES["published"]) == 105
    assert len(TABLES["grammar-derived"]) >= 380
    with (DATA / "callouts_grammar.csv").open(encoding="utf-8", newline="") as stream:
        assert sum(row["family"] == "messy" for row in csv.DictReader(stream)) >= 60


@pytest.mark.parametrize("table", TABLES)
def test_the_share_of_right_readings(table: str, resolver: Resolver) -> None:
    wrong = [wanted.text for wanted in TABLES[table] if not wanted.is_right(resolver.resolve(wanted.text))]
    assert 1.0 - len(wrong) / len(TABLES[table]) >= LEAST_RIGHT_SHARE, wrong


@pytest.mark.parametrize("table", TABLES)
def test_nothing_is_resolved_to_a_wrong_reading(table: str, resolver: Resolver) -> None:
    readings = ((wanted, resolver.resolve(wanted.text)) for wanted in TABLES[table])
    assert [
        (wanted.text, reading.candidates[0].surface)
        for wanted, reading in readings
        if reading.match in RESOLVED and not wanted.is_right(reading)
    ] == []
