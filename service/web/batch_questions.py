"""The couples of a batch as questions: each reads alone, and carries what is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from pydantic import TypeAdapter, ValidationError

from service.catalogue.catalogue import Catalogue
from service.judgement import Inquiry, InvalidInquiryError, Side
from service.web.batch_input import Head, Ref, couple_of
from service.web.errors import Fault, InvalidRequestError
from service.web.faults import invalid_request
from service.web.inquiries import inquiry_of, side_of
from service.web.operations import Operation
from service.web.schemas.couples import CoupleRequest
from service.web.schemas.surfaces import SurfaceField

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


def _is_index(value: object) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)
