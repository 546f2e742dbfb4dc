from __future__ import annotations

from dataclasses import replace

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement.findings import Anode, Confidence, Finding
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.scales import Comparison, compare, subject_of
from service.judgement.screening import FAR_OVER_V, screen
from service.judgement.severity import Severity
from tests.factories.couples import ALUMINIUM, COAST, COPPER, DRY, SEA, TAP


def comparisons(
    catalogue: Catalogue, environment: Environment, first: Surface = ALUMINIUM, second: Surface = COPPER
) -> tuple[Comparison, ...]:
    one, other = subject_of(first, catalogue), subject_of(second, catalogue)
    return compare(one, other, environment.screening_class, catalogue)


def screened(catalogue: Catalogue, environment_id: str, policy: Policy = DEFAULT_POLICY) -> Finding:
    environment = catalogue.environments[environment_id]
    return screen(comparisons(catalogue, environment), environment, policy)


def with_difference(catalogue: Catalogue, middle_V: float, high_V: float) -> Finding:
    environment = catalogue.environments[COAST]
    chosen = replace(comparisons(catalogue, environment)[0], difference_V=middle_V, difference_high_V=high_V)
    return screen([chosen], environment, Policy(limits_V={environment.screening_class: 0.2}))


@pytest.mark.parametrize(
    ("middle_V", "high_V", "severity"),
    [
        (0.1, 0.2, Severity.NONE),
        (0.2, 0.3, Severity.SLIGHT),
        (0.201, 0.3, Severity.MODERATE),
        (0.2 + FAR_OVER_V, 0.6, Severity.MODERATE),
        (0.201 + FAR_OVER_V, 0.6, Severity.SEVERE),
    ],
)
def test_severity_follows_the_excess_over_the_limit(
    middle_V: float, high_V: float, severity: Severity, catalogue: Catalogue
) -> None:
    finding = with_difference(catalogue, middle_V, high_V)
    assert finding.severity is severity
    assert ("within" in finding.statement) is (middle_V <= 0.2)


def test_it_names_the_direction_and_cites_what_it_used(catalogue: Catalogue) -> None:
    finding = screened(catalogue, SEA)
    assert finding.anode is Anode.FIRST
    assert {table for table, _ in finding.evidence} == {"measurements", "limits"}
    assert finding.figures["difference_mV"] > 0
    assert len(finding.figures["scales"]) >= 1


def test_in_its_own_electrolyte_a_scale_counts_more(catalogue: Catalogue) -> None:
    assert screened(catalogue, SEA).confidence is Confidence.MEDIUM
    tap = screened(catalogue, TAP)
    assert tap.confidence is Confidence.LOW
    assert catalogue.scales[tap.figures["scale"]].kind == "index"


def test_without_an_electrolyte_nothing_flows(catalogue: Catalogue) -> None:
    assert screened(catalogue, DRY).severity is Severity.NONE
    assert screened(catalogue, DRY).anode is Anode.NONE


def test_a_house_limit_goes_before_a_published_one(catalogue: Catalogue) -> None:
    service = catalogue.environments[SEA].screening_class
    finding = screened(catalogue, SEA, Policy(limits_V={service: 9.0}))
    assert finding.severity is Severity.NONE
    assert finding.figures["permissible_difference_mV"] == 9000


def test_a_house_that_permits_no_difference_is_heard(catalogue: Catalogue) -> None:
    service = catalogue.environments[SEA].screening_class
    assert screened(catalogue, SEA, Policy(limits_V={service: 0.0})).figures["permissible_difference_mV"] == 0


def test_unknown_surfaces_leave_it_silent_and_say_what_is_missing(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA]
    finding = screen(comparisons(catalogue, environment, Surface("unobtainium")), environment, DEFAULT_POLICY)
    assert not finding.applies
    assert finding.missing


def test_scales_that_disagree_put_the_polarity_in_doubt(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA]
    first, *rest = comparisons(catalogue, environment)
    turned = replace(first, anode=first.anode.other)
    policy = Policy(limits_V={environment.screening_class: 0.15})
    assert screen([first, turned, *rest], environment, policy).is_polarity_in_doubt
    assert not screen([first], environment, policy).is_polarity_in_doubt


def test_a_range_is_stated_as_a_range(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA]
    chosen = comparisons(catalogue, environment)[0]
    policy = Policy(limits_V={environment.screening_class: 0.15})
    ranged = screen([replace(chosen, difference_low_V=0.1, difference_high_V=0.3)], environment, policy)
    single = screen([replace(chosen, difference_low_V=0.2, difference_high_V=0.2)], environment, policy)
    assert "100 to 300 mV" in ranged.statement
    assert "is 200 mV" in single.statement


def test_a_scale_without_a_published_limit_shows_none(catalogue: Catalogue) -> None:
    environment = catalogue.environments[SEA]
    chosen = replace(comparisons(catalogue, environment)[0], limit=None)
    finding = screen([chosen], environment, Policy(limits_V={environment.screening_class: 0.15}))
    assert finding.figures["scales"][0]["permissible_difference_mV"] is None
    assert {table for table, _ in finding.evidence} == {"measurements"}
