from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement.findings import Anode
from service.judgement.scales import Comparison, compare, subject_of
from tests.factories.couples import ALUMINIUM, COPPER, STEEL, TITANIUM, coated
from tests.factories.knowledge import Values, catalogue_of, row, small_package


def test_a_bare_surface_is_found_by_material_and_electrode(catalogue: Catalogue) -> None:
    assert subject_of(COPPER, catalogue) == ("copper", "cu-etp")


def test_under_a_coat_the_material_does_not_count(catalogue: Catalogue) -> None:
    assert subject_of(coated("steel-s235", "zn-plain"), catalogue) == ("zinc", "")


def test_aluminium_is_the_anode_to_copper_on_every_scale(catalogue: Catalogue) -> None:
    found = compare(subject_of(ALUMINIUM, catalogue), subject_of(COPPER, catalogue), "harsh", catalogue)
    assert len(found) > 1
    assert {comparison.anode for comparison in found} == {Anode.FIRST}


def test_turning_the_couple_round_turns_the_comparison_round(catalogue: Catalogue) -> None:
    first, second = subject_of(STEEL, catalogue), subject_of(TITANIUM, catalogue)
    for one, other in zip(
        compare(first, second, "normal", catalogue), compare(second, first, "normal", catalogue), strict=True
    ):
        assert one.anode is other.anode.other
        assert one.difference_V == other.difference_V
        assert (one.first, one.second) == (other.second, other.first)


def test_a_scale_with_a_limit_goes_before_one_without(catalogue: Catalogue) -> None:
    found = compare(subject_of(ALUMINIUM, catalogue), subject_of(COPPER, catalogue), "harsh", catalogue)
    has_limit = [comparison.limit is not None for comparison in found]
    assert has_limit == sorted(has_limit, reverse=True)


def scaled(*rows: Values, kind: str = "potential", limit_V: float = 0.25) -> Catalogue:
    package = small_package()
    package["scales"] = [row("scales", id="series", kind=kind, electrolyte_class="chloride")]
    package["limits"] = [
        row("limits", id="limit", scale_id="series", screening_class="harsh", limit_V=limit_V)
    ]
    package["measurements"] = list(rows)
    return catalogue_of(package)


def placed(subject_id: str, **figures: Any) -> Values:
    defaults: Values = {"obtained": "read", "fitness": "exact", "state": "-"}
    return row(
        "measurements",
        id=f"{subject_id}-{len(str(figures))}-{figures.get('state', '')}",
        subject_kind="electrode",
        subject_id=subject_id,
        scale_id="series",
        quantity="corrosion_potential",
        **(defaults | figures),
    )


def compared(catalogue: Catalogue, first: str = "zinc", second: str = "steel") -> Comparison:
    return compare((first, ""), (second, ""), "harsh", catalogue)[0]


def test_single_figures_have_one_difference() -> None:
    found = compared(scaled(placed("zinc", value=-0.80), placed("steel", value=-0.40)))
    assert (found.difference_low_V, found.difference_V, found.difference_high_V) == (0.4, 0.4, 0.4)
    assert found.anode is Anode.FIRST
    assert not found.is_polarity_in_doubt
    assert found.limit_V == 0.25
    assert found.grade == "A"


def test_ranges_give_the_smallest_and_the_largest_difference() -> None:
    found = compared(scaled(placed("zinc", low=-0.85, high=-0.75), placed("steel", low=-0.50, high=-0.30)))
    assert (found.difference_low_V, found.difference_V, found.difference_high_V) == (0.25, 0.4, 0.55)


def test_where_ranges_overlap_the_polarity_is_in_doubt() -> None:
    found = compared(scaled(placed("zinc", low=-0.60, high=-0.40), placed("steel", low=-0.50, high=-0.20)))
    assert found.is_polarity_in_doubt
    assert found.difference_low_V == 0.0


def test_a_metal_against_itself_has_no_difference_and_no_doubt() -> None:
    found = compared(scaled(placed("zinc", low=-0.9, high=-0.7)), "zinc", "zinc")
    assert (found.anode, found.difference_high_V, found.is_polarity_in_doubt) == (Anode.NONE, 0.0, False)


def test_a_last_bit_does_not_carry_a_difference_over_its_limit() -> None:
    found = compared(scaled(placed("zinc", value=-0.90), placed("steel", value=-0.75), limit_V=0.15))
    assert found.difference_V == found.limit_V


def test_an_index_is_turned_round() -> None:
    found = compared(scaled(placed("zinc", value=1.25), placed("steel", value=0.85), kind="index"))
    assert found.anode is Anode.FIRST
    assert found.difference_V == 0.4
    ranged = compared(scaled(placed("zinc", low=1.2, high=1.3), placed("steel", value=0.85), kind="index"))
    assert (ranged.first.low_V, ranged.first.high_V) == (-1.3, -1.2)


def test_a_rank_has_no_volts() -> None:
    catalogue = scaled(placed("zinc", value=3.0), placed("steel", value=7.0), kind="rank")
    assert compare(("zinc", ""), ("steel", ""), "harsh", catalogue) == ()


@pytest.mark.parametrize(
    "fault", [{"quarantine_reason": "polluted"}, {"fitness": "unfit"}, {"value": None}], ids=str
)
def test_a_row_that_may_not_be_used_places_nothing(fault: Values) -> None:
    figures: Values = {"value": -0.8} | fault
    catalogue = scaled(placed("zinc", **figures), placed("steel", value=-0.4))
    assert compare(("zinc", ""), ("steel", ""), "harsh", catalogue) == ()


def test_a_metal_is_screened_in_its_passive_state_where_it_has_one() -> None:
    catalogue = scaled(
        placed("steel", value=-0.5, state="active"),
        placed("steel", value=-0.05, state="passive"),
        placed("zinc", value=-0.8),
        placed("zinc", value=-0.2, state="pitting"),
    )
    found = compared(catalogue)
    assert (found.first.middle_V, found.second.middle_V) == (-0.8, -0.05)


def test_a_row_of_the_material_itself_goes_before_that_of_its_electrode() -> None:
    catalogue = scaled(
        placed("zinc", value=-0.8), placed("zinc-sheet", value=-0.7), placed("steel", value=-0.4)
    )
    found = compare(("zinc", "zinc-sheet"), ("steel", ""), "harsh", catalogue)[0]
    assert found.first.middle_V == -0.7


def test_another_class_of_service_has_another_limit() -> None:
    catalogue = scaled(placed("zinc", value=-0.8), placed("steel", value=-0.4))
    found = compare(("zinc", ""), ("steel", ""), "controlled", catalogue)[0]
    assert found.limit_V is None


def test_the_weaker_grade_counts() -> None:
    found = compared(scaled(placed("zinc", value=-0.8), placed("steel", value=-0.4, obtained="from memory")))
    assert found.grade == "D"
