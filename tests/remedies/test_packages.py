from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function
from service.remedies.arrangement import as_it_is
from service.remedies.assessment import assess
from service.remedies.attempts import Package, attempt_each
from service.remedies.packages import MOST_MEASURES, packages_of
from service.remedies.transforms import kind_of
from tests.factories.remedies import SEA_FRONT, STEEL, couple_of, situation


def combined(
    catalogue: Catalogue,
    couple: Couple,
    environment_id: str = SEA_FRONT,
    names: tuple[str, ...] = (),
) -> tuple[list[Package], dict[str, Package]]:
    given = situation(catalogue, couple, environment_id)
    (before,) = assess([as_it_is(given.before)], [()], given)
    offered = [
        measure
        for measure in catalogue.mitigations.values()
        if (not names or measure.id in names) and not measure.needs_opt_in
    ]
    singles, ruled = attempt_each(offered, before, given)
    found = packages_of(singles, ruled, before, given)
    return found, {single.measures[0].id: single for single in singles}


MAGNESIUM = Couple(Surface("mg-az91d"), STEEL)


def test_a_package_is_better_than_each_of_its_parts(catalogue: Catalogue) -> None:
    found, singles = combined(catalogue, MAGNESIUM, "vehicle-underbody")
    assert found
    for package in found:
        assert 2 <= len(package.measures) <= MOST_MEASURES
        for measure in package.measures:
            if measure.id in singles:
                assert package.after.standing[:2] < singles[measure.id].after.standing[:2]


def test_no_package_takes_two_measures_of_one_kind(catalogue: Catalogue) -> None:
    found, _ = combined(catalogue, MAGNESIUM, "vehicle-underbody")
    for package in found:
        kinds = [kind_of(measure) for measure in package.measures]
        assert len(kinds) == len(set(kinds))


def test_where_one_measure_suffices_nothing_is_combined(catalogue: Catalogue) -> None:
    found, singles = combined(catalogue, couple_of())
    assert singles["same-alloy"].after.verdict.value == "suitable"
    assert found == []


def test_a_seal_that_insulates_is_taken_with_a_strap(catalogue: Catalogue) -> None:
    bonded = couple_of(second=Surface("ss-316"), functions=(Function.ELECTRICAL_BOND,))
    found, singles = combined(catalogue, bonded, names=("wet-assemble", "bond-strap"))
    assert set(singles) == {"bond-strap"}
    (package,) = found
    assert [measure.id for measure in package.measures] == ["wet-assemble", "bond-strap"]
    assert package.after.verdict.value == "conditional"


def test_what_cannot_be_combined_is_left(catalogue: Catalogue) -> None:
    """Across a transition piece there are two joints: isolating or painting one of them makes no sense."""
    found, singles = combined(
        catalogue,
        MAGNESIUM,
        "seawater-quiescent",
        names=("bimetal-transition", "paint-cathode", "shrink-cathode", "seal-fillet", "isolating-flange"),
    )
    assert "bimetal-transition" in singles
    assert not any(
        {"bimetal-transition", "paint-cathode"} <= {measure.id for measure in package.measures}
        for package in found
    )


def test_measures_that_undo_each_other_are_not_combined(catalogue: Catalogue) -> None:
    anodised = couple_of(first=Surface("al-6082-t6"), second=Surface("ss-316"))
    found, _ = combined(
        catalogue, anodised, "splash-and-tidal-zone", names=("hard-anodise", "conversion-coat", "drain-slope")
    )
    assert not any(
        {"hard-anodise", "conversion-coat"} <= {measure.id for measure in package.measures}
        for package in found
    )
