"""An issued answer and the same question today."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import msgspec
import orjson

from service.catalogue.catalogue import Catalogue
from service.curation.dependence import keys_of_answer, source_keys
from service.curation.reach import Reach
from service.curation.today import compare_answers
from service.judgement import ENGINE_VERSION, Inquiry, InvalidInquiryError, Policy, answer
from service.web.answers import AnswerBook, KeptAnswer
from service.web.identity import identify
from service.web.issuing import issued
from service.web.problem_documents import document as problem_document
from service.web.representation import canonical

_BRIEF = ("address", "digest", "engine", "verdict", "severity", "confidence")


@dataclass(frozen=True, slots=True)
class Today:
    """Puts questions of the past to the present."""

    then: Catalogue
    now: Catalogue
    policy: Policy
    tenant_id: str
    book: AnswerBook

    def of(self, kept: KeptAnswer) -> bytes:
        """Answer the question of an issued answer by the present release and engine, and compare."""
        inquiry = inquiry_from(kept.request)
        before = orjson.loads(kept.body)
        keys = self._keys(inquiry, self.then) | source_keys(before, self.then)
        try:
            present = self._answer(inquiry)
        except InvalidInquiryError as error:
            return self._unanswerable(before, error, keys)
        after = orjson.loads(present.body)
        keys |= self._keys(inquiry, self.now) | source_keys(after, self.now)
        lines = compare_answers(before, after, self._reach().touching(keys))
        return canonical(
            {
                "then": _brief(before),
                "now": _brief(after),
                "is_same": not lines,
                "difference": lines,
                "answer": orjson.Fragment(present.body),
                "problem": None,
            }
        )

    def _unanswerable(self, before: dict[str, Any], error: InvalidInquiryError, keys: set[str]) -> bytes:
        """The present release lacks something that the question names."""
        gone = dict.fromkeys(before) | {
            "engine": ENGINE_VERSION,
            "anode": dict.fromkeys(before["anode"]),
            "surfaces": {"first": {}, "second": {}},
            "environment": {},
            **dict.fromkeys(("findings", "evidence", "hazards", "conditions", "by_condition"), ()),
        }
        problem = problem_document(error, "")
        del problem["instance"]
        lines = compare_answers(before, gone, self._reach().touching(keys))
        return canonical(
            {
                "then": _brief(before),
                "now": None,
                "is_same": False,
                "difference": lines,
                "answer": None,
                "problem": problem,
            }
        )

    def _answer(self, inquiry: Inquiry) -> KeptAnswer:
        identity = identify(inquiry, self.now, self.policy)
        if kept := self.book.recall(identity.digest):
            return kept
        (judged,) = answer([inquiry], self.now, self.policy)
        made = issued(judged, identity, self.tenant_id)
        self.book.keep(made)
        return made

    def _keys(self, inquiry: Inquiry, catalogue: Catalogue) -> set[str]:
        (judged,) = answer([inquiry], catalogue, self.policy)
        return keys_of_answer(judged)

    def _reach(self) -> Reach:
        return Reach.of(self.then, self.now)


def inquiry_from(request: bytes) -> Inquiry:
    """Read a canonical request back."""
    return msgspec.json.decode(request, type=Inquiry)


def _brief(document: dict[str, Any]) -> dict[str, Any]:
    return {"release": document["release"], **{name: document[name] for name in _BRIEF}}
