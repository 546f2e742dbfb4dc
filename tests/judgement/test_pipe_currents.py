from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Inquiry, Side, answer
from service.judgement.couples import Couple, Geometry
from service.judgement.currents import Currents
from service.judgement.draws import SAMPLE_SIZE, kinetic_arrays
from service.judgement.immersed_currents import immersed_currents
from service.judgement.lanes import Lanes, lanes_of, pairings_of
from service.judgement.pipe_currents import pipe_currents
from tests.factories.couples import ALUMINIUM, COAST, COPPER, TAP

BORE_M = 0.04


def lanes(catalogue: Catalogue, *couples: Couple) -> Lanes:
    return lanes_of(pairings_of(couples, catalogue.environments[TAP], catalogue)[0], catalogue)


def solved(catalogue: Catalogue, *couples: Couple, conductivity: float = 5.0) -> tuple[Currents, Currents]:
    """The couples as pipes, and lumped without any resistance, with the same oxygen."""
    wanted = lanes(catalogue, *couples)
    arrays = kinetic_arrays(catalogue)
    shares = [arrays.branches(wanted.rows[side], wanted.draws[side]) for side in (0, 1)]
    sides = [replace(side, limiting_current=0.5 * side.limiting_current) for side in shares]
    kappa = np.full(SAMPLE_SIZE, conductivity)
    return pipe_currents(sides, wanted, kappa), immersed_currents(sides, wanted, 1e9 * kappa)


def pipes(length_m: float, bore_m: float = BORE_M, **joint: Any) -> Couple:
    area = math.pi * bore_m * length_m
    return Couple(
        ALUMINIUM,
        COPPER,
        geometry=Geometry.PIPE,
        bore_m=bore_m,
        first_area_m2=area,
        second_area_m2=area,
        **joint,
    )


def test_the_lengths_of_a_pipe_follow_from_its_wetted_walls(catalogue: Catalogue) -> None:
    found = lanes(
        catalogue, pipes(0.7), Couple(ALUMINIUM, COPPER, geometry=Geometry.PIPE), Couple(COPPER, COPPER)
    )
    assert found.bores_m.tolist() == [BORE_M, 0.05, math.inf]
    np.testing.assert_allclose(found.widths_m[:, :2], [[0.7, 1.0], [0.7, 1.0]])


def test_a_short_pipe_is_a_lumped_couple(catalogue: Catalogue) -> None:
    pipe, lumped = solved(catalogue, pipes(0.01))
    np.testing.assert_allclose(pipe.potential, lumped.potential, atol=2e-3)
    is_anode = lumped.anodic > 0.01
    np.testing.assert_allclose(pipe.anodic[is_anode], lumped.anodic[is_anode], rtol=0.03)


def test_a_wide_pipe_is_a_lumped_couple(catalogue: Catalogue) -> None:
    pipe, lumped = solved(catalogue, pipes(0.05, bore_m=50.0))
    np.testing.assert_allclose(pipe.potential, lumped.potential, atol=2e-3)
    is_anode = lumped.anodic > 0.01
    np.testing.assert_allclose(pipe.anodic[is_anode], lumped.anodic[is_anode], rtol=0.03)


def test_a_narrow_pipe_gathers_the_attack_at_the_joint(catalogue: Catalogue) -> None:
    narrow, wide = (solved(catalogue, pipes(1.0, bore), conductivity=0.05)[0] for bore in (0.005, 0.5))
    assert np.median(narrow.reach[0]) < 0.2 * np.median(wide.reach[0])


def test_beyond_the_reach_more_pipe_adds_nothing(catalogue: Catalogue) -> None:
    long, longer = (solved(catalogue, pipes(length), conductivity=0.05)[0] for length in (20.0, 40.0))
    np.testing.assert_allclose(long.anodic, longer.anodic, rtol=1e-3)


def test_what_leaves_one_pipe_enters_the_other(catalogue: Catalogue) -> None:
    pipe, _ = solved(catalogue, pipes(0.5))
    np.testing.assert_allclose(
        (pipe.anodic * pipe.reach)[0], (pipe.cathodic * pipe.reach)[1], rtol=1e-6, atol=1e-12
    )


def joint_of(catalogue: Catalogue, environment: str = TAP, **joint: Any) -> dict[str, Any]:
    sides = Side(surface=ALUMINIUM), Side(surface=COPPER)
    return answer([Inquiry(*sides, environment, geometry=Geometry.PIPE, **joint)], catalogue)[0].document()


def test_a_bore_that_nobody_states_is_a_stated_default(catalogue: Catalogue) -> None:
    joint = joint_of(catalogue)["joint"]
    assert joint["bore_mm"] == 50.0
    assert {"bore_mm", "areas"} <= set(joint["defaults_used"])
    assert joint["first_area_cm2"] == pytest.approx(math.pi * 5 * 100, rel=1e-2)
    joint = joint_of(catalogue, bore_m=0.022)["joint"]
    assert joint["bore_mm"] == 22.0
    assert "bore_mm" not in joint["defaults_used"]


def test_a_bore_changes_the_answer_in_water_and_says_so_where_there_is_none(catalogue: Catalogue) -> None:
    narrow, wide = (joint_of(catalogue, bore_m=bore)["loss"]["reach_mm"]["median"] for bore in (0.01, 0.2))
    assert narrow < wide
    codes = {warning["code"] for warning in joint_of(catalogue, COAST, bore_m=0.01)["warnings"]}
    assert "not-filled" in codes
    assert "not-filled" not in {warning["code"] for warning in joint_of(catalogue)["warnings"]}


def test_pipes_and_other_parts_are_judged_together_as_alone(catalogue: Catalogue) -> None:
    sides = Side(surface=ALUMINIUM), Side(surface=COPPER)
    inquiries = [
        Inquiry(*sides, TAP, geometry=Geometry.PIPE, bore_m=0.02),
        Inquiry(*sides, TAP, geometry=Geometry.IMMERSED),
        Inquiry(*sides, TAP, geometry=Geometry.PIPE, bore_m=0.1),
    ]
    together = [item.document() for item in answer(inquiries, catalogue)]
    assert together == [answer([inquiry], catalogue)[0].document() for inquiry in inquiries]
