"""Many couples in one request: the same questions as alone, and the same bytes of answers."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import islice
from typing import Any, Self

import msgspec
import orjson

from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Inquiry, Policy
from service.web.answers import AnswerBook, KeptAnswer
from service.web.batch_questions import Question, Questions, Refused
from service.web.identity import Identity, digest_of, identify
from service.web.known_lines import KnownLines, scope_of
from service.web.problem_documents import document
from service.web.representation import canonical
from service.web.schemas.couples import View
from service.web.together import Company, Outcome

CHUNK = 512
"""Couples judged together: enough for arrays to pay, few enough for a first answer to come soon."""


@dataclass(slots=True)
class Tally:
    """What the closing line says: how many came out, how many were refused, and a hash of every byte."""

    count: int = 0
    failed: int = 0
    _hash: Any = field(default_factory=hashlib.sha256)

    def add(self, lines: Lines) -> None:
        """Take note of lines that are sent."""
        self.count += lines.count
        self.failed += lines.failed
        self._hash.update(lines.content)

    def closing(self, label: str, content_hash: str, *, is_complete: bool = True) -> bytes:
        """Write the last line; without it, or without ``complete``, something is missing."""
        closing = {
            "complete": is_complete,
            "count": self.count,
            "failed": self.failed,
            "digest": self._hash.hexdigest(),
            "release": {"label": label, "content_hash": content_hash},
        }
        return canonical(closing) + b"\n"


@dataclass(frozen=True, slots=True)
class Lines:
    """The lines of a chunk, ready to send."""

    content: bytes
    count: int
    failed: int


@dataclass(frozen=True, slots=True)
class Written:
    """A line without its index."""

    rest: bytes
    has_failed: bool = False


@dataclass(frozen=True, slots=True)
class Answering:
    """Answers questions in one release, for one tenant."""

    catalogue: Catalogue
    view: View
    tenant_id: str
    book: AnswerBook
    policy: Policy = DEFAULT_POLICY

    def lines(self, questions: Sequence[Question]) -> Lines:
        """Answer questions in order and write a line for each."""
        written = self.written(questions)
        lines = [
            b'{"index":%d,%s' % (question.index, each.rest)
            for question, each in zip(questions, written, strict=True)
        ]
        return Lines(b"".join(lines), len(lines), sum(each.has_failed for each in written))

    def written(self, questions: Sequence[Question]) -> list[Written]:
        """Answer questions in order; return what each line says behind its index."""
        known = self._answers([each.asked for each in questions if isinstance(each.asked, Inquiry)])
        outcomes = (
            known[each.asked] if isinstance(each.asked, Inquiry) else each.asked for each in questions
        )
        return [self._line(each, outcome) for each, outcome in zip(questions, outcomes, strict=True)]

    def _answers(self, inquiries: Sequence[Inquiry]) -> Mapping[Inquiry, Outcome]:
        """Answers to the distinct questions; those in memory are not judged again."""
        known: dict[Inquiry, Outcome] = {}
        new: dict[Inquiry, Identity] = {}
        for inquiry in dict.fromkeys(inquiries):
            identity = identify(inquiry, self.catalogue, self.policy)
            if kept := self.book.recall(identity.digest):
                known[inquiry] = kept
            else:
                new[inquiry] = identity
        if not new:
            return known
        company = Company(self.catalogue, self.policy, self.tenant_id)
        made = company.judge(list(new.items()))
        self.book.keep_many([each for each in made.values() if isinstance(each, KeptAnswer)])
        return known | {inquiry: made[identity.digest] for inquiry, identity in new.items()}

    def _line(self, question: Question, outcome: KeptAnswer | Refused) -> Written:
        ref = b"" if question.ref is None else b'"ref":%s,' % orjson.dumps(question.ref)
        if isinstance(outcome, KeptAnswer):
            return Written(b'%s"answer":%s}\n' % (ref, outcome.body_of(self.view)))
        return Written(b'%s"error":%s}\n' % (ref, canonical(_problem(outcome))), has_failed=True)


@dataclass(frozen=True, slots=True)
class Reading:
    """Answers lines as they were written: those that are known at once, the others by reading them."""

    questions: Questions
    answering: Answering
    memory: KnownLines
    scope: bytes

    @classmethod
    def of(cls, questions: Questions, answering: Answering, memory: KnownLines) -> Self:
        """Read the lines of one batch."""
        catalogue, head = answering.catalogue, questions.head
        scope = scope_of(
            answering.tenant_id,
            answering.view,
            digest_of(answering.policy),
            catalogue.content_hash,
            catalogue.overlay_hash,
            msgspec.json.encode((head.surfaces, head.defaults)),
        )
        return cls(questions, answering, memory, scope)

    def lines(self, raws: Sequence[bytes], start: int) -> Lines:
        """Answer couples in order, the first of which has this index, and write a line for each."""
        rests = self.memory.recall(self.scope, raws)
        new = [place for place, rest in enumerate(rests) if rest is None]
        written = self.answering.written([self.questions.read(start + place, raws[place]) for place in new])
        for place, each in zip(new, written, strict=True):
            rests[place] = each.rest
            if not each.has_failed:
                self.memory.keep(self.scope, raws[place], each.rest)
        content = _joined(start, [rest for rest in rests if rest is not None])
        return Lines(content, len(raws), sum(each.has_failed for each in written))

    def known(self, raws: Sequence[bytes], start: int) -> Lines | None:
        """Answer couples like ``lines`` if all of them are known, which takes microseconds."""
        rests = self.memory.recall(self.scope, raws)
        known = [rest for rest in rests if rest is not None]
        return Lines(_joined(start, known), len(raws), 0) if len(known) == len(raws) else None


def _joined(start: int, rests: Sequence[bytes]) -> bytes:
    """Write lines that follow each other, the first of which has this index."""
    pieces = [b""] * (2 * len(rests))
    pieces[::2] = _indices(start, len(rests))
    pieces[1::2] = rests
    return b"".join(pieces)


@lru_cache(maxsize=8)
def _indices(start: int, count: int) -> tuple[bytes, ...]:
    """What lines begin with; the first portions of all batches have the same."""
    return tuple([b'{"index":%d,' % index for index in range(start, start + count)])


def chunks(raws: Iterable[bytes], size: int = CHUNK) -> Iterator[list[bytes]]:
    """Give couples in portions."""
    iterator = iter(raws)
    while portion := list(islice(iterator, size)):
        yield portion


def _problem(error: Exception) -> dict[str, Any]:
    """A problem without the request that met it, so that the same batch gives the same bytes."""
    problem = document(error, "")
    del problem["instance"]
    return problem
