"""What publishing would bring out and what it can touch, told beforehand; nothing is changed by asking."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlalchemy.orm import Session

from service.catalogue.catalogue import Catalogue
from service.catalogue.difference import Change
from service.catalogue.release import content_hash, freeze, thaw
from service.curation.plan import Plan, plan
from service.curation.reach import Reach
from service.curation.records import State
from service.storage.misfits import misfits
from service.storage.repositories.assemblies import AssembliesRepository
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.proposals import Proposal, ProposalsRepository
from service.storage.rows import Values, key_text

NEXT = "next"
"""Label of the release that is not published; no answer is given under it."""


@dataclass(frozen=True, slots=True)
class Impact:
    """The next release if it were published now.

    ``assemblies`` and ``joints`` of all tenants are those that have to be judged again to know whether
    anything said about them changes; ``misfits`` are the overlays that would name what is gone.
    """

    planned: Plan
    release: Catalogue
    changes: tuple[Change, ...]
    assemblies: int
    joints: int
    misfits: int


def impact(session: Session, before: Catalogue) -> Impact:
    """Bring the approved proposals that fit together with the working state, and compare."""
    planned = plan(session, ProposalsRepository(session).all_in(State.APPROVED))
    working = KnowledgeRepository(session).all_rows()
    export = freeze(NEXT, {table: _amended(table, rows, planned.fitting) for table, rows in working.items()})
    after = thaw(export, content_hash(export))
    reach = Reach.of(before, after)
    touched = [
        joints
        for joints, rests_on in AssembliesRepository(session).all_resting()
        if reach.changes and reach.touching(rests_on)
    ]
    return Impact(
        planned=planned,
        release=after,
        changes=reach.changes,
        assemblies=len(touched),
        joints=sum(touched),
        misfits=len(misfits(session, lambda: after)),
    )


def _amended(table: str, rows: Iterable[Values], proposals: Sequence[Proposal]) -> list[Values]:
    """Put the rows of proposals in the place of those that they change."""
    found = {key_text(table, row): row for row in rows}
    for proposal in proposals:
        if proposal.table_name == table:
            found.pop(proposal.row_key, None)
            if proposal.after is not None:
                found[proposal.row_key] = dict(proposal.after)
    return list(found.values())
