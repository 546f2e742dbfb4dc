"""Starting a worker: jobs, the watch over assemblies, webhooks."""

from __future__ import annotations

import asyncio
import signal

from service import telemetry
from service.commands.errors import Failure
from service.commands.places import configured, require_schema, require_sound_release
from service.settings import Settings


def worker() -> None:
    """Work on jobs until it is told to stop; start as many as there are cores to spare.

    The embedded default needs none: it works in the server's process.
    """
    settings = configured()
    if settings.is_embedded:
        raise Failure("SQLite is worked on by the server itself; workers need PostgreSQL")
    require_schema(settings)
    require_sound_release(settings)
    telemetry.set_up(settings.log_level, secrets=settings.secrets)
    asyncio.run(_work(settings))


async def _work(settings: Settings) -> None:
    # Only this command needs the wiring and the queue.
    from service.app import open_services, suit_the_interpreter, telling
    from service.jobs.crew import Crew

    told = asyncio.Event()
    for number in (signal.SIGINT, signal.SIGTERM):
        asyncio.get_running_loop().add_signal_handler(number, told.set)
    services = open_services(settings)
    suit_the_interpreter()
    crew = Crew(services.work, settings).start()
    try:
        with telling(services):
            await crew.serve(told.wait)
    finally:
        await asyncio.to_thread(crew.close)
        services.answers.close()
        services.database.close()
