"""A first answer for whoever started the server."""

from __future__ import annotations

import asyncio
import socket
from typing import Any

import httpx
import uvicorn
from rich.console import Console
from rich.panel import Panel
from rich.text import Text

from service.settings import Settings

output = Console(highlight=False, soft_wrap=True)

FIRST_COUPLE = {
    "first": "EN AW-6082-T6, anodized 15 µm",
    "second": "A4-80",
    "environment": "marine-atmosphere-0-100-m",
}
"""The mast foot of the demo station: a stainless screw in an anodized aluminium flange."""


class GreetingServer(uvicorn.Server):
    """A server that asks itself a first question as soon as it listens, and prints the answer."""

    def __init__(self, config: uvicorn.Config, settings: Settings) -> None:
        super().__init__(config)
        self._settings = settings
        self._greeting: asyncio.Task[None] | None = None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Listen, then greet beside the serving."""
        await super().startup(sockets)
        if self.started:
            port = sockets[0].getsockname()[1] if sockets else self._settings.port
            self._greeting = asyncio.create_task(greet(self._settings, port))


async def greet(settings: Settings, port: int) -> None:
    """Ask the first question over the network and print what came back."""
    address = f"http://{settings.host}:{port}"
    key = settings.effective_development_key
    headers = {"Authorization": f"Bearer {key}"} if key else {}
    async with httpx.AsyncClient(base_url=address, headers=headers, timeout=60, trust_env=False) as client:
        response = await client.get("/v1/couples", params=FIRST_COUPLE)
    if response.is_success:
        output.print(
            Panel(Text(first_answer(response.json())), title="a first answer", width=100), soft_wrap=False
        )
    else:
        output.print(f"no first answer: {response.status_code} {response.reason_phrase}")
    output.print(f"documentation  {address}/docs")
    output.print(f"this answer    {response.request.url}")
    if key:
        output.print(f"API key        {key}  (this machine only)")


def first_answer(document: dict[str, Any]) -> str:
    """Return the few lines of an answer that a person reads first."""
    names = [
        document["surfaces"][side]["name"] or document["surfaces"][side]["text"]
        for side in ("first", "second")
    ]
    lines = [
        f"{names[0]} against {names[1]}, {document['environment']['name']}",
        f"{document['verdict']} (severity {document['severity']}, decided by {document['deciding_witness']})",
        document["summary"]["line"],
        *(f"- {condition['action']}" for condition in document["conditions"]),
        f"release {document['release']['label']}, engine {document['engine']}",
    ]
    return "\n".join(lines)
