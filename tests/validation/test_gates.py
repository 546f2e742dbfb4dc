"""Gates that physics sets: whatever the data, an answer that fails one of these is wrong."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from itertools import combinations, pairwise
from typing import Any

import pytest

from service.catalogue.records import Environment, Obtained
from service.chemistry.atmosphere import StandardMetal, first_year_rate_um_per_year
from service.chemistry.corrosivity import CATEGORIES, corrosivity_category
from service.judgement.answer import answer
from service.judgement.couples import Geometry
from service.judgement.inquiry import Inquiry, Side
from tests.validation.cases import seed_catalogue

NACL = "sodium-chloride-3-5"
FILM = "marine-atmosphere-100-300-m"


def ask(first: str, second: str, environment: str | Environment, **joint: Any) -> dict[str, Any]:
    """Ask by `material` or `material+finish` and return the document."""
    sides = []
    for name in (first, second):
        material, _, finish = name.partition("+")
        sides.append(Side(material=material, finish=finish))
    inquiry = Inquiry(sides[0], sides[1], environment, **joint)
    return answer([inquiry], seed_catalogue())[0].document()


def current(document: dict[str, Any]) -> float:
    return float(document["loss"]["galvanic_current_density_mA_per_m2"]["median"])


# (a) an uncoupled metal through the whole pipeline gives its ISO 9223 rate, C2 to CX

METALS = {
    StandardMetal.CARBON_STEEL: "steel-s235",
    StandardMetal.ZINC: "zn-pure",
    StandardMetal.COPPER: "cu-etp",
    StandardMetal.ALUMINIUM: "al-1050a-h14",
}
CLIMATES = [
    # temperature degC, relative humidity %, SO2 and chloride deposition mg/(m2 d)
    (10.0, 72.0, 3.0, 3.0),
    (12.0, 76.0, 12.0, 15.0),
    (14.0, 79.0, 20.0, 60.0),
    (16.0, 80.0, 60.0, 200.0),
    (22.0, 84.0, 80.0, 600.0),
    (26.0, 88.0, 120.0, 1200.0),
]


@pytest.mark.parametrize("metal", METALS)
@pytest.mark.parametrize("climate", CLIMATES)
def test_a_metal_alone_corrodes_as_iso_9223_says(metal: StandardMetal, climate: tuple[float, ...]) -> None:
    expected = float(first_year_rate_um_per_year(metal, *climate))
    loss = ask(METALS[metal], METALS[metal], site(climate), design_life_years=1.0)["loss"]
    found = loss["galvanic_rate_um_per_year"]["median"] + loss["uncoupled_rate_um_per_year"]["median"]
    assert 1 / 1.5 < found / expected < 1.5


def test_the_climates_reach_from_c2_to_cx() -> None:
    steel = StandardMetal.CARBON_STEEL
    rates = [float(first_year_rate_um_per_year(steel, *climate)) for climate in CLIMATES]
    found = {CATEGORIES[int(corrosivity_category(steel, rate))] for rate in rates}
    assert found >= {"C2", "C3", "C4", "C5", "CX"}


def site(climate: tuple[float, ...]) -> Environment:
    temperature, humidity, so2, chloride = climate
    return replace(
        seed_catalogue().environments[FILM],
        id="",
        temperature_C=temperature,
        relative_humidity_pct=humidity,
        so2_mg_per_m2_d=so2,
        chloride_mg_per_m2_d=chloride,
        iso9223_category="",
    )


# (b) order of cathodes on aluminium in 3.5 % NaCl at equal areas: F. Mansfeld, D. H. Hengstenberg,
# J. V. Kenkel, Galvanic corrosion of Al alloys I: effect of dissimilar metal, Corrosion 30 (1974) 343

CATHODES = ["ag", "cu-etp", "steel-4130", "ss-304", "ni-200", "inconel-718", "ti-gr5"]
FALLS = [("ag", "cu-etp"), ("cu-etp", "steel-4130"), ("ss-304", "inconel-718"), ("ni-200", "inconel-718")]
FALLS_FAR = [("steel-4130", "ss-304"), ("steel-4130", "ni-200"), ("inconel-718", "ti-gr5")]


@lru_cache(maxsize=1)
def on_aluminium() -> dict[str, float]:
    inquiries = [Inquiry(Side(material="al-6061-t6"), Side(material=cathode), NACL) for cathode in CATHODES]
    answers = answer(inquiries, seed_catalogue())
    return {name: current(item.document()) for name, item in zip(CATHODES, answers, strict=True)}


@pytest.mark.parametrize("pair", FALLS)
def test_the_stronger_cathode_draws_more(pair: tuple[str, str]) -> None:
    assert on_aluminium()[pair[0]] > on_aluminium()[pair[1]]


@pytest.mark.parametrize("pair", FALLS_FAR)
def test_the_much_stronger_cathode_draws_much_more(pair: tuple[str, str]) -> None:
    assert on_aluminium()[pair[0]] > 1.5 * on_aluminium()[pair[1]]


def test_stainless_steel_and_nickel_draw_about_the_same() -> None:
    assert 0.5 < on_aluminium()["ss-304"] / on_aluminium()["ni-200"] < 2


# (c) paint on the anode alone is worse than no paint


@pytest.mark.parametrize("environment", [NACL, "seawater-quiescent", FILM])
def test_painting_only_the_anode_is_worse_than_bare(environment: str) -> None:
    bare = ask("al-6082-t6", "cu-etp", environment)
    painted = ask("al-6082-t6+epoxy-primer-ncr", "cu-etp", environment)
    assert painted["anode"]["side"] == "first"
    rates = [item["loss"]["galvanic_rate_um_per_year"]["median"] for item in (bare, painted)]
    assert rates[1] > rates[0]


# (d) immersed, oxygen sets the cathode's current: the anode's follows the cathode's area. In a film
# the current does not reach beyond a few decay lengths, and more area adds nothing.


@pytest.mark.parametrize("cathode", ["cu-etp", "ag"])
def test_immersed_the_current_follows_the_area_of_the_cathode(cathode: str) -> None:
    areas = (0.001, 0.01, 0.1)
    found = [
        current(
            ask(
                "al-6061-t6",
                cathode,
                NACL,
                geometry=Geometry.IMMERSED,
                first_area_m2=0.01,
                second_area_m2=area,
            )
        )
        for area in areas
    ]
    for smaller, larger in pairwise(found):
        assert larger / smaller == pytest.approx(10, rel=0.15)


def test_in_a_film_area_beyond_three_decay_lengths_changes_nothing() -> None:
    wide = [
        ask("al-6082-t6", "cu-etp", FILM, first_area_m2=1.0, second_area_m2=area) for area in (1.0, 3.0, 10.0)
    ]
    reach_mm = max(item["loss"]["reach_mm"]["high"] for item in wide)
    assert reach_mm * 3 < 1000
    for one, other in combinations(wide, 2):
        assert current(one) == pytest.approx(current(other), rel=0.02)


# (f) no suitable on memory alone

UNREAD = {Obtained.FROM_MEMORY.value, Obtained.COMMON_PRACTICE.value}
METALS_EVERYWHERE = [
    "al-6082-t6", "al-2024-t3", "steel-s235", "ss-304", "ss-316", "cu-etp", "brass-cuzn37", "zn-pure",
    "ti-gr5", "mg-az91d", "sn", "ag", "au", "pb", "ni-200", "cfrp",
]  # fmt: skip
PLACES = [FILM, NACL, "urban-atmosphere", "tap-water-hard", "unheated-indoor", "gasketed-enclosure"]


@pytest.mark.parametrize("environment", PLACES)
def test_nothing_is_suitable_on_memory_alone(environment: str) -> None:
    inquiries = [
        Inquiry(Side(material=first), Side(material=second), environment)
        for first, second in combinations(METALS_EVERYWHERE, 2)
    ]
    for item in answer(inquiries, seed_catalogue()):
        document = item.document()
        if document["verdict"] == "suitable":
            obtained = {entry["obtained"] for entry in document["evidence"]}
            assert obtained - UNREAD, f"{document['summary']['line']} rests on {obtained}"
