from __future__ import annotations

from service.callouts.finishes import families
from service.callouts.finishes.deciders import DECIDERS
from service.callouts.marks import Callout, Clues, Coat, Several
from service.catalogue.catalogue import Catalogue


def coats() -> list[Coat]:
    found: list[Coat] = []
    for table in families.PHRASES:
        for sense in table.values():
            for part in sense.senses if isinstance(sense, Several) else (sense,):
                found += part.coats if isinstance(part, Callout) else ()
                found += (part,) if isinstance(part, Coat) else ()
    return found


def test_every_word_of_a_coat_has_a_decider() -> None:
    assert {coat.kind for coat in coats()} <= set(DECIDERS)


def test_every_document_decides_for_finishes_of_the_catalogue(catalogue: Catalogue) -> None:
    values = (
        "",
        "1",
        "1a",
        "1b",
        "1c",
        "2",
        "2b",
        "3",
        "4",
        "5",
        "6",
        "a",
        "b",
        "c",
        "n",
        "s",
        "m",
        "z",
        "0",
        "00",
    )
    for key, spec in families.SPECS.items():
        for name in ("type", "class", "grade", "code", "condition"):
            for value in values:
                callout = spec.read(Clues(attributes=((name, value),) if value else ()))
                assert callout is not None, key
                named = {option.finish_id for coat in callout.coats for option in coat.options}
                assert named, key
                assert named <= set(catalogue.finishes), key


def test_a_document_over_several_coats_gives_way_to_a_named_coat() -> None:
    for key in ("iso1456", "iso2093", "iso4527", "en10346", "iso2063", "iso12944", "iso27874", "din50979"):
        assert families.SPECS[key].read(Clues(kinds=frozenset({"cr", "ni", "zn"}))) is None, key
