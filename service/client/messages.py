"""Messages of webhooks: who receives one checks its signature before believing it.

The scheme is that of the open specification Standard Webhooks, symmetric ``v1``: HMAC-SHA256 of
``id.timestamp.body``.
"""

from __future__ import annotations

import base64
import datetime as dt
import hashlib
import hmac
import time
from collections.abc import Mapping
from typing import Any

from service.client.errors import ForgedMessageError
from service.client.flows import read
from service.client.record import Record

TOLERANCE_S = 300.0
"""How far the clocks may differ, as the specification suggests."""

_PREFIX = "whsec_"
_VERSION = "v1,"


class Change(Record, frozen=True, kw_only=True):
    """What happened, as the line of the feed with the same serial says it."""

    serial: int
    subject: str
    detail: dict[str, Any]


class Message(Record, frozen=True, kw_only=True):
    """A message of a webhook."""

    type: str
    timestamp: dt.datetime
    data: Change


def open_message(secret: str, headers: Mapping[str, str], body: bytes) -> Message:
    """Check a message's signature and age, and read it.

    Messages come at least once: ``data.serial`` tells whether one was seen already.

    Raises
    ------
    ForgedMessageError
        If it was not signed with the secret, or is older or newer than five minutes.
    """
    found = {name.lower(): value for name, value in headers.items()}
    identifier, moment = found.get("webhook-id", ""), found.get("webhook-timestamp", "")
    if not moment.isdecimal() or abs(time.time() - int(moment)) > TOLERANCE_S:
        message = "the message is too old, or from the future"
        raise ForgedMessageError(message)
    key = base64.b64decode(secret.removeprefix(_PREFIX))
    digest = hmac.new(key, f"{identifier}.{moment}.".encode() + body, hashlib.sha256).digest()
    expected = _VERSION + base64.b64encode(digest).decode()
    if not any(hmac.compare_digest(expected, each) for each in found.get("webhook-signature", "").split()):
        message = "no signature of the message is that of this webhook"
        raise ForgedMessageError(message)
    return read(body, Message)
