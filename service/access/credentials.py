"""What keys and tokens have in common for whoever lets requests pass."""

from __future__ import annotations

from typing import Protocol

from service.access.principals import Principal


class CredentialRing(Protocol):
    """Credentials of one kind, with a memory of those that were checked lately."""

    def recall(self, text: str) -> Principal | None:
        """Return the holder of a credential that is fresh in memory, without any reading."""

    def verify(self, text: str) -> Principal:
        """Return the holder of a credential, checking it anew unless memory knows it freshly."""
