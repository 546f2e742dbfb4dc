"""Everything that was found for one inquiry: what a document is made from."""

from __future__ import annotations

from dataclasses import dataclass

from service.callouts.reading import Reading
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Condition
from service.judgement.inquiry import Inquiry
from service.judgement.judge import Judgement
from service.judgement.policy import Policy
from service.judgement.severity import Verdict
from service.judgement.tipping_point import TippingPoint


@dataclass(frozen=True, slots=True)
class AnswerRecord:
    """What was found for one inquiry.

    ``judgements`` holds one judgement for each pair of readings, the leading one first; ``verdict``
    is theirs where they agree. ``by_condition`` is the verdict were the finishes worn or damaged.
    """

    inquiry: Inquiry
    catalogue: Catalogue
    policy: Policy
    environment: Environment
    readings: tuple[Reading, Reading]
    judgements: tuple[Judgement, ...]
    by_condition: tuple[tuple[Condition, Judgement], ...]
    verdict: Verdict
    question: str
    warnings: tuple[tuple[str, str], ...]
    missing: tuple[str, ...]
    tipping_point: TippingPoint | None = None

    @property
    def judgement(self) -> Judgement | None:
        """The leading judgement, ``None`` where a surface is not known."""
        return self.judgements[0] if self.judgements else None
