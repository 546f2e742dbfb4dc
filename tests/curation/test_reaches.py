"""Two releases are compared once."""

from __future__ import annotations

from service.catalogue.catalogue import Catalogue
from service.catalogue.release import freeze, thaw
from service.curation.reaches import Reaches
from tests.factories.knowledge import small_package


def release(label: str, temperature_c: float) -> Catalogue:
    package = small_package()
    package["environments"] = [
        {**row, "temperature_C": temperature_c} if number == 0 else row
        for number, row in enumerate(package["environments"])
    ]
    return thaw(freeze(label, package))


def test_a_comparison_is_made_once_for_the_same_content() -> None:
    reaches, before, after = Reaches(), release("a", 10.0), release("b", 12.0)
    made = reaches.between(before, after)
    assert [change.field for change in made.changes] == ["temperature_C"]
    assert reaches.between(release("a", 10.0), release("b", 12.0)) is made
    assert reaches.between(after, before) is not made


def test_the_one_that_rested_longest_is_dropped() -> None:
    reaches = Reaches(size=2)
    a, b, c = (release(name, number) for number, name in enumerate("abc", 10))
    first, second = reaches.between(a, b), reaches.between(b, c)
    assert reaches.between(a, b) is first
    reaches.between(a, c)
    assert reaches.between(a, b) is first
    assert reaches.between(b, c) is not second
