"""Policies that a tenant keeps under a name."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.jobs import JobDocument


class PoliciesQuery(Schema):
    """Which stored policies are listed."""

    limit: int = described("Most policies in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described("From the page before.", "Im5pIg", None, max_length=200)


class PolicyQuery(Schema):
    """Which version of a policy is read."""

    version: int | None = described(
        "An earlier version; the one in force if absent.", 1, None, ge=1, le=999_999_999
    )


class StoredPolicy(Schema):
    """A version of a policy. A version never changes; a new one follows it."""

    name: str = described("What the caller calls it.", "port-of-skerrivoe")
    version: int = described("Number of the version; also its entity tag.", 3)
    reference: str = described("What names this version in `stored_policy`.", "port-of-skerrivoe@3")
    sha256: str = described("Hash of its content, as answers name it.", "5b" * 32)
    created_at: datetime = described("When this version was stored.", "2026-11-25T09:00:00Z")
    created_by: str = described("Identifier of the key that stored it.", "key_0069f3b2c1d4e5")


class StoredPolicyWithBody(StoredPolicy):
    """The same with its rules."""

    policy: dict[str, Any] = described("What was stored.", {"name": "Port of Skerrivoe", "version": "3"})


class PolicyOutcome(Schema):
    """A policy as it was stored, and the job that judges what names it again."""

    policy: StoredPolicy = nested("The policy.")
    job: JobDocument | None = nested(
        "The job that judges stored assemblies that name it; null if none does, or nothing is new.", None
    )


class PolicyPage(Schema):
    """Stored policies by name, each in the version that is in force."""

    items: tuple[StoredPolicy, ...] = nested("The policies of this page.")
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)
