"""Every number that a list takes is bounded, so that none is too large to be written down."""

from __future__ import annotations

import inspect
import typing

import pytest
from annotated_types import Ge, Le

from service.web.schemas import queries
from service.web.schemas.queries import ListQuery

QUERIES = [
    member
    for _, member in inspect.getmembers(queries, inspect.isclass)
    if issubclass(member, ListQuery) and member.__module__ == queries.__name__
]


@pytest.mark.parametrize("query", QUERIES, ids=lambda query: query.__name__)
def test_every_number_is_bounded(query: type[ListQuery]) -> None:
    for name, field in query.model_fields.items():
        if {int, float} & {field.annotation, *typing.get_args(field.annotation)}:
            kinds = {type(part) for part in field.metadata}
            assert {Ge, Le} <= kinds, name
