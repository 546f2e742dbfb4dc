from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import ElectrodeState, Plausibility
from service.judgement.draws import (
    ENNOBLED_CREDIBILITY,
    OWN,
    SAMPLE_SIZE,
    SHARED,
    SHARED_POTENTIAL,
    WATER,
    credible_states,
    in_one_water,
    kinetic_arrays,
    scores,
)
from tests.factories.couples import SEA, TAP


def test_every_figure_has_scores_of_its_own() -> None:
    columns = [scores(name) for name in SHARED] + [scores(name, side) for name in OWN for side in (0, 1)]
    columns.append(scores(WATER))
    sample = np.stack(columns)
    assert sample.shape == (len(SHARED) + 2 * len(OWN) + 1, SAMPLE_SIZE)
    correlation = np.corrcoef(sample) - np.eye(len(sample))
    assert np.abs(correlation).max() < 0.1


def test_rows_that_may_not_be_used_are_left_out(catalogue: Catalogue) -> None:
    used = {record.id for record in kinetic_arrays(catalogue).records}
    quarantined = {row.id for row in catalogue.kinetics.values() if row.quarantine_reason}
    failed = {row.id for row in catalogue.kinetics.values() if row.plausibility is Plausibility.FAILED}
    assert quarantined
    assert not used & (quarantined | failed)


def test_the_shared_arrays_cannot_be_written(catalogue: Catalogue) -> None:
    with pytest.raises(ValueError, match="read-only"):
        kinetic_arrays(catalogue).potential.central[0] = 0.0


def test_a_sample_keeps_the_published_bounds(catalogue: Catalogue) -> None:
    arrays = kinetic_arrays(catalogue)
    row = next(place for place, record in enumerate(arrays.records) if record.state is ElectrodeState.ACTIVE)
    rows, sides = np.array([row]), np.array([0])
    drawn = arrays.branches(rows, sides)
    record = arrays.records[row]
    potential = np.asarray(drawn.corrosion_potential)[0]
    assert np.median(potential) == pytest.approx(record.corrosion_potential_V, abs=0.002)
    assert np.quantile(potential, 0.05) == pytest.approx(record.corrosion_potential_low_V, abs=0.01)
    assert np.quantile(potential, 0.95) == pytest.approx(record.corrosion_potential_high_V, abs=0.01)
    assert np.all(np.asarray(drawn.corrosion_current) > 0.0)


def test_metals_in_one_water_move_together_and_keep_their_own_spread() -> None:
    own = np.stack([scores("potential", 0), scores("potential", 1)])
    moved = in_one_water(own)
    assert float(np.asarray(np.corrcoef(moved))[0, 1]) == pytest.approx(SHARED_POTENTIAL, abs=0.1)
    np.testing.assert_array_equal(np.sort(moved, axis=-1), np.sort(own, axis=-1))


def test_no_surface_uses_more_oxygen_than_there_is(catalogue: Catalogue) -> None:
    arrays = kinetic_arrays(catalogue)
    rows = np.arange(len(arrays.records))
    drawn = arrays.branches(rows, np.zeros_like(rows))
    assert np.asarray(drawn.limiting_current).max() <= 1.0


def test_the_two_sides_draw_figures_of_their_own(catalogue: Catalogue) -> None:
    arrays = kinetic_arrays(catalogue)
    rows = np.array([0, 0])
    drawn = np.asarray(arrays.branches(rows, np.array([0, 1])).corrosion_potential)
    assert not np.array_equal(drawn[0], drawn[1])
    assert sorted(drawn[0]) == pytest.approx(sorted(drawn[1]))


def states(electrode_id: str, environment_id: str, catalogue: Catalogue, **figures: object) -> list[str]:
    environment = replace(catalogue.environments[environment_id], **figures)  # type: ignore[arg-type]
    records = kinetic_arrays(catalogue).records
    return [records[row].state.value for row, _ in credible_states(electrode_id, environment, catalogue)]


def test_aluminium_in_chloride_pits(catalogue: Catalogue) -> None:
    assert states("aluminium-6xxx", SEA, catalogue) == ["pitting"]


def test_stainless_steel_is_ennobled_in_natural_sea_water_only(catalogue: Catalogue) -> None:
    assert set(states("stainless-316", SEA, catalogue, tags=("biofilm",))) == {"passive", "ennobled"}
    assert states("stainless-316", SEA, catalogue, tags=()) == ["passive"]


def test_warm_water_ends_the_ennoblement(catalogue: Catalogue) -> None:
    assert states("stainless-316", SEA, catalogue, tags=("biofilm",), temperature_C=40.0) == ["passive"]


def test_the_weights_of_the_states_add_up(catalogue: Catalogue) -> None:
    found = credible_states("stainless-316", catalogue.environments[SEA], catalogue)
    assert sum(weight for _, weight in found) == pytest.approx(1.0)
    assert ENNOBLED_CREDIBILITY in {weight for _, weight in found}


def test_steel_corrodes_actively(catalogue: Catalogue) -> None:
    assert states("steel-carbon", TAP, catalogue) == ["active"]


def test_an_electrode_without_kinetics_has_no_state(catalogue: Catalogue) -> None:
    assert states("unobtainium", SEA, catalogue) == []
