from __future__ import annotations

from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import DEFAULT_POLICY, Contact, Couple, Function
from service.judgement.findings import Anode, Witness
from service.remedies.comparison import Comparison, compare
from service.remedies.measures import measure
from tests.factories.remedies import COPPER, SEA_FRONT, STAINLESS, STEEL, coated, couple_of, judged


def compared(
    catalogue: Catalogue, before: Couple, after: Couple, environment_id: str = SEA_FRONT, cost: int = 0
) -> Comparison:
    was, now = (judged(catalogue, couple, environment_id) for couple in (before, after))
    return compare(
        (was, measure(was, 0, 0, catalogue, DEFAULT_POLICY)),
        (now, measure(now, cost, 0, catalogue, DEFAULT_POLICY)),
        catalogue,
        DEFAULT_POLICY,
    )


def test_a_joint_is_no_better_than_itself(catalogue: Catalogue) -> None:
    same = compared(catalogue, couple_of(), couple_of())
    assert same.better == ()
    assert all("may be used up" in sentence for sentence in same.worse)


def test_gains_and_prices_are_told_apart(catalogue: Catalogue) -> None:
    better = couple_of(second=Surface("al-5083-h116"))
    found = compared(catalogue, couple_of(), better, cost=3)
    text = " ".join(found.better)
    assert "from unsuitable to" in text
    assert "Attack falls from severe" in text
    assert "less than 0.01" in text or "times the allowance" in text
    assert "It lasts" in text
    assert "Cost tiers of the finishes together rise from 0 to 3." in found.worse


def test_the_way_back_is_told_as_worse(catalogue: Catalogue) -> None:
    found = compared(catalogue, couple_of(second=Surface("al-5083-h116")), couple_of())
    assert any("Attack rises" in sentence for sentence in found.worse)
    assert any("to unsuitable" in sentence for sentence in found.worse)
    assert any("allowance may be used up" in sentence for sentence in found.worse)


def test_a_coat_that_does_not_last_is_told(catalogue: Catalogue) -> None:
    zinced = couple_of(coated("steel-s235", "zn-plain", 5.0), STAINLESS)
    found = compared(catalogue, couple_of(STEEL, STAINLESS), zinced)
    assert any(sentence.startswith("The coat may be used up after") for sentence in found.worse)


def test_another_eaten_side_is_told(catalogue: Catalogue) -> None:
    found = compared(catalogue, couple_of(STEEL, COPPER), couple_of(STEEL, Surface("zn-pure")))
    assert any(sentence == "Another side is eaten: Zinc, pure." for sentence in found.worse)


def test_both_sides_may_be_eaten(catalogue: Catalogue) -> None:
    was = judged(catalogue)
    now = replace(was, outcome=replace(was.outcome, anode=Anode.BOTH))
    figures = measure(was, 0, 0, catalogue, DEFAULT_POLICY)
    found = compare((was, figures), (now, figures), catalogue, DEFAULT_POLICY)
    assert "Another side is eaten: both sides." in found.worse


def test_hazards_come_and_go(catalogue: Catalogue) -> None:
    signal = (Function.SIGNAL_CONTACT,)
    tin, gold = coated("cu-etp", "sn-matte", 5.0), coated("cu-etp", "au-soft", 1.3)
    mixed, golden = couple_of(tin, gold, functions=signal), couple_of(gold, gold, functions=signal)
    gained = compared(catalogue, mixed, golden, "vehicle-cabin")
    lost = compared(catalogue, golden, mixed, "vehicle-cabin")
    assert "No longer: tin mated with gold." in gained.better
    assert any(sentence.startswith("Tin mated with gold: ") for sentence in lost.worse)


def test_where_the_life_is_not_known_it_says_so(catalogue: Catalogue) -> None:
    was = judged(catalogue)
    now = judged(catalogue, environment_id="soil-corrosive")
    known, unknown = (measure(each, 0, 0, catalogue, DEFAULT_POLICY) for each in (was, now))
    lost = compare((was, known), (now, unknown), catalogue, DEFAULT_POLICY)
    assert "Its life cannot be computed." in lost.worse
    neither = compare((now, unknown), (now, unknown), catalogue, DEFAULT_POLICY)
    assert neither == Comparison((), ())


def test_contact_resistance_and_bond_limit(catalogue: Catalogue) -> None:
    bond = (Function.ELECTRICAL_BOND,)
    soft = Couple(COPPER, COPPER, functions=bond, contact=Contact(force_N=100.0, bond_limit_ohm=1e-3))
    strict = replace(soft, contact=Contact(force_N=1.0, bond_limit_ohm=1e-6))
    worse = compared(catalogue, soft, strict)
    better = compared(catalogue, strict, soft)
    assert any("contact resistance when new rises" in sentence for sentence in worse.worse)
    assert "The bond limit is no longer met." in worse.worse
    assert "The bond limit is met." in better.better


def test_weaker_evidence_is_a_price(catalogue: Catalogue) -> None:
    was = judged(catalogue)
    deciding = was.outcome.deciding
    assert deciding is not None
    grades = {
        letter: replace(
            was, findings={**was.findings, deciding: replace(was.findings[deciding], grade=letter)}
        )
        for letter in "AD"
    }
    figures = measure(was, 0, 0, catalogue, DEFAULT_POLICY)
    lost = compare((grades["A"], figures), (grades["D"], figures), catalogue, DEFAULT_POLICY)
    won = compare((grades["D"], figures), (grades["A"], figures), catalogue, DEFAULT_POLICY)
    assert "The deciding evidence loses in grade, from A to D." in lost.worse
    assert "The deciding evidence gains in grade, from D to A." in won.better


def test_without_a_deciding_witness_no_grade_is_compared(catalogue: Catalogue) -> None:
    was = judged(catalogue)
    now = replace(was, outcome=replace(was.outcome, deciding=None))
    assert Witness.KINETICS in now.findings
    figures = measure(was, 0, 0, catalogue, DEFAULT_POLICY)
    found = compare((was, figures), (now, figures), catalogue, DEFAULT_POLICY)
    assert not any("grade" in sentence for sentence in (*found.better, *found.worse))


def test_a_weaker_alloy_is_a_price(catalogue: Catalogue) -> None:
    found = compared(catalogue, couple_of(), couple_of(first=Surface("al-1050a-h14")))
    assert any(sentence.startswith("Tensile strength of the first side falls") for sentence in found.worse)
    stronger = compared(catalogue, couple_of(first=Surface("al-1050a-h14")), couple_of())
    assert not any("Tensile" in sentence for sentence in stronger.worse)


def test_a_cheaper_finish_is_a_gain(catalogue: Catalogue) -> None:
    was = judged(catalogue)
    dear, cheap = (measure(was, tier, 0, catalogue, DEFAULT_POLICY) for tier in (4, 1))
    found = compare((was, dear), (was, cheap), catalogue, DEFAULT_POLICY)
    assert "Cost tiers of the finishes together fall from 4 to 1." in found.better
