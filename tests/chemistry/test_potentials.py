"""Reference electrodes."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.chemistry.errors import UnknownReferenceElectrodeError
from service.chemistry.potentials import REFERENCE_ELECTRODES, from_she, reference_electrode, to_she

SEED_DATA = Path(__file__).parents[2] / "seed_data"


@pytest.mark.parametrize("name", REFERENCE_ELECTRODES)
def test_the_value_used_lies_among_the_published_ones(name: str) -> None:
    electrode = REFERENCE_ELECTRODES[name]
    assert electrode.low_V - 1e-3 <= electrode.potential_V <= electrode.high_V + 1e-3
    assert electrode.source
    assert electrode.obtained in {"read", "from memory", "computed"}


@given(
    potential=st.floats(-2.0, 2.0),
    name=st.sampled_from(sorted(REFERENCE_ELECTRODES)),
    temperature=st.floats(0.0, 60.0),
)
def test_there_and_back_again(potential: float, name: str, temperature: float) -> None:
    assert from_she(to_she(potential, name, temperature), name, temperature) == pytest.approx(
        potential, abs=1e-12
    )


def test_the_standard_electrode_shifts_nothing_at_any_temperature() -> None:
    assert to_she(np.array([-1.0, 0.5]), "SHE", np.array([0.0, 60.0])).tolist() == [-1.0, 0.5]


def test_an_unknown_coefficient_leaves_the_potential_of_25_degrees() -> None:
    assert to_she(0.0, "Hg/HgO", 60.0) == to_she(0.0, "Hg/HgO")


@pytest.mark.parametrize(
    ("other", "name"),
    [
        ("CSE", "Cu/CuSO4 (sat.)"),
        ("0.1 N calomel", "calomel (0.1 M KCl)"),
        ("Ag/AgCl", "Ag/AgCl (unspecified)"),
    ],
)
def test_other_names_in_use_are_understood(other: str, name: str) -> None:
    assert reference_electrode(other) is REFERENCE_ELECTRODES[name]


def test_an_unknown_electrode_is_named() -> None:
    with pytest.raises(UnknownReferenceElectrodeError, match="lemon") as caught:
        to_she(0.0, "lemon")
    assert caught.value.electrode == "lemon"


@pytest.mark.parametrize("table", ["measurements.csv", "scales.csv"])
def test_every_electrode_of_the_seed_data_is_known(table: str) -> None:
    with (SEED_DATA / table).open(encoding="utf-8", newline="") as file:
        names = {line["reference_electrode"] for line in csv.DictReader(file)} - {""}
    assert names
    for name in names:
        assert reference_electrode(name).name in REFERENCE_ELECTRODES
