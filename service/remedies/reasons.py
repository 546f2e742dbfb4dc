"""Why an option is left out, and which of the caller's constraints stands behind each reason."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType


class Reason(StrEnum):
    """Why an option is left out; each belongs to one constraint."""

    BANNED = "banned-by-house"
    OPT_IN = "substance-needs-opt-in"
    SUBSTANCE = "forbidden-substance"
    REGULATION = "regulation"
    TEMPERATURE = "temperature"
    WEAR = "wear"
    CONDUCTION = "conduction"
    CONTACT = "contact-finish"
    SOLDER = "solder"
    COST = "cost-tier"
    FORM = "form"
    LIFE = "life"
    BOND_LIMIT = "bond-limit"
    UNSUITABLE = "verdict"
    UNDETERMINED = "undetermined"


CONSTRAINT_OF = MappingProxyType(
    {
        Reason.BANNED: "finishes banned by the house",
        Reason.OPT_IN: "substances that need the caller's consent",
        Reason.SUBSTANCE: "forbidden substances",
        Reason.REGULATION: "regulations",
        Reason.TEMPERATURE: "temperature of the joint",
        Reason.WEAR: "wear cycles",
        Reason.CONDUCTION: "conduction that the functions need",
        Reason.CONTACT: "signal contact",
        Reason.SOLDER: "solderability",
        Reason.COST: "cost tier",
        Reason.FORM: "form of the part",
        Reason.LIFE: "minimum life",
        Reason.BOND_LIMIT: "bond limit",
        Reason.UNSUITABLE: "accepted verdict",
        Reason.UNDETERMINED: "evidence",
    }
)


@dataclass(frozen=True, slots=True)
class Exclusion:
    """One reason with its detail."""

    reason: Reason
    detail: str
