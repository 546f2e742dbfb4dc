"""Lanes that are alike are solved once, and every lane still gets its own figures."""

from __future__ import annotations

import numpy as np

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple, Geometry, judge
from service.judgement.distinct_lanes import distinct_lanes
from service.judgement.lanes import lanes_of, pairings_of

SEA_FRONT = "marine-atmosphere-0-100-m"


def test_twins_are_kept_once(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA_FRONT]
    thin, thick = (Surface("steel-s235", (Layer("zn-plain", value),)) for value in (5.0, 25.0))
    steel, copper = Surface("steel-s235"), Surface("cu-etp")
    couples = [Couple(thin, copper), Couple(steel, copper), Couple(thick, copper)]
    lanes = lanes_of(pairings_of(couples, environment, catalogue)[0], catalogue)
    distinct, places = distinct_lanes(lanes)
    assert places.tolist() == [0, 1, 0]
    assert distinct.rows.shape[1] == 2
    for name in ("rows", "draws", "areas_m2", "radii_m", "widths_m"):
        np.testing.assert_array_equal(getattr(distinct, name)[:, places], getattr(lanes, name))


def test_another_bore_is_another_lane(catalogue: Catalogue) -> None:
    pipes = [
        Couple(
            Surface("al-6082-t6"), Surface("cu-etp"), geometry=Geometry.PIPE, bore_m=bore, second_area_m2=0.1
        )
        for bore in (0.02, 0.04, 0.02)
    ]
    lanes = lanes_of(pairings_of(pipes, catalogue.environments["tap-water-hard"], catalogue)[0], catalogue)
    assert distinct_lanes(lanes)[1].tolist() == [0, 1, 0]


def test_other_areas_are_another_lane(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA_FRONT]
    pair = Surface("al-6082-t6"), Surface("cu-etp")
    couples = [Couple(*pair), Couple(*pair, first_area_m2=0.02, second_area_m2=0.01)]
    lanes = lanes_of(pairings_of(couples, environment, catalogue)[0], catalogue)
    assert distinct_lanes(lanes)[1].tolist() == [0, 1]


def test_a_batch_of_twins_is_judged_like_each_alone(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA_FRONT]
    copper = Surface("cu-etp")
    couples = [
        Couple(Surface("steel-s235", (Layer("zn-plain", value),)), copper) for value in (5.0, 8.0, 25.0)
    ]
    together = judge(couples, environment, catalogue)
    alone = [judge([couple], environment, catalogue)[0] for couple in couples]
    assert [result.findings for result in together] == [result.findings for result in alone]
