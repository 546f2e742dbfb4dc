"""The documented cases, each with the question that puts it to the service."""

from __future__ import annotations

import csv
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from service.catalogue.catalogue import Catalogue
from service.catalogue.release import content_hash, freeze, thaw
from service.catalogue.surfaces import Condition
from service.judgement.couples import Function, Geometry
from service.judgement.inquiry import Inquiry, Side
from service.judgement.severity import Severity
from service.storage.migrate import PROJECT
from service.storage.reading import read_package

DATA = Path(__file__).parent / "data"
FILES = ("galvanic_couples_measured.csv", "galvanic_numeric.csv", "qualitative_cases.csv")


@dataclass(frozen=True, slots=True)
class Documented:
    """What is known to have happened; ``None`` or empty where the source is silent."""

    anode: str
    doubt_is_right: bool
    severity: tuple[Severity, Severity] | None
    function_severity: Severity | None
    study: str
    rank: float | None
    ratio_group: str
    ratio: float | None
    rate_um_per_year: float | None
    rate_is: str
    acceleration: float | None
    cathode_current_A_per_m2: float | None

    @property
    def nothing_is_eaten(self) -> bool:
        """Whether the source says that no metal is lost, so that there is no anode to name."""
        return self.severity is not None and self.severity[1] is Severity.NONE

    @property
    def is_severe(self) -> bool:
        """Whether the source tells of severe harm to the metal or to its function."""
        harmed = self.severity is not None and self.severity[1] is Severity.SEVERE
        return harmed or self.function_severity is Severity.SEVERE


@dataclass(frozen=True, slots=True)
class Case:
    """One usable row of the mapping."""

    name: str
    evidence: str
    row: dict[str, str]
    documented: Documented


def sources() -> dict[str, dict[str, str]]:
    """Return the rows of the three files by their identifiers."""
    return {row["id"]: row for name in FILES for row in rows_of(DATA / name)}


def mapping() -> list[dict[str, str]]:
    """Return the rows of the mapping, the excluded ones too."""
    return rows_of(DATA / "mapping.csv")


def usable_cases() -> list[Case]:
    """Return the cases that are put to the service."""
    evidence = {name: row["evidence"] for name, row in sources().items()}
    return [
        Case(f"{row['case_id']}{row['part']}", evidence[row["case_id"]], row, documented_in(row))
        for row in mapping()
        if row["usable"] == "yes"
    ]


@lru_cache(maxsize=1)
def seed_catalogue() -> Catalogue:
    """Return the seed package as the catalogue of a release."""
    export = freeze("validation", read_package(PROJECT / "seed_data"))
    return thaw(export, content_hash(export))


def inquiry_of(case: Case, catalogue: Catalogue) -> Inquiry:
    """Put a case as a question, as the conventions of the README say."""
    row = case.row
    environment = catalogue.environments[row["environment"]]
    if row["temperature_C"]:
        environment = replace(environment, temperature_C=float(row["temperature_C"]))
    radius_mm = _number(row["fastener_radius_mm"])
    return Inquiry(
        first=_side(row, "first"),
        second=_side(row, "second"),
        environment=environment,
        first_area_m2=_number(row["first_area_m2"]),
        second_area_m2=_number(row["second_area_m2"]),
        geometry=Geometry(row["geometry"]),
        fastener_radius_m=None if radius_mm is None else radius_mm / 1e3,
        functions=(Function(row["functions"] or "structural"),),
        design_life_years=_number(row["design_life_years"]),
    )


def _side(row: dict[str, str], name: str) -> Side:
    condition = row[f"{name}_condition"]
    return Side(
        material=row[f"{name}_material"],
        finish=row[f"{name}_finish"],
        condition=Condition(condition) if condition else None,
    )


def documented_in(row: dict[str, str]) -> Documented:
    anode, _, doubt = row["anode"].partition(" or ")
    low, high = row["severity_low"], row["severity_high"]
    harm = row["function_severity"]
    return Documented(
        anode=anode,
        doubt_is_right=doubt == "in doubt",
        severity=(Severity(low), Severity(high)) if low else None,
        function_severity=Severity(harm) if harm else None,
        study=row["study"],
        rank=_number(row["rank"]),
        ratio_group=row["ratio_group"],
        ratio=_number(row["ratio"]),
        rate_um_per_year=_number(row["rate_um_per_year"]),
        rate_is=row["rate_is"],
        acceleration=_number(row["acceleration"]),
        cathode_current_A_per_m2=_number(row["cathode_current_A_per_m2"]),
    )


def _number(text: str) -> float | None:
    return float(text) if text else None


def rows_of(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))
