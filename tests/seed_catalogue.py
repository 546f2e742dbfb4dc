"""The seed package as a catalogue, read once per process, for the tests of every inner room."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from service.catalogue.catalogue import Catalogue
from service.catalogue.release import freeze, thaw
from service.catalogue.tables import TABLES

SEED_DATA = Path(__file__).parent.parent / "seed_data"


@cache
def seed_catalogue() -> Catalogue:
    rows = {}
    for table in TABLES:
        with (SEED_DATA / f"{table}.csv").open(encoding="utf-8", newline="") as stream:
            rows[table] = list(csv.DictReader(stream))
    return thaw(freeze("seed", rows))
