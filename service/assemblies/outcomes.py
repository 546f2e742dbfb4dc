"""Answers in brief: what a report keeps of each, judged once for each distinct question."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.judgement import Answer, Inquiry, InvalidInquiryError, Policy, Severity, Verdict, answer
from service.judgement.findings import Anode, Witness

URGENCY = (Verdict.UNSUITABLE, Verdict.UNDETERMINED, Verdict.CONDITIONAL, Verdict.SUITABLE)
"""Verdicts by how soon somebody has to look at them."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """An answer in brief. ``answer_sha256`` is the hash of the whole answer's canonical JSON.

    What is shown only is kept as JSON, which takes a quarter of the memory of the values.
    """

    verdict: Verdict
    severity: Severity | None
    anode: Anode
    kinetic_severity: Severity | None
    kinetic_anode: Anode | None
    loss_over_allowance: float | None
    answer_sha256: str
    brief_json: bytes

    @property
    def brief(self) -> Mapping[str, Any]:
        """What a report shows of the answer, as plain JSON values; not to be changed."""
        return _decoded(self.brief_json)

    @property
    def urgency(self) -> tuple[int, int, float]:
        """Sort key, the worst first: verdict, then severity, then loss."""
        rank = self.severity.rank if self.severity is not None else len(Severity)
        return URGENCY.index(self.verdict), -rank, -(self.loss_over_allowance or 0.0)


@lru_cache(maxsize=1024)
def _decoded(brief_json: bytes) -> Mapping[str, Any]:
    """The same few answers return all over a bill of materials."""
    found: dict[str, Any] = json.loads(brief_json)
    return found


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a question was not judged; it spoils nothing but itself."""

    pointer: str
    detail: str
    suggestions: tuple[str, ...]


class Outcomes:
    """Outcomes by question, for one release and policy.

    ``listen`` hears every answer once, before it is reduced to what a report keeps.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        policy: Policy,
        listen: Callable[[Inquiry, Answer], object] = lambda _inquiry, _answer: None,
    ) -> None:
        self.catalogue = catalogue
        self.policy = policy
        self._listen = listen
        self._known: dict[Inquiry, Outcome | Refusal] = {}

    def of(self, inquiries: Sequence[Inquiry]) -> list[Outcome | Refusal]:
        """Judge questions in order; one that was judged before is not judged again."""
        new = [inquiry for inquiry in dict.fromkeys(inquiries) if inquiry not in self._known]
        if new:
            self._judge(new)
        return [self._known[inquiry] for inquiry in inquiries]

    def _judge(self, inquiries: list[Inquiry]) -> None:
        """Judge together; where one cannot be used, look for it by halves."""
        try:
            answers = answer(inquiries, self.catalogue, self.policy)
        except InvalidInquiryError as error:
            if len(inquiries) == 1:
                self._known[inquiries[0]] = Refusal(error.pointer, error.detail, error.suggestions)
                return
            middle = len(inquiries) // 2
            self._judge(inquiries[:middle])
            self._judge(inquiries[middle:])
            return
        for inquiry, given in zip(inquiries, answers, strict=True):
            self._listen(inquiry, given)
            self._known[inquiry] = outcome_of(given)


def outcome_of(given: Answer) -> Outcome:
    """Reduce an answer to what a report keeps."""
    document = given.document()
    judgement = given.judgement
    kinetics = judgement.findings[Witness.KINETICS] if judgement else None
    outcome = judgement.outcome if judgement else None
    loss = document["loss"] or {}
    return Outcome(
        verdict=given.verdict,
        severity=outcome.severity if outcome else None,
        anode=outcome.anode if outcome else Anode.NONE,
        kinetic_severity=kinetics.severity if kinetics and kinetics.applies else None,
        kinetic_anode=kinetics.anode if kinetics and kinetics.applies else None,
        loss_over_allowance=loss.get("loss_over_allowance", {}).get("high"),
        answer_sha256=canonical_sha256(document),
        brief_json=canonical(_brief(document)),
    )


def canonical(value: object) -> bytes:
    """Write JSON in the one form that hashes are taken of: sorted keys, no spaces, UTF-8."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
    return text.encode()


def object_of(members: Mapping[str, Iterable[bytes]]) -> Iterator[bytes]:
    """Pieces of the canonical JSON of an object whose members are there in pieces."""
    before = b"{"
    for name in sorted(members):
        yield before + canonical(name) + b":"
        yield from members[name]
        before = b","
    yield b"}"


def canonical_sha256(value: object) -> str:
    """SHA-256 of a value's canonical JSON."""
    return hashlib.sha256(canonical(value)).hexdigest()


_LOSS = (
    "side",
    "galvanic_rate_um_per_year",
    "galvanic_loss_um",
    "allowance_um",
    "coat_life_years",
    "reach_mm",
)


def _brief(document: Mapping[str, Any]) -> dict[str, Any]:
    loss = document["loss"]
    return {
        "verdict": document["verdict"],
        "severity": document["severity"],
        "confidence": document["confidence"],
        "line": document["summary"]["line"],
        "deciding_witness": document["deciding_witness"],
        "dissenting_witnesses": document["dissenting_witnesses"],
        "anode": document["anode"],
        "surfaces": {side: document["surfaces"][side]["name"] for side in ("first", "second")},
        "layers": {
            side: [layer["finish_id"] for layer in document["surfaces"][side]["layers"]]
            for side in ("first", "second")
        },
        "environment": {name: document["environment"][name] for name in ("id", "name", "exposure", "tags")},
        "areas_cm2": {side: document["joint"][f"{side}_area_cm2"] for side in ("first", "second")},
        "design_life_years": document["joint"]["design_life_years"],
        "loss": {name: loss[name] for name in _LOSS if name in loss} if loss else None,
        "conditions": document["conditions"],
        "cautions": document["cautions"],
        "hazards": [
            {name: hazard[name] for name in ("id", "name", "severity", "statement", "is_certain")}
            for hazard in document["hazards"]
        ],
        "warnings": document["warnings"],
        "missing": document["missing"],
        "question": document["question"],
    }
