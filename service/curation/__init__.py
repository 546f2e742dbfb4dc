"""How the knowledge base changes: proposal, review, publication, and what that changes for others."""

from service.curation.errors import CurationError
from service.curation.impact import Impact, impact
from service.curation.overlays import change_overlay, read_overlay
from service.curation.plan import LeftOut
from service.curation.proposals import amended_row, comment, propose, propose_withdrawal, withdraw
from service.curation.publication import Publication, publish
from service.curation.records import Decision, Kind, State
from service.curation.reviews import review
from service.curation.views import Views

__all__ = [
    "CurationError",
    "Decision",
    "Impact",
    "Kind",
    "LeftOut",
    "Publication",
    "State",
    "Views",
    "amended_row",
    "change_overlay",
    "comment",
    "impact",
    "propose",
    "propose_withdrawal",
    "publish",
    "read_overlay",
    "review",
    "withdraw",
]
