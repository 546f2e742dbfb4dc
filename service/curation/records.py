"""The words in which curation speaks of a proposal."""

from __future__ import annotations

from enum import StrEnum


class Kind(StrEnum):
    """What a proposal does to its row."""

    ADD = "add"
    CHANGE = "change"
    REMOVE = "remove"


class State(StrEnum):
    """open -> approved -> published; rejected and withdrawn end it earlier."""

    OPEN = "open"
    APPROVED = "approved"
    REJECTED = "rejected"
    WITHDRAWN = "withdrawn"
    PUBLISHED = "published"


class Decision(StrEnum):
    """What a reviewer says."""

    APPROVE = "approve"
    REJECT = "reject"
