"""Large bodies: read whole before anything is answered, but not into memory.

A caller that sends its whole body before it reads would wait for ever on a server that answers as it reads.
"""

from __future__ import annotations

import io
import tempfile
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import IO

from fastapi import Request

from service.web.errors import UnsupportedMediaTypeError

IN_MEMORY_BYTES = 1024 * 1024


async def spooled(request: Request) -> IO[bytes]:
    """Read a body into a file that is on disk only if it is large; whoever gets it closes it."""
    spool = tempfile.SpooledTemporaryFile(IN_MEMORY_BYTES)  # noqa: SIM115 - the caller closes it
    try:
        async for part in request.stream():
            spool.write(part)
    except BaseException:
        spool.close()
        raise
    spool.seek(0)
    return spool


def size_of(body: IO[bytes]) -> int:
    """Return how many bytes a body has, and go back to its start."""
    size = body.seek(0, io.SEEK_END)
    body.seek(0)
    return size


@asynccontextmanager
async def closing_spool(request: Request) -> AsyncIterator[IO[bytes]]:
    """Read a body and close the file at the end of the block."""
    spool = await spooled(request)
    try:
        yield spool
    finally:
        spool.close()


def content_type_of(request: Request, accepted: tuple[str, ...]) -> str:
    """Return the media type of a body, without its parameters.

    Raises
    ------
    UnsupportedMediaTypeError
        If it is none of those that are accepted.
    """
    written = request.headers.get("content-type", "")
    essence = written.partition(";")[0].strip().lower()
    if essence not in accepted:
        raise UnsupportedMediaTypeError(written, accepted)
    return essence
