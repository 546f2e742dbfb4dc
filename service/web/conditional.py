"""Conditional requests (RFC 9110, section 13) and digests of content (RFC 9530)."""

from __future__ import annotations

import base64
import hashlib


def quoted(tag: str) -> str:
    """Write a strong entity tag."""
    return f'"{tag}"'


def is_match(if_none_match: str | None, etag: str) -> bool:
    """Whether a caller already holds what the quoted ``etag`` names.

    The comparison is weak, as the standard asks for GET: ``W/"x"`` matches ``"x"``.
    """
    if not if_none_match:
        return False
    if if_none_match == etag or if_none_match.strip() == "*":
        return True
    return any(_opaque(candidate) == etag for candidate in if_none_match.split(","))


def may_replace(if_match: str | None, tag: str) -> bool:
    """Whether what has this tag now may be replaced by a caller that sent ``if_match``, or nothing."""
    return if_match is None or if_match.strip() in {"*", quoted(tag)}


def _opaque(candidate: str) -> str:
    return candidate.strip().removeprefix("W/")


def repr_digest(body: bytes) -> str:
    """Return the value of the Repr-Digest header for these bytes."""
    return f"sha-256=:{base64.b64encode(hashlib.sha256(body).digest()).decode()}:"
