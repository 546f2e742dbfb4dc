from __future__ import annotations

from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Mitigation
from service.catalogue.surfaces import Surface
from service.judgement import Severity, Verdict
from service.judgement.findings import Anode
from service.remedies.arrangement import Arrangement, Situation
from service.remedies.assessment import Assessment, assess, conditions_of, protects
from tests.factories.remedies import ALUMINIUM, arrangement, couple_of, judged, situation


def assessed(given: Situation, changed: Arrangement, *measures: Mitigation) -> Assessment:
    return assess([changed], [measures], given)[0]


def alike(given: Situation) -> Arrangement:
    return arrangement(given).with_surface("second", ALUMINIUM)


def test_the_worst_couple_is_told(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    both = replace(arrangement(given), couples=(couple_of(second=ALUMINIUM), couple_of()))
    found = assessed(given, both)
    assert len(found.judgements) == 2
    assert found.judgement is found.judgements[1]
    assert found.verdict is Verdict.UNSUITABLE


def test_without_measures_the_verdict_is_that_of_the_judgement(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    found = assessed(given, alike(given))
    assert (found.verdict, found.capped_because) == (Verdict.SUITABLE, "")


def test_a_lasting_measure_with_a_source_may_be_suitable(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    assert assessed(given, alike(given), catalogue.mitigations["same-alloy"]).verdict is Verdict.SUITABLE


def test_a_measure_without_a_source_is_conditional_at_most(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    found = assessed(given, alike(given), catalogue.mitigations["bimetal-transition"])
    assert found.judgement.outcome.verdict is Verdict.SUITABLE
    assert found.verdict is Verdict.CONDITIONAL
    assert "no source" in found.capped_because


def test_what_has_to_be_kept_up_is_conditional_at_most(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    found = assessed(given, alike(given), catalogue.mitigations["wet-assemble"])
    assert found.verdict is Verdict.CONDITIONAL
    assert "kept up" in found.capped_because


def test_what_does_not_last_the_design_life_is_conditional_at_most(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    found = assessed(given, alike(given), catalogue.mitigations["plate-both-same"])
    assert found.verdict is Verdict.CONDITIONAL
    assert "within 10 years" in found.capped_because


def test_a_cap_never_makes_a_verdict_better(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    found = assessed(given, arrangement(given), catalogue.mitigations["bimetal-transition"])
    assert (found.verdict, found.capped_because) == (Verdict.UNSUITABLE, "")


def test_better_is_a_verdict_a_severity_or_a_clear_score(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    bad, good = assessed(given, arrangement(given)), assessed(given, alike(given))
    assert good.is_better_than(bad)
    assert not bad.is_better_than(good)
    assert not bad.is_better_than(replace(bad, score=bad.score + 0.005))
    assert bad.is_better_than(replace(bad, score=bad.score + 0.02))
    unknown = replace(good, measures=replace(good.measures, severity=None))
    assert unknown.standing[1] > len(Severity) - 1


def test_only_a_sacrificed_second_side_protects(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    zinc = replace(arrangement(given).with_surface("second", Surface("zn-pure")), is_sacrificial=True)
    copper = replace(arrangement(given), is_sacrificial=True)
    assert protects(assessed(given, arrangement(given)))
    assert protects(assessed(given, zinc))
    assert not protects(assessed(given, copper))


def test_where_nothing_is_computed_the_outcome_names_the_anode(catalogue: Catalogue) -> None:
    given = situation(catalogue, environment_id="soil-corrosive")
    found = assessed(given, replace(arrangement(given), is_sacrificial=True))
    silent = replace(found.judgement, kinetics=replace(found.judgement.kinetics, less_noble=None))
    turned = replace(silent, outcome=replace(silent.outcome, anode=Anode.SECOND))
    assert protects(replace(found, judgements=(turned,)))
    assert not protects(replace(found, judgements=(silent,)))


def test_conditions_name_the_work_the_inspection_and_what_the_judgement_asks(catalogue: Catalogue) -> None:
    given = situation(catalogue)
    washer = catalogue.mitigations["isolating-washer"]
    found = assessed(given, arrangement(given).on_each(is_isolated=True), washer)
    codes = [condition.code for condition in conditions_of(found, (washer,))]
    assert codes[:2] == ["apply-isolating-washer", "inspect-isolating-washer"]
    assert "verify-isolation" in codes
    uninspected = replace(washer, inspection="")
    assert "inspect-isolating-washer" not in [
        condition.code for condition in conditions_of(found, (uninspected,))
    ]


def test_the_factory_joint_is_a_bad_one(catalogue: Catalogue) -> None:
    assert judged(catalogue).outcome.verdict is Verdict.UNSUITABLE
