"""The feed of changes, and webhooks that carry it."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, StringConstraints

from service.web.pagination import DEFAULT_PAGE_SIZE, MAX_PAGE_SIZE
from service.web.schemas.fields import LOOSE, BodySchema, Schema, described, nested

MAX_WEBHOOKS = 50
MOST_SERIAL = 10**15
WEBHOOK_ID = "webhook_0069f3b2c1d4e55f2a9c3b7e1d4f60"
EVENTS = (
    "`verdicts.created`, `verdicts.corrected`, `verdicts.regraded`, `verdicts.withdrawn` (of stored "
    "assemblies), `release.published`, `release.imported`, `overlay.misfit` (the own overlay names what "
    "a release does not hold), `webhook.disabled`"
)
EventKind = Annotated[str, StringConstraints(pattern=r"^(\*|[a-z]+\.[a-z]+)$", max_length=60)]


def _whole(value: object) -> object:
    """JSON knows one sort of numbers: 7.0 is 7."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


Serial = Annotated[int, Field(ge=0, le=MOST_SERIAL), BeforeValidator(_whole)]


class ChangesQuery(Schema):
    """Where in the feed to begin."""

    after: int = described("Serial of the last line that the caller has seen.", 1041, 0, ge=0, le=MOST_SERIAL)
    kind: Annotated[tuple[EventKind, ...], LOOSE] = described(
        f"Only these kinds: {EVENTS}.", ["verdicts.corrected"], (), max_length=20
    )
    limit: int = described("Most lines in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)


class ChangeLine(Schema):
    """Something happened. Lines stay for ever, also those about what is gone."""

    serial: int = described("Place in the feed; a later line has a larger one.", 1042)
    happened_at: datetime = described("When it happened.", "2026-11-25T09:00:00Z")
    kind: str = described(f"What happened: {EVENTS}.", "verdicts.corrected")
    subject: str = described("What it happened to: an assembly, a release, an answer.", "tide-gauge")
    detail: dict[str, Any] = described(
        "The facts; of verdicts each joint with what was said before and after and because of which change.",
        {"reason": "the knowledge base has changed", "joints": []},
    )


class ChangePage(Schema):
    """Lines of the feed, the oldest first."""

    items: tuple[ChangeLine, ...] = nested("The lines of this page.")
    after: int = described("Serial of the last line; what to ask for next.", 1042)
    next: str = described(
        "Address of what follows, now or later; also in the Link header.", "/v1/changes?after=1042"
    )


class WebhookRequest(BodySchema):
    """An address that wants to be told."""

    url: str = described(
        "Public https address.",
        "https://plm.skerrivoe.example/faying",
        max_length=2000,
        pattern=r"^https?://\S+$",
    )
    events: Annotated[tuple[EventKind, ...], LOOSE] = described(
        f"Kinds of changes: {EVENTS}; `*` for all.", ["verdicts.corrected"], min_length=1, max_length=20
    )
    after: Serial | None = described(
        "Serial after which it is told; what happens from now on if absent.", 1041, None
    )


class Webhook(Schema):
    """An address that is told of changes, in messages signed by Standard Webhooks, scheme `v1`."""

    id: str = described("Identifier.", WEBHOOK_ID)
    url: str = described("Where messages go.", "https://plm.skerrivoe.example/faying")
    events: tuple[str, ...] = described("Kinds of changes that it is told of.", ["verdicts.corrected"])
    after: int = described("Serial up to which messages were made.", 1042)
    created_at: datetime = described("When it was made.", "2026-11-25T09:00:00Z")
    disabled_at: datetime | None = described(
        "Since when nothing is sent, if so; replaying starts it again.", None
    )
    failures: int = described("Attempts that failed since the last success.", 0)


class NewWebhook(Webhook):
    """A webhook just made, with its secret, which is shown this once."""

    secret: str = described("Secret that signs the messages.", "whsec_C2FVsBQIhrscChlQIMV+b5sSYspob7oD")


class WebhookList(Schema):
    """All webhooks of the caller's tenant."""

    items: tuple[Webhook, ...] = nested("The webhooks, the oldest first.")


class DeliveriesQuery(Schema):
    """Which messages are listed."""

    state: str | None = described(
        "`due`, `delivered` or `given up`.", "due", None, pattern="^(due|delivered|given up)$"
    )
    limit: int = described("Most messages in the page.", 50, DEFAULT_PAGE_SIZE, ge=1, le=MAX_PAGE_SIZE)
    cursor: str | None = described("From the page before.", "Im5pIg", None, max_length=200)


class WebhookDelivery(Schema):
    """One message on its way."""

    id: str = described("Identifier: the `webhook-id` of the message.", "delivery_0069f3b2c1d4e5")
    serial: int = described("Line of the feed that it carries.", 1042)
    state: str = described("`due`, `delivered` or `given up`.", "delivered")
    attempts: int = described("Attempts so far.", 1)
    due_at: datetime = described("When the next attempt is due, if one is.", "2026-11-25T09:00:05Z")
    last_status: int | None = described("Status that the last attempt was answered with.", 204)
    last_error: str = described("Why the last attempt failed.", "")
    delivered_at: datetime | None = described("When it was taken.", "2026-11-25T09:00:00Z")


class DeliveryPage(Schema):
    """Messages to a webhook, the newest first."""

    items: tuple[WebhookDelivery, ...] = nested("The messages of this page.")
    next: str | None = described("Address of the next page, also in the Link header; null at the end.", None)


class ReplayRequest(BodySchema):
    """From where to tell again."""

    after: Serial = described("Serial after which everything is sent again.", 1041)
