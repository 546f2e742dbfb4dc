from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.remedies.arrangement import NotPossibleError
from service.remedies.transforms import SHORTEST_INTERVAL_YEARS, TRANSFORMS, kind_of, variants_of
from tests.factories.remedies import arrangement, situation
from tests.seed_catalogue import seed_catalogue


@pytest.mark.parametrize("name", sorted(seed_catalogue().mitigations))
def test_every_measure_of_the_knowledge_base_can_be_tried(name: str, catalogue: Catalogue) -> None:
    measure = catalogue.mitigations[name]
    given = situation(catalogue, environment_id="fresh-water-hard")
    assert kind_of(measure)
    try:
        assert variants_of(measure, arrangement(given), given)
    except NotPossibleError as error:
        assert error.detail  # noqa: PT017 - either outcome is right, but it has to say why


def test_every_change_of_the_knowledge_base_has_its_function(catalogue: Catalogue) -> None:
    assert {measure.transform for measure in catalogue.mitigations.values()} <= set(TRANSFORMS)


def test_the_interval_is_the_shortest_stated_life(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="seawater-quiescent")
    spool = catalogue.mitigations["sacrificial-spool"]
    (after,) = variants_of(spool, arrangement(given), given)
    assert after.couples[0].design_life_years == spool.life_years_low
    (unknown,) = variants_of(replace(spool, life_years_low=None), arrangement(given), given)
    assert unknown.couples[0].design_life_years == SHORTEST_INTERVAL_YEARS
