"""Bringing approved proposals into the working state and publishing it."""

from __future__ import annotations

from dataclasses import dataclass

from service.curation.plan import LeftOut, carry_out, plan
from service.curation.records import State
from service.storage.engine import WriteSession
from service.storage.releases import publish as publish_working_state
from service.storage.repositories.audit import AuditRepository
from service.storage.repositories.proposals import Proposal, ProposalsRepository
from service.storage.repositories.releases import ReleaseInfo, ReleasesRepository


@dataclass(frozen=True, slots=True)
class Publication:
    """A release and the proposals that came out with it."""

    release: ReleaseInfo
    proposals: tuple[Proposal, ...]
    left_out: tuple[LeftOut, ...]


def publish(
    session: WriteSession, *, by: str, label: str | None = None, note: str = "", engine: str = ""
) -> Publication:
    """Apply every approved proposal that fits, and publish the outcome.

    A proposal whose row has changed since its author saw it is left out: its reviewer approved
    something else. So is one whose row would name what is not there, or be named while it goes.

    Raises
    ------
    BadReleaseLabelError, ReleaseLabelTakenError
        If the label is none, or names a release with other content.
    """
    ReleasesRepository(session).lock()
    proposals = ProposalsRepository(session)
    planned = plan(session, proposals.all_in(State.APPROVED))
    carry_out(session, planned.fitting)
    release = publish_working_state(session, label, by=by, note=note, engine=engine)
    audit = AuditRepository(session)
    for proposal in planned.fitting:
        audit.append(by, "proposal.published", "proposal", proposal.id, release=release.label)
    published = tuple(
        proposals.move(proposal.id, State.PUBLISHED, is_closed=True, release_label=release.label)
        for proposal in planned.fitting
    )
    return Publication(release, published, planned.left_out)
