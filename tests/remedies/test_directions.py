from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.remedies.directions import DEFERENCE, directions
from tests.seed_catalogue import seed_catalogue

STEPS = ["prepare", "apply", "assemble", "seal", "inspect", "defer"]


@pytest.mark.parametrize("name", sorted(seed_catalogue().mitigations))
def test_every_measure_has_its_steps_and_defers(name: str, catalogue: Catalogue) -> None:
    measure = catalogue.mitigations[name]
    steps = directions(measure)
    assert [step.step for step in steps] == STEPS
    assert all(step.text for step in steps)
    assert measure.directions in steps[1].text
    assert steps[-1].text == DEFERENCE


def test_the_directions_of_a_compound_are_added(catalogue: Catalogue) -> None:
    compound = catalogue.compounds["sl-ps-inhib"]
    steps = directions(catalogue.mitigations["seal-fillet"], (compound,))
    assert compound.directions in steps[1].text
