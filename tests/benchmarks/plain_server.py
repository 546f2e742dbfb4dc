"""Applications to compare with, on the same server with the same options as ``faying serve``.

``bare`` returns bytes that were recorded; ``chainless`` is the service without the layer in front.
Called as ``python -m tests.benchmarks.plain_server KIND PORT [FILE]``.
"""

from __future__ import annotations

import pickle
import sys
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from starlette.types import ASGIApp, Receive, Scope, Send

Recorded = tuple[int, list[tuple[bytes, bytes]], bytes]


def bare(recorded: dict[str, Recorded]) -> ASGIApp:
    """Answer each path with what was recorded for it."""

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await receive()
            await send({"type": "lifespan.startup.complete"})
            await receive()
            await send({"type": "lifespan.shutdown.complete"})
            return
        status, headers, body = recorded.get(scope["path"], recorded["/"])
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": body})

    return app


def chainless() -> ASGIApp:
    """The service without its layer in front: routes, handlers, and a caller who is known."""
    from service.access.keys import DEVELOPMENT
    from service.app import create_app
    from service.settings import Settings

    inner = create_app(Settings(), owns_process=True)
    chain = inner.build_middleware_stack()

    async def app(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "http":
            scope["app"] = inner
            scope["state"] |= {"principal": DEVELOPMENT, "request_id": "-"}
            await chain(scope, receive, send)
        else:
            await inner(scope, receive, send)

    return app


@asynccontextmanager
async def no_lifespan(_app: Any) -> AsyncIterator[None]:
    """Do nothing before and after."""
    yield


def main() -> None:
    """Serve."""
    import uvicorn

    kind, port, *file = sys.argv[1:]
    # The file was written by the benchmark that starts this process.
    app = bare(pickle.loads(Path(file[0]).read_bytes())) if kind == "bare" else chainless()  # noqa: S301
    uvicorn.run(app, port=int(port), log_config=None, server_header=False)


if __name__ == "__main__":
    main()
