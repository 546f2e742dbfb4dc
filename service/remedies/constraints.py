"""What a substitute may be and must do.

Functions, temperature, wear and life of the joint come from the couple itself; these are the wishes and bans
beside it. Cadmium, hexavalent chromium, lead and beryllium are never offered unless the caller asks for them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from service.catalogue.catalogue import Catalogue
from service.catalogue.nearness import nearest_ids
from service.judgement import Verdict
from service.remedies.errors import InvalidConstraintError

OPT_IN = ("Cd", "CrVI", "Pb", "Be")
"""Substances that appear only where the caller opts in."""

SUBSTANCES = (*OPT_IN, "Ni", "PFAS")


class Change(StrEnum):
    """How far a side may be changed."""

    NOTHING = "nothing"
    FINISH = "finish"
    MATERIAL = "material"


class Regulation(StrEnum):
    """A body of law that a finish must meet."""

    ROHS = "rohs"
    REACH = "reach"


class Objective(StrEnum):
    """What a substitute is measured by; smaller is always better."""

    VERDICT = "verdict"
    SEVERITY_95 = "severity_95"
    SEVERITY_MEDIAN = "severity_median"
    LIFE = "life"
    HAZARDS = "hazards"
    FUNCTION = "function"
    COST = "cost"
    EFFORT = "effort"


DEFAULT_WEIGHTS = MappingProxyType(
    {
        Objective.VERDICT: 0.15,
        Objective.SEVERITY_95: 0.25,
        Objective.SEVERITY_MEDIAN: 0.05,
        Objective.LIFE: 0.15,
        Objective.HAZARDS: 0.15,
        Objective.FUNCTION: 0.10,
        Objective.COST: 0.05,
        Objective.EFFORT: 0.10,
    }
)
"""Share of each objective in the score that orders options; a house rule, and a caller may state others."""


@dataclass(frozen=True, slots=True)
class Weights:
    """Share of each objective in the score, as pairs so that the whole can be a key."""

    shares: tuple[tuple[Objective, float], ...] = tuple(DEFAULT_WEIGHTS.items())

    def normalised(self) -> dict[Objective, float]:
        """Shares that sum to one; an objective that is not named counts nothing."""
        total = sum(share for _, share in self.shares)
        return {objective: dict(self.shares).get(objective, 0.0) / total for objective in Objective}


@dataclass(frozen=True, slots=True)
class Constraints:
    """What options have to satisfy.

    ``materials`` are those that may stand in where a side may change its material; none means one
    representative of each metal. ``allowed_substances`` opts in to restricted ones, ``forbidden_substances``
    rules out more. ``accept`` is the weakest verdict that counts as a way out. ``needs_*`` ask more than the
    declared functions do. ``min_life_years`` is the life that no coat and no section may fall short of.
    """

    first: Change = Change.FINISH
    second: Change = Change.FINISH
    materials: tuple[str, ...] = ()
    allowed_substances: tuple[str, ...] = ()
    forbidden_substances: tuple[str, ...] = ()
    regulations: tuple[Regulation, ...] = ()
    needs_solder: bool = False
    needs_conduction: bool = False
    max_cost_tier: int | None = None
    min_life_years: float | None = None
    accept: Verdict = Verdict.CONDITIONAL
    weights: Weights = Weights()

    def check(self, catalogue: Catalogue) -> None:
        """Refuse constraints that name what does not exist or leave nothing to do.

        Raises
        ------
        InvalidConstraintError
            For the first constraint that cannot be used.
        """
        for place, material_id in enumerate(self.materials):
            if material_id not in catalogue.materials:
                near = nearest_ids(material_id, catalogue.materials)
                raise InvalidConstraintError(
                    f"/materials/{place}", f"no material with id {material_id!r}", near
                )
        for name in ("allowed_substances", "forbidden_substances"):
            for place, substance in enumerate(getattr(self, name)):
                if substance not in SUBSTANCES:
                    raise InvalidConstraintError(
                        f"/{name}/{place}", f"no substance {substance!r}", SUBSTANCES
                    )
        if self.first is Change.NOTHING and self.second is Change.NOTHING:
            raise InvalidConstraintError("/first", "neither side may change, so nothing can be sought")
        if self.accept not in {Verdict.SUITABLE, Verdict.CONDITIONAL}:
            raise InvalidConstraintError("/accept", "a way out is suitable or conditional")
        if any(share < 0.0 for _, share in self.weights.shares) or not any(
            share for _, share in self.weights.shares
        ):
            raise InvalidConstraintError("/weights", "shares are not negative and not all zero")
