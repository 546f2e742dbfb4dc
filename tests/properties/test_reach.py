"""No change of the knowledge base changes an answer that it was said not to touch."""

from __future__ import annotations

import random
from functools import cache
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import CatalogueError
from service.catalogue.release import freeze, thaw
from service.catalogue.surfaces import Layer, Surface
from service.catalogue.tables import row_from_record
from service.curation.dependence import keys_of_answer
from service.curation.reach import Reach
from service.judgement import Answer, Function, Geometry, Inquiry, JudgementError, Side, answer
from tests.seed_catalogue import seed_catalogue

FIELDS = {
    "measurements": ("value", "low", "high"),
    "kinetics": ("corrosion_potential_V", "corrosion_current_A_per_m2", "cathodic_slope_V"),
    "limits": ("limit_V",),
    "electrodes": ("iso9223_factor", "pitting_factor_high"),
    "materials": ("strength_MPa",),
    "finishes": ("thickness_min_um", "pore_free_above_um"),
    "environments": ("temperature_C", "conductivity_S_per_m", "film_thickness_um"),
    "compounds": ("temperature_max_C",),
}
REMOVABLE = ("measurements", "kinetics", "rules", "limits", "designations")
TEXTS = ("EN AW-6082-T6, anodized 15 µm", "A4-80", "Fe//Zn8//C", "CW024A", "brass", "stainless steel")


def questions(seed: int) -> list[Inquiry]:
    chance = random.Random(seed)  # noqa: S311 - a repeatable mixture
    catalogue = seed_catalogue()
    materials = sorted(row.id for row in catalogue.materials.values() if row.electrode_id)

    def side() -> Side:
        if chance.random() < 0.4:
            return Side(text=chance.choice(TEXTS))
        layers = (Layer(chance.choice(sorted(catalogue.finishes))),) if chance.random() < 0.4 else ()
        return Side(surface=Surface(chance.choice(materials), layers))

    return [
        Inquiry(
            side(),
            side(),
            chance.choice(sorted(catalogue.environments)),
            geometry=chance.choice(list(Geometry)),
            functions=(chance.choice(list(Function)),),
            compound_id=chance.choice(sorted(catalogue.compounds)) if chance.random() < 0.2 else "",
        )
        for _ in range(40)
    ]


@cache
def rows() -> dict[str, list[dict[str, Any]]]:
    tables = seed_catalogue().records().items()
    return {table: [row_from_record(record) for record in records] for table, records in tables}


@cache
def answered() -> tuple[list[Inquiry], list[Answer], list[dict[str, Any]]]:
    asked = questions(20261125)
    given = answer(asked, seed_catalogue())
    return asked, given, [essence(each) for each in given]


def essence(given: Answer) -> dict[str, Any]:
    document = given.document()
    del document["release"]
    return document


def perturbed(data: st.DataObject) -> Catalogue | None:
    """The seed release with one row changed or gone, ``None`` where that is no release."""
    table = data.draw(st.sampled_from(sorted({*FIELDS, *REMOVABLE})))
    content = list(rows()[table])
    place = data.draw(st.integers(0, len(content) - 1))
    if table not in FIELDS or (table in REMOVABLE and data.draw(st.booleans())):
        del content[place]
    else:
        name = data.draw(st.sampled_from(FIELDS[table]))
        content[place] = content[place] | {name: (content[place][name] or 1.0) * 1.4}
    try:
        return thaw(freeze("later", {**rows(), table: content}))
    except CatalogueError:
        return None


@settings(max_examples=10, deadline=None)
@given(st.data())
def test_what_is_not_touched_stays_as_it_is(data: st.DataObject) -> None:
    after = perturbed(data)
    if after is None:
        return
    asked, before, documents = answered()
    reach = Reach.of(seed_catalogue(), after)
    untouched = [place for place, each in enumerate(before) if not reach.touching(keys_of_answer(each))]
    try:
        now = answer([asked[place] for place in untouched], after)
    except JudgementError as error:
        raise AssertionError(reach.changes) from error
    for place, each in zip(untouched, now, strict=True):
        assert essence(each) == documents[place], (reach.changes, asked[place])
