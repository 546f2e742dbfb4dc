"""A joint as measures leave it: the couples that touch then, where they live, and what that hangs on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement import Couple, Function, Judgement, Policy
from service.judgement.findings import Anode, Condition, Witness
from service.remedies.constraints import Constraints


class Obstacle(StrEnum):
    """Why a measure cannot be taken on a joint."""

    DOES_NOT_APPLY = "does-not-apply"
    NOT_KNOWN = "not-known-whether-it-applies"
    ENDS_FUNCTION = "ends-function"
    REFUSED = "refused-by-rule"
    PROCESS = "process-not-possible"
    SUBSTANCE = "substance-needs-opt-in"
    WHERE = "not-in-this-exposure"
    SIDE = "side-not-known"
    DONE = "already-so"
    NO_COMPOUND = "no-compatible-compound"
    OUTSIDE_MODEL = "cannot-be-judged"
    NO_EFFECT = "no-effect-on-corrosion"
    NOT_ENOUGH = "not-enough"


class NotPossibleError(Exception):
    """A measure cannot be taken on this joint; caught where measures are tried."""

    def __init__(self, obstacle: Obstacle, detail: str) -> None:
        super().__init__(detail)
        self.obstacle = obstacle
        self.detail = detail


@dataclass(frozen=True, slots=True)
class Situation:
    """The joint that is to be helped, as judged, and what may be used on it."""

    before: Judgement
    constraints: Constraints
    catalogue: Catalogue
    policy: Policy

    @property
    def anode(self) -> str:
        """Side that is eaten, or would be.

        Raises
        ------
        NotPossibleError
            If nothing says which.
        """
        known = (
            self.before.outcome.anode,
            self.before.kinetics.less_noble,
            self.before.findings[Witness.SCREENING].anode,
        )
        for anode in known:
            if anode in {Anode.FIRST, Anode.SECOND}:
                return anode.value
        raise NotPossibleError(Obstacle.SIDE, "Which side is eaten is not known, so no side can be chosen.")

    @property
    def cathode(self) -> str:
        """The other side."""
        return "second" if self.anode == "first" else "first"


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Couples that must all be sound in one environment.

    ``compounds`` are used around or between the parts. ``moved`` are functions that another path takes
    over, ``restored`` those that a measure gives back. ``is_sacrificial`` means that the second side of each
    couple is meant to be eaten.
    """

    couples: tuple[Couple, ...]
    environment: Environment
    conditions: tuple[Condition, ...] = ()
    compounds: tuple[str, ...] = ()
    moved: tuple[Function, ...] = ()
    restored: tuple[Function, ...] = ()
    is_sacrificial: bool = False

    def on_each(self, **changes: object) -> Arrangement:
        """The same change of every couple."""
        couples = tuple(replace(couple, **changes) for couple in self.couples)  # type: ignore[arg-type]
        return replace(self, couples=couples)

    def with_surface(self, side: str, surface: Surface) -> Arrangement:
        """Another surface on one side of the first couple, which is the joint itself."""
        first = self.couples[0]
        changed = replace(first, first=surface) if side == "first" else replace(first, second=surface)
        return replace(self, couples=(changed, *self.couples[1:]))

    def surface(self, side: str) -> Surface:
        """Surface of one side of the first couple."""
        return self.couples[0].first if side == "first" else self.couples[0].second

    def needing(self, *conditions: Condition) -> Arrangement:
        """The same with more conditions."""
        return replace(self, conditions=tuple(dict.fromkeys((*self.conditions, *conditions))))


def as_it_is(judgement: Judgement) -> Arrangement:
    """The joint without any measure."""
    return Arrangement((judgement.couple,), judgement.environment)


def worst(judgements: Sequence[Judgement]) -> Judgement:
    """The judgement that decides an arrangement."""
    return max(judgements, key=_badness)


def _badness(judgement: Judgement) -> tuple[int, int, float]:
    order = ("suitable", "conditional", "undetermined", "unsuitable")
    outcome = judgement.outcome
    ratio = judgement.findings[Witness.KINETICS].figures.get("loss_over_allowance", {}).get("high", 0.0)
    severity = outcome.severity.rank if outcome.severity is not None else -1
    return order.index(outcome.verdict.value), severity, ratio
