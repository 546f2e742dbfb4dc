from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Mitigation
from service.judgement import Contact, Couple, Function
from service.remedies.arrangement import as_it_is
from service.remedies.functions import Effect, FunctionEffect, effects, ended_functions
from tests.factories.remedies import COPPER, coated, couple_of, judged

BOND = (Function.ELECTRICAL_BOND,)


def told(
    catalogue: Catalogue,
    couple: Couple,
    measures: tuple[Mitigation, ...] = (),
    after: Couple | None = None,
    **changes: object,
) -> tuple[FunctionEffect, ...]:
    before = judged(catalogue, couple)
    changed = judged(catalogue, after or couple)
    arrangement = replace(as_it_is(changed), **changes)  # type: ignore[arg-type]
    return effects(measures, arrangement, before, changed)


def test_functions_without_current_are_kept(catalogue: Catalogue) -> None:
    (effect,) = told(catalogue, couple_of())
    assert (effect.function, effect.effect) == (Function.STRUCTURAL, Effect.KEPT)


def test_an_isolating_washer_ends_a_bond(catalogue: Catalogue) -> None:
    washer = catalogue.mitigations["isolating-washer"]
    joint = couple_of(functions=BOND)
    (effect,) = told(catalogue, joint, (washer,), replace(joint, is_isolated=True))
    assert effect.effect is Effect.ENDED
    assert effect.statement == "It ends the function electrical bond."


def test_a_strap_restores_a_bond_unless_the_joint_is_isolated(catalogue: Catalogue) -> None:
    wet = catalogue.mitigations["wet-assemble"]
    joint = couple_of(functions=BOND)
    (effect,) = told(catalogue, joint, (wet,), restored=BOND)
    assert effect.effect is Effect.RESTORED
    isolated = replace(as_it_is(judged(catalogue, joint)), restored=BOND).on_each(is_isolated=True)
    assert ended_functions((wet,), isolated, BOND) == BOND


def test_a_current_on_another_path_is_moved(catalogue: Catalogue) -> None:
    power = (Function.POWER_CONTACT,)
    (effect,) = told(catalogue, couple_of(functions=power), moved=power)
    assert effect.effect is Effect.MOVED


@pytest.mark.parametrize(
    ("duty", "effect", "words"),
    [
        (Contact(), Effect.KEPT, "not computed"),
        (Contact(force_N=1000.0, bond_limit_ohm=1.0), Effect.KEPT, "within the bond limit"),
        (Contact(force_N=1.0, bond_limit_ohm=1e-9), Effect.AT_RISK, "above the bond limit"),
    ],
)
def test_the_bond_limit_is_checked(duty: Contact, effect: Effect, words: str, catalogue: Catalogue) -> None:
    (found,) = told(catalogue, Couple(COPPER, COPPER, functions=BOND, contact=duty))
    assert found.effect is effect
    assert words in found.statement


def test_a_coat_on_the_contact_face_has_to_stay_off(catalogue: Catalogue) -> None:
    joint = couple_of(functions=BOND)
    painted = replace(joint, second=coated("cu-etp", "powder-coat", 80.0))
    (found,) = told(catalogue, joint, (), painted)
    assert "free of the insulating coat" in found.statement


def test_two_contacts_in_place_of_one_put_a_bond_at_risk(catalogue: Catalogue) -> None:
    joint = couple_of(functions=BOND)
    (found,) = told(catalogue, joint, couples=(joint, joint))
    assert found.effect is Effect.AT_RISK
