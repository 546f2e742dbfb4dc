"""Which issued answers a new release changes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from service.storage.engine import WriteSession
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.changes import ChangesRepository

BATCH = 500

JudgeAgain = Callable[[Sequence[StoredAnswer]], Sequence[bytes | None]]
"""Puts the questions of answers to the new release, in order; ``None`` where it cannot."""

Essence = Callable[[bytes], Mapping[str, Any]]
"""What counts in an answer: verdict, anode, severity and the like; never labels or addresses."""


@dataclass(frozen=True, slots=True)
class ChangedAnswer:
    """An issued answer that would read otherwise today; ``differences`` are before and after."""

    digest: str
    tenant_id: str | None
    differences: Mapping[str, tuple[Any, Any]]


@dataclass(frozen=True, slots=True)
class Impact:
    """The comparison of all answers under one release with another."""

    before: str
    after: str
    examined: int
    changed: tuple[ChangedAnswer, ...]
    failed: tuple[str, ...]


def impact(session: Session, before: str, after: str, judge_again: JudgeAgain, essence: Essence) -> Impact:
    """Judge every answer given under release ``before`` again and compare what counts.

    ``failed`` are the digests of questions that the new release cannot answer at all, for instance
    because a material is gone.
    """
    answers = AnswersRepository(session)
    changed: list[ChangedAnswer] = []
    failed: list[str] = []
    examined, cursor = 0, ""
    while True:
        page = answers.page(before, limit=BATCH, cursor=cursor)
        examined += len(page.items)
        for answer, body in zip(page.items, judge_again(page.items), strict=True):
            if body is None:
                failed.append(answer.digest)
                continue
            differences = _differences(essence(answer.body), essence(body))
            if differences:
                changed.append(ChangedAnswer(answer.digest, answer.tenant_id, differences))
        cursor = page.next_cursor
        if not cursor:
            return Impact(before, after, examined, tuple(changed), tuple(failed))


def announce(session: WriteSession, found: Impact, *, by: str) -> None:
    """Tell the feed of every changed answer, and the audit trail of the comparison.

    An answer that depends on a tenant's overlay is told to that tenant alone.
    """
    feed = ChangesRepository(session)
    for answer in found.changed:
        differences = {name: list(pair) for name, pair in answer.differences.items()}
        feed.append(
            "answer.changed",
            answer.digest,
            answer.tenant_id,
            before=found.before,
            after=found.after,
            differences=differences,
        )
    AuditRepository(session).append(
        by,
        "release.compared",
        "release",
        found.after,
        before=found.before,
        examined=found.examined,
        changed=len(found.changed),
        failed=len(found.failed),
    )


def _differences(before: Mapping[str, Any], after: Mapping[str, Any]) -> dict[str, tuple[Any, Any]]:
    return {
        name: (before.get(name), after.get(name))
        for name in sorted(before.keys() | after.keys())
        if before.get(name) != after.get(name)
    }
