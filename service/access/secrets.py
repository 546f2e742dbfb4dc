"""The text of an API key: how it is made, read and hashed.

A key reads ``fay_<prefix>_<secret>``. The first part lets scanners of repositories and logs recognise a
leaked key, the prefix lets a person name it, and the secret is 256 random bits.

The hash is one HMAC-SHA-256. A slow hash such as scrypt exists to make guessing expensive; nobody guesses
256 random bits, and it would cost its milliseconds on the first use of every key in every process. The
pepper keeps a row that was written into the table by somebody else from being a key.
"""

from __future__ import annotations

import hashlib
import hmac
import re
import secrets
from dataclasses import dataclass

_MARK = "fay_"
_ALPHABET = "abcdefghijkmnpqrstuvwxyz23456789"
_PREFIX_LENGTH = 10
_SECRET_BYTES = 32
_FORM = re.compile(rf"{_MARK}([{_ALPHABET}]{{{_PREFIX_LENGTH}}})_([A-Za-z0-9_-]{{43}})")


@dataclass(frozen=True, slots=True)
class KeyText:
    """An API key in its two halves."""

    prefix: str
    secret: str

    def __str__(self) -> str:
        return f"{_MARK}{self.prefix}_{self.secret}"

    def __repr__(self) -> str:
        return f"KeyText(prefix={self.prefix!r})"


def new_key_text() -> KeyText:
    """Make a new key."""
    prefix = "".join(secrets.choice(_ALPHABET) for _ in range(_PREFIX_LENGTH))
    return KeyText(prefix, secrets.token_urlsafe(_SECRET_BYTES))


def parse_key_text(text: str) -> KeyText | None:
    """Read a key, or return ``None`` if the text cannot be one."""
    match = _FORM.fullmatch(text)
    return KeyText(match[1], match[2]) if match else None


def prefix_of(text: str) -> str:
    """Return what would be the prefix if the text is a key."""
    return text[len(_MARK) : len(_MARK) + _PREFIX_LENGTH]


def hash_secret(secret: str, pepper: str) -> str:
    """Hash the secret half of a key, in hexadecimal."""
    return hmac.digest(pepper.encode(), secret.encode(), "sha256").hex()


def digest_of(text: str) -> bytes:
    """Name a credential that was found valid without keeping it.

    Made for every request: BLAKE2 costs a third of SHA-256 here, which takes the way through OpenSSL.
    """
    return hashlib.blake2b(text.encode("utf-8", "replace"), digest_size=32).digest()


def is_same(first: str, second: str) -> bool:
    """Compare two texts in a time that does not tell where they differ."""
    return hmac.compare_digest(first.encode(), second.encode())
