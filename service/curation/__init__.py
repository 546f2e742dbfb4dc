"""How the knowledge base changes: proposal, review, publication, and what that changes for others."""

from service.curation.errors import CurationError
from service.curation.impact import ChangedAnswer, Impact, announce, impact
from service.curation.overlays import put_row, read_overlay, remove_row
from service.curation.plan import LeftOut
from service.curation.proposals import amended_row, comment, propose, propose_withdrawal, withdraw
from service.curation.publication import Publication, publish
from service.curation.records import Decision, Kind, State
from service.curation.reviews import review

__all__ = [
    "ChangedAnswer",
    "CurationError",
    "Decision",
    "Impact",
    "Kind",
    "LeftOut",
    "Publication",
    "State",
    "amended_row",
    "announce",
    "comment",
    "impact",
    "propose",
    "propose_withdrawal",
    "publish",
    "put_row",
    "read_overlay",
    "remove_row",
    "review",
    "withdraw",
]
