"""What somebody has typed into a form of ours, without what nobody can type."""

from __future__ import annotations

from fastapi import Request

LONGEST = 4000
"""Characters of one field; a longer text is cut."""


async def texts_of(request: Request) -> dict[str, str]:
    """Return the fields of a form, with plain line ends and without control characters."""
    form = await request.form()
    return {name: _plain(str(value)) for name, value in form.items()}


def _plain(text: str) -> str:
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return "".join(char for char in lines if char in "\n\t" or char.isprintable())[:LONGEST].strip()
