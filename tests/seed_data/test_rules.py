"""Rules and mitigations: their triggers can be read, name what exists, and warn where people can be hurt."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest

from service.judgement.facts import COMPUTED_FACTS, ENVIRONMENT_FACTS, JOINT_FACTS, SIDE_FACTS
from tests.seed_data.csv_rows import cells, ids, rows

PARTS = {
    "pair": SIDE_FACTS,
    "one": SIDE_FACTS,
    "environment": ENVIRONMENT_FACTS,
    "joint": JOINT_FACTS,
    "computed": COMPUTED_FACTS,
}
OPERATORS = {"above", "below", "has", "has_any", "not"}
FUNCTIONS = {
    "structural",
    "electrical bond",
    "protective earth",
    "power contact",
    "signal contact",
    "rf",
    "seal",
    "thermal",
}
TRANSFORMS = {
    "isolate",
    "raise_resistance",
    "replace_surface",
    "coat_cathode",
    "coat_anode",
    "coat_both",
    "seal",
    "exclude_wetness",
    "inhibit",
    "sacrifice",
    "cathodic_protection",
    "drain",
    "enlarge_anode",
    "shrink_cathode",
    "bimetal_transition",
    "same_material",
}
CALLERS_TAGS = {"stray_current", "cable_fire", "explosive_atmosphere"}
"""Tags that no named environment carries; a caller may state them."""


def conditions(trigger: dict[str, Any]) -> Iterator[tuple[str, str, Any]]:
    for part, content in trigger.items():
        for side in content if part == "pair" else [content]:
            for fact, matcher in side.items():
                yield part, fact, matcher


def leaves(matcher: Any) -> Iterator[Any]:
    if isinstance(matcher, dict):
        for operator, operand in matcher.items():
            assert operator in OPERATORS, operator
            yield from leaves(operand)
    elif isinstance(matcher, list):
        yield from matcher
    else:
        yield matcher


def named(fact: str) -> set[Any]:
    """Values of a fact that a trigger may name."""
    return {
        "material": lambda: ids("materials"),
        "family": lambda: {row["family"] for row in rows("materials")},
        "electrode": lambda: ids("electrodes"),
        "basis_electrode": lambda: ids("electrodes"),
        "electrode_family": lambda: {row["family"] for row in rows("electrodes")},
        "finish": lambda: ids("finishes"),
        "finishes": lambda: ids("finishes"),
        "finish_role": lambda: {row["role"] for row in rows("finishes")},
        "substances": lambda: {"Cd", "CrVI", "Pb", "Be", "Ni", "PFAS"},
        "environment": lambda: ids("environments"),
        "exposure": lambda: {row["exposure"] for row in rows("environments")},
        "electrolyte_class": lambda: {row["electrolyte_class"] for row in rows("environments")},
        "tags": lambda: {tag for row in rows("environments") for tag in cells(row, "tags")} | CALLERS_TAGS,
        "isa7104_level": lambda: {"G1", "G2", "G3", "GX"},
        "iso9223_category": lambda: {"C1", "C2", "C3", "C4", "C5", "CX"},
        "functions": lambda: FUNCTIONS,
        "compound": lambda: ids("compounds") | {"none"},
        "geometry": lambda: {"strip", "fastener", "pipe", "immersed"},
        "anode": lambda: {"first", "second"},
    }[fact]()


def triggers() -> list[tuple[str, str]]:
    return [(row["id"], row["trigger"]) for row in rows("rules")] + [
        (row["id"], row["applies_when"]) for row in rows("mitigations")
    ]


@pytest.mark.parametrize(("name", "trigger"), triggers())
def test_triggers_name_known_facts_and_things(name: str, trigger: str) -> None:
    for part, fact, matcher in conditions(json.loads(trigger)):
        assert fact in PARTS[part], (name, fact)
        values = set(leaves(matcher))
        if all(isinstance(value, str) for value in values):
            assert values <= named(fact), (name, fact, values - named(fact))


def test_rules_say_how_bad_and_which_side() -> None:
    for row in rows("rules"):
        trigger = json.loads(row["trigger"])
        assert trigger, row["id"]
        assert row["severity"] in {"", "none", "slight", "moderate", "severe"}, row["id"]
        assert row["anode"] in {"", "first", "second"}, row["id"]
        assert not row["anode"] or "pair" in trigger, row["id"]
        assert cells(row, "affects") <= FUNCTIONS, row["id"]
        assert row["statement"], row["id"]


def test_only_mandatory_rules_refuse() -> None:
    assert {row["kind"] for row in rows("rules") if row["refuses"] == "true"} == {"mandatory"}


def test_a_refusal_is_severe_and_says_what_to_do() -> None:
    for row in rows("rules"):
        if row["refuses"] == "true":
            assert row["severity"] == "severe", row["id"]
            assert row["advice"], row["id"]


def test_moderate_and_severe_rules_give_advice() -> None:
    assert not [
        row["id"] for row in rows("rules") if row["severity"] in {"moderate", "severe"} and not row["advice"]
    ]


def test_there_are_rules_of_every_kind() -> None:
    count = dict.fromkeys(("mandatory", "reversal", "experience", "crevice", "cathode damage", "hazard"), 0)
    for row in rows("rules"):
        count[row["kind"]] += 1
    assert count["hazard"] >= 60
    assert min(count.values()) >= 10


def test_every_documented_reversal_is_a_rule() -> None:
    reversals = [row["id"] for row in rows("rules") if row["kind"] == "reversal"]
    for stem in (
        "zn-fe-hot-soft",
        "zn-fe-hot-bicarbonate",
        "sn-fe-citrate",
        "al-zn-alkaline",
        "cd-al",
        "al-fe-low-chloride",
    ):
        assert f"reversal-{stem}" in reversals


def test_toxic_surfaces_carry_a_caution() -> None:
    for row in rows("rules"):
        substances = {
            value
            for _, fact, matcher in conditions(json.loads(row["trigger"]))
            if fact == "substances"
            for value in leaves(matcher)
        }
        if substances:
            assert row["caution"], row["id"]
    beryllium = [row for row in rows("rules") if row["id"].startswith("hazard-beryllium")]
    assert beryllium
    assert all("dust" in row["caution"] for row in beryllium)


def test_rules_about_current_and_load_defer_to_qualified_people() -> None:
    for row in rows("rules"):
        if row["kind"] == "mandatory" and cells(row, "affects") & {"power contact", "protective earth"}:
            assert "local" in row["caution"] or "signal contact" in row["affects"], row["id"]


def test_cathode_damage_asks_for_the_computed_potential() -> None:
    for row in rows("rules"):
        if row["kind"] == "cathode damage":
            assert "couple_potential_V" in json.loads(row["trigger"])["computed"], row["id"]


def test_published_limits_of_cathodic_protection() -> None:
    """UFC 3-570-06, 6-3.3: aluminium not below -1.200 V Cu/CuSO4 (+0.316 V SHE); titanium not below
    -0.75 V SCE (+0.241 V SHE) above 80 degC (a producer's corrosion data, section on hydrogen).
    """
    rule = {row["id"]: json.loads(row["trigger"]) for row in rows("rules")}
    aluminium = rule["cathode-al-alkali"]["computed"]["couple_potential_V"]["below"]
    assert aluminium == pytest.approx(-1.200 + 0.316, abs=1e-3)
    titanium = rule["cathode-ti-hydride-hot"]
    assert titanium["computed"]["couple_potential_V"]["below"] == pytest.approx(-0.75 + 0.241, abs=1e-3)
    assert titanium["environment"]["temperature_C"] == {"above": 80}


def test_mitigations_name_a_transform_and_figures() -> None:
    for row in rows("mitigations"):
        assert row["transform"] in TRANSFORMS, row["id"]
        assert isinstance(json.loads(row["parameters"]), dict), row["id"]
        assert cells(row, "ends_functions") <= FUNCTIONS, row["id"]
        assert cells(row, "needs_opt_in") <= {"Cd", "CrVI", "Pb", "Be"}, row["id"]
        assert "local codes" in row["directions"], row["id"]
        assert row["done_badly"], row["id"]
    ranks = [row["rank"] for row in rows("mitigations")]
    assert len(ranks) == len(set(ranks))


def test_mitigation_figures_point_at_known_things() -> None:
    for row in rows("mitigations"):
        figures = json.loads(row["parameters"])
        assert figures.get("finish", "none-bare") in ids("finishes"), row["id"]
        assert set(figures.get("materials", [])) | (
            {figures["material"]} if "material" in figures else set()
        ) <= ids("materials"), row["id"]
        assert set(figures.get("compounds", [])) <= ids("compounds"), row["id"]


def test_isolation_never_keeps_the_protective_earth() -> None:
    for row in rows("mitigations"):
        if row["transform"] == "isolate" and row["id"] != "reroute-current":
            assert "protective earth" in cells(row, "ends_functions"), row["id"]


def test_toxic_finishes_need_the_callers_consent() -> None:
    substances = {row["id"]: cells(row, "substances") & {"Cd", "CrVI", "Pb"} for row in rows("finishes")}
    for row in rows("mitigations"):
        used = substances.get(json.loads(row["parameters"]).get("finish", ""), set())
        assert used <= cells(row, "needs_opt_in"), row["id"]
