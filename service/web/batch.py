"""Many couples in one request: the same questions, the same bytes of answers, one bad one spoiling only itself."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import Any

import orjson
from pydantic import TypeAdapter, ValidationError

from service.catalogue.catalogue import Catalogue
from service.judgement import DEFAULT_POLICY, Inquiry, InvalidInquiryError, Policy, Side, answer
from service.web.answering import issued
from service.web.answers import AnswerBook, KeptAnswer
from service.web.batch_input import Head, Ref, couple_of
from service.web.errors import Fault, InvalidRequestError
from service.web.faults import invalid_request
from service.web.identity import Identity, identify
from service.web.inquiries import inquiry_of, side_of
from service.web.operations import Operation
from service.web.problem_documents import document
from service.web.representation import canonical
from service.web.schemas.couples import CoupleRequest, View
from service.web.schemas.surfaces import SurfaceField

CHUNK = 512
"""Couples judged together: enough for arrays to pay, few enough for a first answer to come soon."""

_FOR_ALL = {"as_of", "view"}
_SURFACE: TypeAdapter[Any] = TypeAdapter(SurfaceField)
Refused = InvalidRequestError | InvalidInquiryError


@dataclass(frozen=True, slots=True)
class Question:
    """One couple of a batch, or why it is none."""

    index: int
    ref: Ref
    asked: Inquiry | Refused


@dataclass(slots=True)
class Questions:
    """Reads the couples of one batch. Surfaces of the table are read once, however often they come."""

    head: Head
    catalogue: Catalogue
    operation: Operation
    _sides: dict[int, Side | InvalidRequestError] = field(default_factory=dict)
    _shared: Inquiry | Refused | None = None

    def read(self, index: int, raw: bytes) -> Question:
        """Read one couple; whatever is wrong with it is the question's own."""
        ref: Ref = None
        try:
            couple = couple_of(raw)
            ref = couple.ref
            return Question(index, ref, self._inquiry(couple.members))
        except (InvalidRequestError, InvalidInquiryError) as error:
            return Question(index, ref, error)

    def _inquiry(self, members: Mapping[str, Any]) -> Inquiry:
        if members.keys() == {"first", "second"} and all(_is_index(end) for end in members.values()):
            return replace(
                self._template(),
                first=self._side(members["first"], "/first"),
                second=self._side(members["second"], "/second"),
            )
        written = {name: self._looked_up(name, value) for name, value in members.items()}
        return self._validated({**self.head.defaults, **written})

    def _template(self) -> Inquiry:
        """The question that all pairs of indices share, but for its surfaces."""
        if self._shared is None:
            try:
                self._shared = self._validated({"first": "-", "second": "-", **self.head.defaults})
            except (InvalidRequestError, InvalidInquiryError) as error:
                self._shared = error
        if not isinstance(self._shared, Inquiry):
            raise self._shared
        return self._shared

    def _validated(self, members: Mapping[str, Any]) -> Inquiry:
        for name in sorted(_FOR_ALL & members.keys()):
            detail = f"{name} holds for the whole batch: give it as a parameter of the address."
            raise InvalidRequestError(Fault("body", f"/{name}", "not_here", detail))
        try:
            return inquiry_of(CoupleRequest.model_validate(members), self.catalogue)
        except ValidationError as error:
            raise self._refusal(error) from error

    def _looked_up(self, name: str, value: Any) -> Any:
        if name not in {"first", "second"} or not _is_index(value):
            return value
        return self._row(value, f"/{name}")

    def _row(self, index: int, pointer: str) -> Any:
        if not 0 <= index < len(self.head.surfaces):
            detail = f"The table of surfaces has {len(self.head.surfaces)} rows, counted from 0."
            raise InvalidRequestError(Fault("body", pointer, "no_such_surface", detail))
        return self.head.surfaces[index]

    def _side(self, index: int, pointer: str) -> Side:
        row = self._row(index, pointer)
        if index not in self._sides:
            try:
                self._sides[index] = side_of(_SURFACE.validate_python(row))
            except ValidationError as error:
                self._sides[index] = self._refusal(error, "surfaces", index)
        found = self._sides[index]
        if isinstance(found, InvalidRequestError):
            raise found
        return found

    def _refusal(self, error: ValidationError, *within: str | int) -> InvalidRequestError:
        entries = [{**entry, "loc": ("body", *within, *entry["loc"])} for entry in error.errors()]
        return invalid_request(entries, self.operation)


@dataclass(slots=True)
class Tally:
    """What the closing line says: how many came out, how many were refused, and a hash of every byte."""

    count: int = 0
    failed: int = 0
    _hash: Any = field(default_factory=hashlib.sha256)

    def add(self, lines: Lines) -> bytes:
        """Take note of lines that are sent, and return them."""
        self.count += lines.count
        self.failed += lines.failed
        self._hash.update(lines.content)
        return lines.content

    def closing(self, catalogue: Catalogue, *, is_complete: bool = True) -> bytes:
        """Write the last line; without it, or without ``complete``, something is missing."""
        closing = {
            "complete": is_complete,
            "count": self.count,
            "failed": self.failed,
            "digest": self._hash.hexdigest(),
            "release": {"label": catalogue.label, "content_hash": catalogue.content_hash},
        }
        return canonical(closing) + b"\n"


@dataclass(frozen=True, slots=True)
class Lines:
    """The lines of a chunk, ready to send."""

    content: bytes
    count: int
    failed: int


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
        answers = self._answers([each.asked for each in questions if isinstance(each.asked, Inquiry)])
        lines, failed = [], 0
        for question in questions:
            outcome = question.asked
            if isinstance(outcome, Inquiry):
                outcome = next(answers)  # type: ignore[assignment]  # a kept answer or why there is none
            failed += not isinstance(outcome, KeptAnswer)
            lines.append(self._line(question, outcome))
        return Lines(b"".join(lines), len(lines), failed)

    def _answers(self, inquiries: Sequence[Inquiry]) -> Iterator[KeptAnswer | InvalidInquiryError]:
        identities = [identify(inquiry, self.catalogue, self.policy) for inquiry in inquiries]
        known: dict[str, KeptAnswer | InvalidInquiryError] = {}
        new: dict[str, tuple[Inquiry, Identity]] = {}
        for inquiry, identity in zip(inquiries, identities, strict=True):
            if kept := self.book.recall(identity.digest):
                known[identity.digest] = kept
            else:
                new[identity.digest] = inquiry, identity
        made = self._judge(list(new.values()))
        self.book.keep_many([each for each in made.values() if isinstance(each, KeptAnswer)])
        known |= made
        return (known[identity.digest] for identity in identities)

    def _judge(
        self, asked: Sequence[tuple[Inquiry, Identity]]
    ) -> dict[str, KeptAnswer | InvalidInquiryError]:
        """Judge together; where one cannot be judged, look for it by halves."""
        if not asked:
            return {}
        try:
            judged = answer([inquiry for inquiry, _ in asked], self.catalogue, self.policy)
        except InvalidInquiryError as error:
            if len(asked) == 1:
                return {asked[0][1].digest: error}
            middle = len(asked) // 2
            return self._judge(asked[:middle]) | self._judge(asked[middle:])
        return {
            identity.digest: issued(each, identity, self.tenant_id)
            for each, (_, identity) in zip(judged, asked, strict=True)
        }

    def _line(self, question: Question, outcome: KeptAnswer | Refused) -> bytes:
        ref = b"" if question.ref is None else b'"ref":%s,' % orjson.dumps(question.ref)
        if isinstance(outcome, KeptAnswer):
            name, content = b"answer", outcome.body_of(self.view)
        else:
            name, content = b"error", canonical(_problem(outcome))
        return b'{"index":%d,%s"%s":%s}\n' % (question.index, ref, name, content)


def chunks(raws: Iterable[bytes], size: int = CHUNK) -> Iterator[list[bytes]]:
    """Give couples in portions."""
    iterator = iter(raws)
    while portion := list(islice(iterator, size)):
        yield portion


def _is_index(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)


def _problem(error: Exception) -> dict[str, Any]:
    """A problem without the request that met it, so that the same batch gives the same bytes."""
    problem = document(error, "")
    del problem["instance"]
    return problem
