from __future__ import annotations

from service.callouts.designations import families
from service.callouts.marks import Alloy, MetalClass, Several
from service.catalogue.catalogue import Catalogue


def classes() -> list[MetalClass]:
    found: list[MetalClass] = []
    for table in families.PHRASES:
        for sense in table.values():
            parts = sense.senses if isinstance(sense, Several) else (sense,)
            found.extend(part for part in parts if isinstance(part, MetalClass))
    return found


def test_every_material_that_a_word_can_mean_is_in_the_catalogue(catalogue: Catalogue) -> None:
    named = {option for metal in classes() for option in metal.options}
    assert named - set(catalogue.materials) == set()


def test_every_class_covers_the_family_of_its_representatives(catalogue: Catalogue) -> None:
    for metal in classes():
        families_named = {catalogue.materials[option].family for option in metal.options}
        assert families_named <= metal.families, metal.name


def test_every_class_asks_a_question() -> None:
    assert all(metal.question.endswith("?") for metal in classes())


def test_no_word_names_an_alloy_by_itself() -> None:
    senses = [sense for table in families.PHRASES for sense in table.values()]
    assert not any(isinstance(sense, Alloy) for sense in senses)
