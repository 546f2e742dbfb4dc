from __future__ import annotations

import csv
from pathlib import Path

import pytest

from service.callouts import Match, Resolver
from service.web.pages.places import DEFAULT_PLACE, DEMO_SURFACES, EXAMPLES, Example, places
from tests.seed_catalogue import seed_catalogue

DEMO = Path(__file__).parents[3] / "seed_data" / "demo" / "harbour-tide-gauge.csv"


def test_every_environment_is_offered_once() -> None:
    catalogue = seed_catalogue()
    offered = [environment.id for _, group in places(catalogue) for environment in group]
    assert sorted(offered) == sorted(catalogue.environments)
    assert DEFAULT_PLACE in offered


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.title)
def test_examples_ask_for_what_the_release_holds(example: Example) -> None:
    catalogue = seed_catalogue()
    assert example.fields["environment"] in catalogue.environments
    for side in ("first", "second"):
        assert Resolver.of(catalogue).resolve(example.fields[side]).match is not Match.UNKNOWN


def test_surfaces_of_the_matrix_come_from_the_demonstration() -> None:
    with DEMO.open(encoding="utf-8") as stream:
        materials = [row["material"] for row in csv.DictReader(stream) if row["material"]]
    for text in DEMO_SURFACES:
        assert any(material.split(" ")[0].rstrip(",") in text for material in materials), text
        assert Resolver.of(seed_catalogue()).resolve(text).match is not Match.UNKNOWN
