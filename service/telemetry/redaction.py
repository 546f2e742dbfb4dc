"""The last net under secrets: whatever is logged, by whichever way, goes through here.

Nothing is meant to log a secret. But a traceback shows what an exception says, and a caller may put its key
where a path or a name is expected.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable

REDACTED = "[redacted]"
SHORTEST = 6
"""A secret with fewer characters is a part of ordinary words, and protects nothing."""

_FORMS = (
    (re.compile(r"(fay_[a-z0-9]{1,32}_)[A-Za-z0-9_-]+"), rf"\1{REDACTED}"),
    (re.compile(r"\beyJ[A-Za-z0-9_-]*(?:\.[A-Za-z0-9_-]*){1,2}"), REDACTED),
    (re.compile(r"(whsec_)[A-Za-z0-9+/=_-]+"), rf"\1{REDACTED}"),
    (re.compile(r"(://[^/\s:@\"']*:)[^@\s\"']+@"), rf"\1{REDACTED}@"),
)


class Redaction:
    """Takes secrets out of lines: those of known forms, and those that it was told."""

    def __init__(self, secrets: Iterable[str] = ()) -> None:
        told = {secret for secret in secrets if len(secret) >= SHORTEST}
        # In a JSON line a secret may be written with escapes.
        written = told | {json.dumps(each)[1:-1] for each in told}
        self._told = tuple(sorted(written, key=len, reverse=True))

    def __call__(self, line: str) -> str:
        """Return a line without secrets."""
        for secret in self._told:
            if secret in line:
                line = line.replace(secret, REDACTED)
        # Written out, because this runs for every request.
        if "fay_" in line or "eyJ" in line or "whsec_" in line or "://" in line:
            for form, replacement in _FORMS:
                line = form.sub(replacement, line)
        return line
