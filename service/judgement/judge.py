"""The one entry: couples in an environment to judgements. Judging many is the primitive."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement.barriers import hits_that_speak, screening_behind
from service.judgement.combination import Outcome, combine
from service.judgement.compound_effect import with_compound
from service.judgement.couples import Couple
from service.judgement.facts import Facts, environment_facts, joint_facts, side_facts
from service.judgement.findings import Finding, Witness
from service.judgement.function_witness import function_findings
from service.judgement.kinetic_witness import KineticResult, kinetic_results
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.rule_witnesses import rule_findings
from service.judgement.rules import Hit, hits
from service.judgement.scales import Comparison, compare, subject_of
from service.judgement.screening import screen
from service.judgement.self_corrosion import self_corrosion

BLOCK_COUPLES = 1024
"""Couples judged at once; bounds the memory of a batch."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """Everything that was found about one couple."""

    couple: Couple
    environment: Environment
    outcome: Outcome
    findings: Mapping[Witness, Finding]
    kinetics: KineticResult
    comparisons: tuple[Comparison, ...]
    hits: tuple[Hit, ...]

    @property
    def missing(self) -> tuple[str, ...]:
        """What would have to be known for a firmer answer."""
        return tuple(dict.fromkeys(entry for finding in self.findings.values() for entry in finding.missing))


def judge(
    couples: Sequence[Couple],
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy = DEFAULT_POLICY,
) -> list[Judgement]:
    """Judge couples in one environment.

    Parameters
    ----------
    couples : sequence of Couple
        Surfaces must name materials and finishes of the catalogue.
    environment : Environment
        A record of the catalogue or one built from figures.
    catalogue : Catalogue
        The release to judge by.
    policy : Policy
        Bands, defaults and house limits.

    Returns
    -------
    list of Judgement
        In the order of ``couples``. The same input, catalogue and policy give the same result
        whatever the size of the batch.
    """
    judged: list[Judgement] = []
    for start in range(0, len(couples), BLOCK_COUPLES):
        judged.extend(_judge_block(couples[start : start + BLOCK_COUPLES], environment, catalogue, policy))
    return judged


def _judge_block(
    couples: Sequence[Couple], environment: Environment, catalogue: Catalogue, policy: Policy
) -> list[Judgement]:
    kinetics = kinetic_results(couples, environment, catalogue, policy)
    comparisons = [
        compare(
            subject_of(couple.first, catalogue),
            subject_of(couple.second, catalogue),
            environment.screening_class,
            catalogue,
        )
        for couple in couples
    ]
    facts = _facts(couples, environment, catalogue, kinetics, comparisons)
    found = hits(tuple(catalogue.rules.values()), facts)
    return [
        _judgement(couple, environment, catalogue, policy, result, compared, list(applicable))
        for couple, result, compared, applicable in zip(couples, kinetics, comparisons, found, strict=True)
    ]


def _judgement(
    couple: Couple,
    environment: Environment,
    catalogue: Catalogue,
    policy: Policy,
    kinetics: KineticResult,
    comparisons: tuple[Comparison, ...],
    found: list[Hit],
) -> Judgement:
    found = hits_that_speak(couple, found, kinetics.lanes, catalogue)
    findings = {
        Witness.KINETICS: kinetics.finding,
        Witness.SCREENING: screening_behind(couple, screen(comparisons, environment, policy)),
    }
    findings |= rule_findings(found)
    findings[Witness.SELF_CORROSION] = self_corrosion(couple, environment, catalogue, policy)
    findings[Witness.FUNCTION] = function_findings(couple, environment, catalogue)
    findings = with_compound(findings, couple, environment, catalogue, found)
    ordered = {witness: findings[witness] for witness in Witness}
    return Judgement(
        couple=couple,
        environment=environment,
        outcome=combine(ordered),
        findings=ordered,
        kinetics=kinetics,
        comparisons=comparisons,
        hits=tuple(found),
    )


def _facts(
    couples: Sequence[Couple],
    environment: Environment,
    catalogue: Catalogue,
    kinetics: Sequence[KineticResult],
    comparisons: Sequence[tuple[Comparison, ...]],
) -> list[Facts]:
    shared = environment_facts(environment)
    facts = []
    for couple, result, compared in zip(couples, kinetics, comparisons, strict=True):
        screened = compared[0].anode.value if compared else None
        anode = result.less_noble.value if result.less_noble else screened
        computed = {
            "difference_V": compared[0].difference_V if compared else None,
            "couple_potential_V": result.couple_potential_V,
            "anode": anode,
        }
        facts.append(
            Facts(
                side_facts(couple.first, catalogue),
                side_facts(couple.second, catalogue),
                shared,
                joint_facts(couple, anode),
                computed,
            )
        )
    return facts
