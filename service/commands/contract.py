"""The OpenAPI document from the command line."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from service.commands.client_document import write_client


def openapi(
    output: Annotated[Path | None, typer.Option(help="File to write; standard output unless given.")] = None,
    client: Annotated[
        Path | None, typer.Option(help="Folder for the part of the client that follows from the document.")
    ] = None,
) -> None:
    """Write the OpenAPI document of this version."""
    from service.web.api import assemble
    from service.web.openapi import write

    document = assemble().openapi()
    content = write(document)
    if client:
        write_client(document, client)
    if output:
        output.write_bytes(content)
    else:
        sys.stdout.write(content.decode())
