"""The reasoning of one judgement step by step, with equations, grades and sources."""

from __future__ import annotations

from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment, Exposure
from service.judgement.evidence import citation
from service.judgement.findings import Finding, Witness
from service.judgement.judge import Judgement

_BALANCE = "Σ A i(E) = 0 at one potential E, each side by its polarization curve"
_LOSS = "loss = M i t^(1−m)/((1−m) n F ρ) with m the decay of the current; severity by its 95 % bound"
_METHODS = {
    Witness.SCREENING: "|E1 − E2| on the scale against what is permissible in this class of service",
    Witness.SELF_CORROSION: "ISO 9223 rate r of the first year, r t^b over t years",
}
_IN_A_FILM = (
    f"{_BALANCE}; current per metre of joint line in a film I = √(2 κ h |∫ i dE|), κ its conductivity, h its "
    f"thickness; {_LOSS}"
)
_IMMERSED = f"{_BALANCE}, with the resistance of the electrolyte between the sides; {_LOSS}"


def chain(judgement: Judgement | None, catalogue: Catalogue) -> list[str]:
    """Every finding in order, with its equation, grade and sources; abstentions say why.

    Parameters
    ----------
    judgement : Judgement or None
    catalogue : Catalogue
        Holds the sources.

    Returns
    -------
    list of str
        One step for each witness and the one that decided.
    """
    if judgement is None:
        return []
    steps = [_step(finding, judgement.environment, catalogue) for finding in judgement.findings.values()]
    outcome = judgement.outcome
    if outcome.deciding is not None:
        steps.append(f"decided by: {outcome.deciding.value}")
    return steps


def _step(finding: Finding, environment: Environment, catalogue: Catalogue) -> str:
    parts = [f"{finding.witness.value}: {finding.statement}"]
    if finding.severity is not None:
        parts.append(f"Severity: {finding.severity.value}.")
    if finding.grade:
        parts.append(f"[grade {finding.grade}]")
    if method := _method(finding, environment):
        parts.append(f"By {method}.")
    if sources := _sources(finding, catalogue):
        parts.append(f"Sources: {'; '.join(sources)}.")
    return " ".join(parts)


def _method(finding: Finding, environment: Environment) -> str:
    if finding.abstains or not finding.figures:
        return ""
    if finding.witness is Witness.KINETICS:
        return _IMMERSED if environment.exposure is Exposure.IMMERSED else _IN_A_FILM
    return _METHODS.get(finding.witness, "")


def _sources(finding: Finding, catalogue: Catalogue) -> list[str]:
    """Where the records that a finding used come from, each source once."""
    return list(dict.fromkeys(_cited(*key, catalogue) for key in finding.evidence))


@lru_cache(maxsize=4096)
def _cited(table: str, record_id: str, catalogue: Catalogue) -> str:
    record = catalogue.record(table, record_id)
    return citation(catalogue.sources[record.source_id], getattr(record, "locator", ""))
