"""The tables of a release, written once and ready to send."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Self

import orjson

from service.catalogue.catalogue import Catalogue
from service.catalogue.nearness import nearest_keys
from service.web.errors import NoSuchRecordError
from service.web.representation import Document, canonical, documents

SEARCH = "q"
TABLES = (
    "materials",
    "finishes",
    "compounds",
    "environments",
    "electrolytes",
    "electrodes",
    "kinetics",
    "measurements",
    "sources",
    "scales",
    "limits",
    "rules",
    "mitigations",
)
"""Tables with a list and a detail route."""


@dataclass(frozen=True, slots=True)
class Slice:
    """Some items of a collection. ``is_last`` tells that nothing follows."""

    keys: Sequence[str]
    items: Sequence[bytes]
    total: int
    is_last: bool


@dataclass(frozen=True, slots=True)
class Collection:
    """One table: its keys in order, its documents, their bytes and the text that a search looks at."""

    table: str
    keys: tuple[str, ...]
    documents: Mapping[str, Document]
    bodies: Mapping[str, bytes]
    texts: Mapping[str, str]

    @classmethod
    def of(cls, catalogue: Catalogue, table: str) -> Self:
        """Write all records of a table."""
        found = documents(catalogue, table)
        return cls(
            table=table,
            keys=tuple(found),
            documents=found,
            bodies={key: canonical(document) for key, document in found.items()},
            texts={key: _searchable(document) for key, document in found.items()},
        )

    def body(self, key: str) -> bytes:
        """Return the bytes of one record.

        Raises
        ------
        NoSuchRecordError
            If the release has none with this key; it names near ones.
        """
        try:
            return self.bodies[key]
        except KeyError:
            raise NoSuchRecordError(self.table, key, self.near(key)) from None

    def near(self, word: str) -> tuple[str, ...]:
        """Return the keys whose own text or name is like a word."""
        names = {key: str(document.get("name", "")) for key, document in self.documents.items()}
        return nearest_keys(word, names)

    def slice(self, filters: Mapping[str, Any], after: str, limit: int) -> Slice:
        """Return the items behind ``after`` that all filters let through."""
        kept = [key for key in self.keys if self._passes(key, filters)] if filters else self.keys
        start = bisect_right(kept, after)
        keys = kept[start : start + limit]
        return Slice(keys, [self.bodies[key] for key in keys], len(kept), start + limit >= len(kept))

    def _passes(self, key: str, filters: Mapping[str, Any]) -> bool:
        document = self.documents[key]
        return all(
            _holds_words(self.texts[key], wanted) if name == SEARCH else _holds(document[name], wanted)
            for name, wanted in filters.items()
        )


def collections_of(catalogue: Catalogue) -> dict[str, Collection]:
    """Write all tables of a release."""
    return {table: Collection.of(catalogue, table) for table in TABLES}


def joined(items: Sequence[bytes]) -> list[orjson.Fragment]:
    """Let ready bytes be members of another document."""
    return [orjson.Fragment(item) for item in items]


def _holds(value: object, wanted: object) -> bool:
    if isinstance(value, list):
        return wanted in value
    return value == wanted


def _holds_words(text: str, wanted: str) -> bool:
    return all(word in text for word in wanted.lower().split())


def _searchable(document: Document) -> str:
    """What a person would look for: identifier, names, designations, specifications, title."""
    parts = [
        str(document.get(name, "")) for name in ("id", "name", "title", "quantity", "subject_id", "statement")
    ]
    parts += document.get("specifications", ())
    parts += [designation["text"] for designation in document.get("designations", ())]
    return "\n".join(parts).lower()
