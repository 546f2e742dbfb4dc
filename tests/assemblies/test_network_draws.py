from __future__ import annotations

import itertools

import numpy as np
import pytest

from service.assemblies.network_draws import area_scores, draws_of, own_scores, sampled_branches
from service.catalogue.catalogue import Catalogue
from service.judgement.draws import OWN, SAMPLE_SIZE, SHARED, kinetic_arrays, scores


def test_two_electrodes_are_drawn_as_in_a_couple() -> None:
    for name in OWN:
        assert np.array_equal(own_scores(name, 0), scores(name, 0))
        assert np.array_equal(own_scores(name, 1), scores(name, 1))


def test_every_order_takes_each_point_once() -> None:
    for draw in range(12):
        assert np.array_equal(np.sort(own_scores("potential", draw)), np.sort(scores("potential", draw % 2)))


def test_metals_hardly_correlate_with_each_other_or_with_what_they_share() -> None:
    columns = [own_scores(name, draw) for draw in range(8) for name in OWN]
    columns += [scores(name) for name in SHARED]
    table = np.array(np.corrcoef(np.array(columns)))
    np.fill_diagonal(table, 0.0)
    assert np.abs(table).max() < 0.31


def test_unknown_areas_have_orders_of_their_own() -> None:
    for one, other in itertools.combinations(range(5), 2):
        assert not np.array_equal(area_scores(one), area_scores(other))
    assert np.array_equal(np.sort(area_scores(3)), np.sort(scores("pitting")))


def test_like_metals_share_their_draw() -> None:
    assert draws_of(["zinc", "steel", "zinc", "copper"]) == [2, 1, 2, 0]


def test_branches_of_two_are_those_of_a_couple(catalogue: Catalogue) -> None:
    arrays = kinetic_arrays(catalogue)
    many = sampled_branches(arrays, [0, 1, 2], [0, 1, 2])
    two = [arrays.branches(np.array([row]), np.array([row])) for row in (0, 1)]
    assert many.corrosion_potential.shape == (3, SAMPLE_SIZE)  # type: ignore[union-attr]
    for row in (0, 1):
        for name in ("corrosion_potential", "corrosion_current", "limiting_current"):
            assert getattr(many, name)[row] == pytest.approx(getattr(two[row], name)[0], nan_ok=True)
