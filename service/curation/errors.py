"""What can go wrong with changing the knowledge base.

CurationError
├── UnknownTableError
├── NothingChangesError
├── UnknownRowError
├── DanglingProposalError
├── RowInUseError
├── ProposalClosedError
├── OwnProposalError
├── NotYourProposalError
├── ReasonMissingError
└── UnknownOverlayError
"""

from __future__ import annotations

from collections.abc import Sequence


class CurationError(Exception):
    """The change cannot be made."""


class UnknownTableError(CurationError):
    """The knowledge base has no such table."""

    def __init__(self, table: str) -> None:
        super().__init__(f"the knowledge base has no table {table!r}")
        self.table = table


class NothingChangesError(CurationError):
    """The proposed row is the row that is there."""

    def __init__(self, table: str, key: str) -> None:
        super().__init__(f"{table} {key!r} holds exactly this already")
        self.table = table
        self.key = key


class UnknownRowError(CurationError):
    """There is no such row to remove."""

    def __init__(self, table: str, key: str) -> None:
        super().__init__(f"no row {key!r} in {table}")
        self.table = table
        self.key = key


class DanglingProposalError(CurationError):
    """The proposed row names something that neither exists nor is proposed."""

    def __init__(self, table: str, column: str, target: str, value: str) -> None:
        super().__init__(f"{table}.{column} names {value!r}, which is not in {target}")
        self.table = table
        self.column = column
        self.target = target
        self.value = value


class RowInUseError(CurationError):
    """Other rows name the row that is to go."""

    def __init__(self, table: str, key: str, users: Sequence[tuple[str, str]]) -> None:
        super().__init__(f"{table} {key!r} is named by {len(users)} other rows")
        self.table = table
        self.key = key
        self.users = tuple(users)


class ProposalClosedError(CurationError):
    """The proposal has gone too far for this step."""

    def __init__(self, proposal_id: str, state: str) -> None:
        super().__init__(f"proposal {proposal_id!r} is {state}")
        self.proposal_id = proposal_id
        self.state = state


class OwnProposalError(CurationError):
    """Nobody reviews a proposal of their own."""

    def __init__(self, proposal_id: str) -> None:
        super().__init__(f"proposal {proposal_id!r} must be reviewed by a different key")
        self.proposal_id = proposal_id


class NotYourProposalError(CurationError):
    """Only its author withdraws a proposal."""

    def __init__(self, proposal_id: str) -> None:
        super().__init__(f"proposal {proposal_id!r} can only be withdrawn by its author")
        self.proposal_id = proposal_id


class ReasonMissingError(CurationError):
    """The step needs a reason that others can read."""

    def __init__(self) -> None:
        super().__init__("say why, in words that others can read")


class UnknownOverlayError(CurationError):
    """The tenant never had an overlay of this hash."""

    def __init__(self, overlay_hash: str) -> None:
        super().__init__(f"no overlay {overlay_hash!r}")
        self.overlay_hash = overlay_hash
