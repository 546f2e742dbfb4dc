"""An answer then and the same question now: every difference with the figures and rules that it is due to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from service.catalogue.difference import Change

Document = Mapping[str, Any]

_WHOLE = (
    "verdict",
    "severity",
    "confidence",
    "question",
    "deciding_witness",
    "dissenting_witnesses",
    "missing",
)
_LISTED = {"hazards": "id", "conditions": "code", "by_condition": "condition"}
_SHOWN_OF_A_FINDING = (
    "applies",
    "severity",
    "anode",
    "is_polarity_in_doubt",
    "confidence",
    "grade",
    "statement",
)


@dataclass(frozen=True, slots=True)
class Cause:
    """What a difference is due to: a changed field of a record, a record that came or went, or the engine."""

    table: str
    key: tuple[str, ...]
    field: str
    before: Any
    after: Any
    kind: str


@dataclass(frozen=True, slots=True)
class Line:
    """One member of the answer that reads otherwise now, and why; ``because`` is never empty."""

    pointer: str
    before: Any
    after: Any
    because: tuple[Cause, ...]


def compare_answers(before: Document, after: Document, touching: Sequence[Change]) -> tuple[Line, ...]:
    """Compare two answers to one question.

    Parameters
    ----------
    before, after : mapping
        Documents of the answers.
    touching : sequence of Change
        Changes between their releases that can touch the question.

    Returns
    -------
    tuple of Line
        In the order of the document. A finding is put down to the changed records among its evidence, the
        rest to those of every finding that changed; where that leaves nothing, to all that can touch the
        question, and to the engine if it is another one.
    """
    causes = _Causes(before, after, touching)
    return tuple(
        Line(pointer, old, new, causes.of(witness))
        for pointer, old, new, witness in _differences(before, after)
    )


class _Causes:
    """Finds what a difference is due to."""

    def __init__(self, before: Document, after: Document, touching: Sequence[Change]) -> None:
        self._changes = touching
        self._evidence = (_evidence(before), _evidence(after))
        self._engines = (before["engine"], after["engine"])
        changed = {witness for *_, witness in _findings(before, after)}
        self._of_findings = {witness: self._among_evidence(witness) for witness in changed}
        self._of_all = tuple(
            change for change in touching if any(change in found for found in self._of_findings.values())
        )

    def of(self, witness: str | None) -> tuple[Cause, ...]:
        found = self._of_findings.get(witness or "", ()) or self._of_all or tuple(self._changes)
        causes = tuple(
            Cause(change.table, change.key, change.field, change.before, change.after, change.kind.value)
            for change in found
        )
        old, new = self._engines
        if old == new and causes:
            return causes
        return (*causes, Cause("engine", (), "version", old, new, "engine"))

    def _among_evidence(self, witness: str) -> tuple[Change, ...]:
        """Changes of records that a finding names, or that are the subject of one that it names."""
        used = self._evidence[0].get(witness, set()) | self._evidence[1].get(witness, set())
        return tuple(change for change in self._changes if f"{change.table}/{change.key[0]}" in used)


def _evidence(document: Document) -> dict[str, set[str]]:
    """Records that each finding rests on, with the rivals that were set aside for them."""
    used = {finding["witness"]: set(finding["evidence"]) for finding in document["findings"]}
    for item in document["evidence"]:
        rivals = {f"{item['table']}/{rival['id']}" for rival in item["not_used"]}
        for witness in item["used_by"]:
            used.setdefault(witness, set()).update(rivals)
    return used


def _differences(before: Document, after: Document) -> Iterator[tuple[str, Any, Any, str | None]]:
    for name in _WHOLE:
        if before[name] != after[name]:
            yield f"/{name}", before[name], after[name], None
    for name in ("side", "is_in_doubt"):
        if before["anode"][name] != after["anode"][name]:
            yield f"/anode/{name}", before["anode"][name], after["anode"][name], None
    for side in ("first", "second"):
        yield from _members(before["surfaces"][side], after["surfaces"][side], f"/surfaces/{side}")
    yield from _members(before["environment"], after["environment"], "/environment")
    yield from _members(before["loss"] or {}, after["loss"] or {}, "/loss", "kinetics")
    for name, key in _LISTED.items():
        yield from _entries(before[name], after[name], name, key)
    yield from _findings(before, after)


def _findings(before: Document, after: Document) -> Iterator[tuple[str, Any, Any, str]]:
    old = {finding["witness"]: finding for finding in before["findings"]}
    new = {finding["witness"]: finding for finding in after["findings"]}
    for witness in dict.fromkeys((*old, *new)):
        one, other = old.get(witness, {}), new.get(witness, {})
        for name in _SHOWN_OF_A_FINDING:
            if one.get(name) != other.get(name):
                yield f"/findings/{witness}/{name}", one.get(name), other.get(name), witness
        for pointer, before_figure, after_figure, _ in _members(
            one.get("figures", {}), other.get("figures", {}), f"/findings/{witness}/figures"
        ):
            yield pointer, before_figure, after_figure, witness


def _members(
    before: Document, after: Document, pointer: str, witness: str | None = None
) -> Iterator[tuple[str, Any, Any, str | None]]:
    for name in dict.fromkeys((*before, *after)):
        if before.get(name) != after.get(name):
            yield f"{pointer}/{name}", before.get(name), after.get(name), witness


def _entries(
    before: Sequence[Document], after: Sequence[Document], name: str, key: str
) -> Iterator[tuple[str, Any, Any, None]]:
    """Entries that came, went or changed, told by what identifies them."""
    old, new = ({entry[key]: entry for entry in entries} for entries in (before, after))
    for identity in dict.fromkeys((*old, *new)):
        if old.get(identity) != new.get(identity):
            yield f"/{name}/{identity}", old.get(identity), new.get(identity), None
