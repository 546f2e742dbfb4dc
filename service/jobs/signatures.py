"""Signatures of webhooks by the open specification Standard Webhooks, symmetric scheme ``v1``.

The signed content is ``id.timestamp.body``, the signature ``v1,`` and the base64 of its HMAC-SHA256, the
secret ``whsec_`` and the base64 of its bytes (standardwebhooks.com, specification, "Signature scheme").
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import secrets

PREFIX = "whsec_"
VERSION = "v1"
SECRET_BYTES = 32
"""The specification asks for 24 to 64."""

ID, TIMESTAMP, SIGNATURE = "webhook-id", "webhook-timestamp", "webhook-signature"


def new_secret() -> str:
    """Make a secret."""
    return PREFIX + base64.b64encode(secrets.token_bytes(SECRET_BYTES)).decode()


def signed_headers(secret: str, message_id: str, timestamp_s: int, body: bytes) -> dict[str, str]:
    """Return the three headers that a message carries."""
    return {
        ID: message_id,
        TIMESTAMP: str(timestamp_s),
        SIGNATURE: signature(secret, message_id, timestamp_s, body),
    }


def signature(secret: str, message_id: str, timestamp_s: int, body: bytes) -> str:
    """Sign a message."""
    content = f"{message_id}.{timestamp_s}.".encode() + body
    digest = hmac.new(_key(secret), content, hashlib.sha256).digest()
    return f"{VERSION},{base64.b64encode(digest).decode()}"


def _key(secret: str) -> bytes:
    return base64.b64decode(secret.removeprefix(PREFIX))
