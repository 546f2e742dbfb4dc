from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement.judge import Judgement, judge
from service.judgement.policy import DEFAULT_POLICY
from service.judgement.tipping_point import FACTORS, TippingPoint, find_tipping_point
from tests.factories.couples import COAST, COPPER, DRY, SEA, STEEL, ZINC, coated, judged


def tipping(judgement: Judgement, catalogue: Catalogue) -> TippingPoint | None:
    return find_tipping_point(judgement, catalogue, DEFAULT_POLICY)


def test_the_search_goes_a_hundredfold_either_way_and_skips_where_it_stands() -> None:
    assert FACTORS[0] == 0.01
    assert FACTORS[-1] == 100.0
    assert 1.0 in FACTORS
    assert list(FACTORS) == sorted(FACTORS)


def test_the_verdict_really_is_another_one_there(catalogue: Catalogue) -> None:
    judgement = judged(ZINC, COPPER, "rural-atmosphere", catalogue, section_allowance_um=2000.0)
    found = tipping(judgement, catalogue)
    assert found is not None
    assert found.becomes is not judgement.outcome.verdict
    assert found.flips_at != found.present


def test_a_stated_figure_is_varied_from_where_it_stands(catalogue: Catalogue) -> None:
    zinc = Surface("zn-pure")
    judgements = [
        judged(zinc, STEEL, COAST, catalogue, design_life_years=years, section_allowance_um=allowance)
        for years in (1.0, 10.0)
        for allowance in (100.0, 500.0, 2000.0)
    ]
    found = [point for judgement in judgements if (point := tipping(judgement, catalogue))]
    assert found
    presents = {
        "design life": {1.0, 10.0},
        "section allowance": {100.0, 500.0, 2000.0},
        "wetted area of the first side": {0.01},
        "wetted area of the second side": {0.01},
    }
    for point in found:
        assert point.present in presents[point.quantity]


def test_where_no_single_input_matters_there_is_no_tipping_point(catalogue: Catalogue) -> None:
    assert tipping(judged(COPPER, COPPER, DRY, catalogue), catalogue) is None


def test_the_thickness_of_either_coat_is_an_input(catalogue: Catalogue) -> None:
    coat = coated("steel-s235", "zn-hdg", 70.0)
    for first, second, side in ((coat, STEEL, "first"), (STEEL, coat, "second")):
        flips = []
        for years in (0.5, 1.0, 2.0, 4.0, 8.0):
            judgement = judged(
                first,
                second,
                "rural-atmosphere",
                catalogue,
                design_life_years=years,
                section_allowance_um=1e4,
            )
            flips.append(tipping(judgement, catalogue))
        quantities = {point.quantity for point in flips if point}
        assert quantities <= {
            "design life",
            "section allowance",
            "wetted area of the first side",
            "wetted area of the second side",
            f"coat thickness of the {side} side",
        }
        assert quantities


def test_the_nearest_flip_is_taken(catalogue: Catalogue) -> None:
    judgement = judged(ZINC, STEEL, SEA, catalogue, section_allowance_um=3000.0)
    found = tipping(judgement, catalogue)
    assert found is not None
    factor = found.flips_at / found.present
    nearest = max(factor, 1.0 / factor)
    couple = judgement.couple
    closer = [entry for entry in FACTORS if 1.0 < max(entry, 1.0 / entry) < nearest * 0.999]
    trials = [
        type(couple)(couple.first, couple.second, section_allowance_um=3000.0, design_life_years=10.0 * entry)
        for entry in closer
    ]
    verdicts = {
        result.outcome.verdict for result in judge(trials, judgement.environment, catalogue, DEFAULT_POLICY)
    }
    assert verdicts <= {judgement.outcome.verdict}
