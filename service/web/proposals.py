"""Proposals as the API and the pages show them, and the steps that a caller can take on one."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from typing import Any, TypeVar

from fastapi import Request

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import MalformedRowError
from service.catalogue.tables import KEYS
from service.curation import Decision, amended_row, comment, propose, propose_withdrawal, review, withdraw
from service.curation.errors import ReasonMissingError
from service.curation.rows import check_table
from service.storage.engine import WriteSession
from service.storage.repositories.pages import Page
from service.storage.repositories.proposals import Proposal, ProposalsRepository
from service.storage.rows import key_text
from service.web.curation_errors import blaming
from service.web.errors import Fault, InvalidRequestError
from service.web.pagination import cursors_of
from service.web.state import principal, services

PATH = "/v1/proposals"
Result = TypeVar("Result")
Document = dict[str, Any]


def make(
    request: Request, table: str, key: Sequence[str] | None, record: Mapping[str, Any], reason: str
) -> Proposal:
    """Propose a new record, or other values for fields of the one under a key."""

    def act(session: WriteSession, by: str) -> Proposal:
        if key is None:
            return propose(session, table, record, reason=reason, by=by)
        row = amended_row(session, table, _key_text(table, key), record)
        if _changes_key(table, key, row):
            raise MalformedRowError(
                table, KEYS[table][0], row[KEYS[table][0]], "is the key and cannot change"
            )
        return propose(session, table, row, reason=reason, by=by)

    return step(request, act)


def make_withdrawal(request: Request, table: str, key: Sequence[str], reason: str) -> Proposal:
    """Propose that a record be used no longer."""

    def act(session: WriteSession, by: str) -> Proposal:
        return propose_withdrawal(session, table, _key_text(table, key), reason=reason, by=by)

    return step(request, act)


def add_comment(request: Request, proposal_id: str, text: str) -> None:
    """Remark on a proposal."""
    step(request, lambda session, by: comment(session, proposal_id, text, by=by))


def decide(request: Request, proposal_id: str, decision: Decision, text: str) -> Proposal:
    """Approve or reject a proposal; whoever rejects says why."""
    if decision is Decision.REJECT and not text.strip():
        fault = Fault("body", "/text", "missing", str(ReasonMissingError()))
        raise InvalidRequestError(fault)
    return step(request, lambda session, by: review(session, proposal_id, decision, by=by, text=text))


def retract(request: Request, proposal_id: str, reason: str) -> Proposal:
    """Take back a proposal of one's own."""
    return step(request, lambda session, by: withdraw(session, proposal_id, reason=reason, by=by))


def step(request: Request, act: Callable[[WriteSession, str], Result]) -> Result:
    """Take one step in a transaction of its own; what is wrong is told with pointers."""
    with blaming(_current(request)), services(request).database.writing() as session:
        return act(session, principal(request).key_id)


def page(request: Request, *, limit: int, cursor: str = "", **filters: str) -> Page[Proposal]:
    """Return proposals, the oldest first.

    Raises
    ------
    BadCursorError
        If the cursor comes from elsewhere.
    """
    with cursors_of("the list of proposals"), services(request).database.reading() as session:
        return ProposalsRepository(session).page(limit=limit, cursor=cursor, **filters)


def detail(request: Request, proposal_id: str) -> Document:
    """Return a proposal with its remarks and decisions.

    Raises
    ------
    UnknownProposalError
        If there is no such proposal.
    """
    with blaming(_current(request)), services(request).database.reading() as session:
        proposals = ProposalsRepository(session)
        found = proposals.get(proposal_id)
        comments = [_without_proposal(each) for each in proposals.comments(proposal_id)]
        reviews = [_without_proposal(each) for each in proposals.reviews(proposal_id)]
    return {**document(found), "comments": comments, "reviews": reviews}


def document(proposal: Proposal) -> Document:
    """Write a proposal as plain values."""
    return {
        "id": proposal.id,
        "address": f"{PATH}/{proposal.id}",
        "kind": proposal.kind,
        "table": proposal.table_name,
        "key": key_parts(proposal.table_name, proposal.row_key),
        "reason": proposal.reason,
        "state": proposal.state,
        "proposed_by": proposal.proposed_by,
        "created_at": proposal.created_at,
        "closed_at": proposal.closed_at,
        "closing_reason": proposal.closing_reason,
        "release": proposal.release_label,
        "differences": _differences(proposal.before or {}, proposal.after or {}),
    }


def key_parts(table: str, key: str) -> list[str]:
    """Take the text of a key apart."""
    parts: list[str] = [key] if len(KEYS[table]) == 1 else json.loads(key)
    return parts


def _current(request: Request) -> Catalogue | None:
    shelf = services(request).shelf
    return shelf.current.catalogue if shelf.current_hash else None


def _key_text(table: str, key: Sequence[str]) -> str:
    check_table(table)
    names = KEYS[table]
    if len(key) != len(names):
        detail = f"A key of {table} has {len(names)} parts: {', '.join(names)}."
        raise InvalidRequestError(Fault("body", "/key", "length", detail))
    return key_text(table, dict(zip(names, key, strict=True)))


def _changes_key(table: str, key: Sequence[str], row: Mapping[str, Any]) -> bool:
    return [row[name] for name in KEYS[table]] != list(key)


def _differences(before: Mapping[str, Any], after: Mapping[str, Any]) -> list[Document]:
    names = dict.fromkeys((*before, *after))
    return [
        {"field": name, "before": before.get(name), "after": after.get(name)}
        for name in names
        if before.get(name) != after.get(name)
    ]


def _without_proposal(said: Any) -> Document:
    members = asdict(said)
    del members["proposal_id"]
    return members
