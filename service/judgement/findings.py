"""What each witness reports."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from service.judgement.severity import Severity


class Witness(StrEnum):
    """An independent method of judging a couple."""

    MANDATORY = "mandatory"
    EXPERIENCE = "experience"
    KINETICS = "kinetics"
    SCREENING = "screening"
    REVERSAL = "reversal"
    CREVICE = "crevice"
    CATHODE_DAMAGE = "cathode damage"
    HAZARDS = "hazards"
    SELF_CORROSION = "self-corrosion"
    FUNCTION = "function"


class Confidence(StrEnum):
    """How much weight a finding can carry."""

    HIGH = "high"
    MEDIUM = "medium"
    LOW = "low"


class Anode(StrEnum):
    """Which side of a couple is eaten."""

    FIRST = "first"
    SECOND = "second"
    NONE = "none"
    BOTH = "both"

    @property
    def other(self) -> Anode:
        """The opposite side; none and both stay as they are."""
        return _OPPOSITE[self]


_OPPOSITE = {
    Anode.FIRST: Anode.SECOND,
    Anode.SECOND: Anode.FIRST,
    Anode.NONE: Anode.NONE,
    Anode.BOTH: Anode.BOTH,
}


@dataclass(frozen=True, slots=True)
class Condition:
    """What must be done for a conditional verdict to hold."""

    code: str
    action: str
    who: str
    how_verified: str


@dataclass(frozen=True, slots=True)
class Finding:
    """The report of one witness on one couple.

    ``severity`` is ``None`` where the witness gives a direction or a remark only; ``abstains``
    says why it has nothing to say. ``evidence`` holds ``(table, id)`` of the records used.
    """

    witness: Witness
    statement: str
    severity: Severity | None = None
    anode: Anode | None = None
    is_polarity_in_doubt: bool = False
    confidence: Confidence = Confidence.LOW
    grade: str | None = None
    abstains: str = ""
    refuses: bool = False
    figures: Mapping[str, Any] = field(default_factory=dict)
    evidence: tuple[tuple[str, str], ...] = ()
    conditions: tuple[Condition, ...] = ()
    cautions: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def applies(self) -> bool:
        """Whether the witness has something to say."""
        return not self.abstains
