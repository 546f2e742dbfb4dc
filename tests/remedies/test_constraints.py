from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.judgement import Verdict
from service.remedies.constraints import DEFAULT_WEIGHTS, Change, Constraints, Objective, Weights
from service.remedies.errors import InvalidConstraintError


def test_the_default_weights_are_whole() -> None:
    assert sum(DEFAULT_WEIGHTS.values()) == pytest.approx(1.0)
    assert set(DEFAULT_WEIGHTS) == set(Objective)


def test_weights_are_brought_to_one_and_what_is_not_named_counts_nothing() -> None:
    shares = Weights(((Objective.COST, 3.0), (Objective.LIFE, 1.0))).normalised()
    assert shares[Objective.COST] == 0.75
    assert shares[Objective.LIFE] == 0.25
    assert shares[Objective.HAZARDS] == 0.0


def test_the_defaults_are_in_order(catalogue: Catalogue) -> None:
    Constraints().check(catalogue)


@pytest.mark.parametrize(
    ("given", "pointer"),
    [
        ({"materials": ("al-6082-t6", "al-6082-t7")}, "/materials/1"),
        ({"allowed_substances": ("Hg",)}, "/allowed_substances/0"),
        ({"forbidden_substances": ("Ni", "Hg")}, "/forbidden_substances/1"),
        ({"first": Change.NOTHING, "second": Change.NOTHING}, "/first"),
        ({"accept": Verdict.UNSUITABLE}, "/accept"),
        ({"weights": Weights(((Objective.COST, -1.0),))}, "/weights"),
        ({"weights": Weights(((Objective.COST, 0.0),))}, "/weights"),
    ],
)
def test_what_cannot_be_used_is_refused_with_a_pointer(
    given: dict[str, Any], pointer: str, catalogue: Catalogue
) -> None:
    with pytest.raises(InvalidConstraintError) as caught:
        Constraints(**given).check(catalogue)
    assert caught.value.pointer == pointer


def test_a_near_name_is_suggested(catalogue: Catalogue) -> None:
    with pytest.raises(InvalidConstraintError) as caught:
        Constraints(materials=("al-6082-t7",)).check(catalogue)
    assert "al-6082-t6" in caught.value.suggestions
