"""Which approved proposals can come out together, judged by the state in which they would end."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy.orm import Session

from service.catalogue.tables import TABLES
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import Proposal
from service.storage.rows import referred

RowName = tuple[str, str]
STALE = "the row has changed since it was proposed"


@dataclass(frozen=True, slots=True)
class LeftOut:
    """An approved proposal that cannot be applied, and why; it stays approved."""

    proposal: Proposal
    reason: str


@dataclass(frozen=True, slots=True)
class Plan:
    """Proposals that fit together, and those that do not fit."""

    fitting: tuple[Proposal, ...]
    left_out: tuple[LeftOut, ...]


def plan(session: Session, approved: Sequence[Proposal]) -> Plan:
    """Leave out what does not fit, until the rest hangs together.

    Leaving one proposal out may take the ground from under another, so each round looks again at
    all that are left. A removal gives way before those who still name its row.
    """
    knowledge = KnowledgeRepository(session)
    fitting: dict[RowName, Proposal] = {}
    left_out: list[LeftOut] = []
    for proposal in approved:
        is_stale = knowledge.find(*_name(proposal)) != proposal.before
        if is_stale or _name(proposal) in fitting:
            left_out.append(LeftOut(proposal, STALE))
        else:
            fitting[_name(proposal)] = proposal
    while unfit := [
        LeftOut(proposal, reason)
        for proposal in fitting.values()
        if (reason := _obstacle(knowledge, fitting, proposal))
    ]:
        removals = [each for each in unfit if each.proposal.after is None]
        for each in removals or unfit:
            left_out.append(each)
            del fitting[_name(each.proposal)]
    return Plan(tuple(fitting.values()), tuple(left_out))


def carry_out(session: Session, proposals: Sequence[Proposal]) -> None:
    """Change the working state: what others name comes first, what names others goes first."""
    knowledge = KnowledgeRepository(session)
    for table in TABLES:
        ours = [proposal for proposal in proposals if proposal.table_name == table]
        rows = [(proposal.before is None, dict(proposal.after)) for proposal in ours if proposal.after]
        knowledge.insert(table, [row for is_new, row in rows if is_new])
        knowledge.update(table, [row for is_new, row in rows if not is_new])
    for table in reversed(tuple(TABLES)):
        ours = [proposal for proposal in proposals if proposal.table_name == table]
        knowledge.delete(table, [proposal.row_key for proposal in ours if not proposal.after])


def _obstacle(knowledge: KnowledgeRepository, fitting: dict[RowName, Proposal], proposal: Proposal) -> str:
    if proposal.after is not None:
        for column, target, name in referred(proposal.table_name, proposal.after):
            if not _will_exist(knowledge, fitting, target, name):
                return f"{column} names {name!r}, which is not in {target}"
        return ""
    for table, key in knowledge.users(*_name(proposal)):
        user = fitting.get((table, key))
        if user is None or _names(user.table_name, user.after, proposal):
            return f"{table} {key!r} names the row"
    return ""


def _will_exist(
    knowledge: KnowledgeRepository, fitting: dict[RowName, Proposal], table: str, key: str
) -> bool:
    proposal = fitting.get((table, key))
    if proposal is not None:
        return proposal.after is not None
    return bool(table) and knowledge.find(table, key) is not None


def _names(table: str, row: Mapping[str, Any] | None, gone: Proposal) -> bool:
    return row is not None and any((target, name) == _name(gone) for _, target, name in referred(table, row))


def _name(proposal: Proposal) -> RowName:
    return proposal.table_name, proposal.row_key
