"""Ways out: what may change, and what is asked for."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from pydantic import BeforeValidator, Field

from service.judgement import Verdict
from service.remedies import Change, Constraints, Objective, Regulation, Weights
from service.web.schemas.couples import CoupleRequest
from service.web.schemas.fields import LOOSE, BodySchema, described, nested

MOST_ROWS = 200


def whole(value: object) -> object:
    """JSON does not tell 2.0 from 2: both are the whole number two."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


Whole = Annotated[int, BeforeValidator(whole)]
CostTier = Annotated[int, Field(ge=0, le=5), BeforeValidator(whole)]
Share = Annotated[float, Field(ge=0, le=1000)]
MOST_NAMES = 40


class ConstraintsRequest(BodySchema):
    """What a way out may change and what it must keep."""

    first: Annotated[Change, LOOSE] = described("What may change on the first side.", "finish", Change.FINISH)
    second: Annotated[Change, LOOSE] = described(
        "What may change on the second side.", "finish", Change.FINISH
    )
    materials: Annotated[tuple[str, ...], LOOSE] = described(
        "Materials that may stand in where a side may change its material; one of each metal if empty.",
        ["al-6082-t6"],
        (),
        max_length=MOST_NAMES,
    )
    allowed_substances: Annotated[tuple[str, ...], LOOSE] = described(
        "Restricted substances that are opted in to.", ["Cd"], (), max_length=MOST_NAMES
    )
    forbidden_substances: Annotated[tuple[str, ...], LOOSE] = described(
        "Further substances that are ruled out.", ["Ni"], (), max_length=MOST_NAMES
    )
    regulations: Annotated[tuple[Annotated[Regulation, LOOSE], ...], LOOSE] = described(
        "Regulations that a finish must meet.", ["rohs"], (), max_length=len(Regulation)
    )
    needs_solder: bool = described("Whether the face is soldered.", example=False, default=False)
    needs_conduction: bool = described("Whether the face must conduct.", example=False, default=False)
    max_cost_tier: CostTier | None = described("Highest tier of cost, 0 to 5.", 3, None)
    min_life_years: float | None = described("Least life of every coat.", 15.0, None, ge=0.001, le=500)
    accept: Annotated[Verdict, LOOSE] = described(
        "Weakest verdict that counts as a way out.", "conditional", Verdict.CONDITIONAL
    )

    weights: Annotated[dict[Annotated[Objective, LOOSE], Share], LOOSE] | None = described(
        "Share of each objective in the score; those not named count nothing.",
        {"severity_95": 0.6, "cost": 0.4},
        None,
    )

    def to_constraints(self) -> Constraints:
        """Write the same for the remedies room."""
        given = dict(self)
        weights = given.pop("weights")
        return Constraints(**given, weights=Weights(tuple(weights.items())) if weights else Weights())


class RemedyRequest(CoupleRequest):
    """A couple and what may be done about it."""

    constraints: ConstraintsRequest = nested("What may change and what must be kept.", ConstraintsRequest())


class AlternativesRequest(RemedyRequest):
    """A couple for which other surfaces are sought."""

    limit: Whole = described("Rows of the ranking.", 20, 20, ge=1, le=MOST_ROWS)


class Sides(StrEnum):
    """Which side a buyer may change."""

    FIRST = "first"
    SECOND = "second"
    BOTH = "both"


class EnvelopeRequest(RemedyRequest):
    """A joint for which acceptance is stated; `constraints.accept` is the verdict to be kept."""

    sides: Annotated[Sides, LOOSE] = described("Which side may be changed.", "second", Sides.BOTH)

    def to_sides(self) -> tuple[str, ...]:
        """Write the same for the remedies room."""
        return ("first", "second") if self.sides is Sides.BOTH else (self.sides.value,)
