"""The OpenAPI document from the command line."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer


def openapi(
    output: Annotated[Path | None, typer.Option(help="File to write; standard output unless given.")] = None,
) -> None:
    """Write the OpenAPI document of this version."""
    from service.web.api import assemble
    from service.web.openapi import write

    content = write(assemble().openapi())
    if output:
        output.write_bytes(content)
    else:
        sys.stdout.write(content.decode())
