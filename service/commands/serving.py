"""Starting the server."""

from __future__ import annotations

import socket
from typing import Annotated

import typer

from service.commands.errors import Failure
from service.commands.places import configured, require_schema, require_sound_release
from service.settings import Settings


def serve(
    host: Annotated[str | None, typer.Option(help="Address to listen on.")] = None,
    port: Annotated[int | None, typer.Option(help="Port to listen on; 0 takes a free one.")] = None,
    *,
    greet: Annotated[bool, typer.Option("--greet", help="Print a first answer and the addresses.")] = False,
) -> None:
    """Start the server."""
    settings = configured(host=host, port=port)
    require_schema(settings)
    require_sound_release(settings)
    listening = listen(settings)
    # Only this command needs the web framework and the server.
    import uvicorn

    from service.app import create_app
    from service.commands.greeting import GreetingServer
    from service.web.patience import patient

    config = uvicorn.Config(
        create_app(settings, owns_process=True),
        http=patient(settings.slow_client_s),
        log_config=None,
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=20,
    )
    server = GreetingServer(config, settings) if greet else uvicorn.Server(config)
    server.run(sockets=[listening])
    if not server.started:
        raise Failure("the server did not start; the log above says why")


def listen(settings: Settings) -> socket.socket:
    """Take the port before anything is built, so that a busy one is known at once.

    Raises
    ------
    Failure
        If another program has it, or the address is not this machine's.
    """
    family = socket.AF_INET6 if ":" in settings.host else socket.AF_INET
    # Connections inherit the protocol, by which the event loop knows to switch Nagle's delay off.
    sock = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    sock.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        sock.bind((settings.host, settings.port))
        sock.listen(2048)
    except OSError as error:
        sock.close()
        place = f"{settings.host}:{settings.port}"
        raise Failure(
            f"cannot listen on {place}: {error.strerror}; FAYING_PORT names another port"
        ) from error
    sock.set_inheritable(True)
    return sock
