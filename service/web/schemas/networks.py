"""Networks of an assembly: many parts in one electrolyte, solved together."""

from __future__ import annotations

from service.web.schemas.fields import Schema, described, nested

BOUNDS = {"low": 919.0, "median": 2510.0, "high": 4110.0}


class Bounds(Schema):
    """A figure with its 5 % and 95 % bounds."""

    low: float = described("5 % of the sample lie below.", 919.0)
    median: float = described("Half of the sample lies below.", 2510.0)
    high: float = described("95 % of the sample lie below.", 4110.0)


class Partner(Schema):
    """A part that feeds the opposing current."""

    part: str = described("The part.", "SK-1110")
    share: float = described("Its share of all such current, 0 to 1.", 0.92)


class PartInNetwork(Schema):
    """What a network does to one part, under the states that are worst for it."""

    part: str = described("The part.", "SK-1115")
    effect: str = described("`attacked`, `protected` or `unchanged`.", "attacked")
    severity: str = described("How badly it suffers.", "severe")
    solution: str = described("Set of states that is worst for it.", "with biofilm")
    potential_mV_SHE: Bounds = described(
        "Potential of the joined metals, in mV against the standard hydrogen electrode.", BOUNDS
    )
    current_mA: Bounds = described("Net current that leaves it, in mA; negative protects.", BOUNDS)
    rate_um_per_year: Bounds = described("What the network adds to its self-corrosion.", BOUNDS)
    loss_um: Bounds = described("The same over the design life.", BOUNDS)
    dissolution: Bounds = described(
        "How fast it dissolves against by itself; below 1 it is protected.", BOUNDS
    )
    allowance_um: float = described("Loss that it can stand.", 500.0)
    allowance_basis: str = described("Where that comes from.", "house rule for the joint's functions")
    partners: tuple[Partner, ...] = nested("Who feeds the opposing current, largest first.")
    couple_severity: str | None = described("Worst that its joints alone say.", "severe")
    against_couples: str = described("`worse`, `same`, `milder` or `unknown` against its joints.", "same")
    is_sacrificial: bool = described("Whether it is there to be spent.", example=True)


class LeftOut(Schema):
    """A part that could not be solved."""

    part: str = described("The part.", "SK-1119")
    reason: str = described("Why.", "its surface was not understood")


class NetworkPlace(Schema):
    """The electrolyte of a network."""

    id: str = described("Identifier of the environment.", "seawater-quiescent")
    name: str = described("Name for people.", "Natural sea water, quiet, immersed")


class ReportedNetwork(Schema):
    """One conductive group in one place."""

    network: int = described("Number in this report.", 1)
    environment: NetworkPlace = nested("Where.")
    members: tuple[str, ...] = described("Its parts.", ["SK-1110", "SK-1114", "SK-1115"])
    abstains: str | None = described("Why it was not solved; the joints are then the whole picture.", None)
    left_out: tuple[LeftOut, ...] = nested("Parts that it was solved without.")
    is_complete: bool = described("Whether it was solved with all its parts.", example=True)
    states: tuple[str, ...] = described("Sets of states that were solved.", ["without biofilm"])
    parts: tuple[PartInNetwork, ...] = nested("What it does to each part.")
    assumptions: tuple[str, ...] = described("Areas that were not stated.", [])


class EndInNetwork(Schema):
    """What a network changes about one part of a joint."""

    effect: str = described("`attacked`, `protected` or `unchanged`.", "protected")
    severity: str = described("How badly it suffers.", "none")
    against_couple: str = described("`worse`, `same`, `milder` or `unknown` against its joints.", "milder")


class EndsInNetwork(Schema):
    """What networks change about both parts of a joint."""

    first: EndInNetwork | None = nested("The first part; null where it is in no network.")
    second: EndInNetwork | None = nested("The second part; null where it is in no network.")
