"""What commands print: lines whole, so that scripts can read them, and tables as wide as there is room."""

from __future__ import annotations

import os
import sys

from rich.console import Console, RenderableType

WIDTH_IN_A_PIPE = 200
"""Columns of a table that no terminal shows."""


def console() -> Console:
    """Return a console for the standard output as it is now."""
    is_shown = sys.stdout.isatty() or "COLUMNS" in os.environ
    return Console(highlight=False, width=None if is_shown else WIDTH_IN_A_PIPE)


def say(line: str) -> None:
    """Print a line as it is, never folded."""
    sys.stdout.write(f"{line}\n")


def display(content: RenderableType) -> None:
    """Print a table or a text with headings."""
    console().print(content)
