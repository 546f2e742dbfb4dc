"""The whole integration in one go: check, substitute, a release that moves one figure, the signed webhook.

Run it with ``.venv/bin/python -m tests.acceptance.demo_station``. The station, the substitute and the
correction are invented; the correction stands for what a later edition of a source may bring.
"""

from __future__ import annotations

import base64
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import httpx
from standardwebhooks.webhooks import Webhook

from service.curation import Decision, propose, publish, review
from service.judgement import ENGINE_VERSION
from service.storage import Database
from service.storage.repositories.knowledge import KnowledgeRepository
from tests.acceptance.processes import PROJECT, environment, faying, serving

DEMO = PROJECT / "seed_data" / "demo"
PATIENCE_S = 30.0
Document = dict[str, Any]
Say = Callable[[str], object]


@dataclass
class Receiver:
    """An address that takes webhooks."""

    url: str = ""
    taken: list[tuple[dict[str, str], bytes]] = field(default_factory=list)


@contextmanager
def receiving() -> Iterator[Receiver]:
    """Listen for webhooks on the loopback address."""
    receiver = Receiver()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers["content-length"]))
            receiver.taken.append(({name.lower(): value for name, value in self.headers.items()}, body))
            self.send_response(204)
            self.end_headers()

        def log_message(self, *_: Any) -> None:
            """Keep quiet."""

    with ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        receiver.url = f"http://127.0.0.1:{server.server_port}/faying"
        yield receiver
        server.shutdown()
        thread.join()


def station() -> Document:
    """The demonstration station as a body: its two tables as files."""
    names = ("harbour-tide-gauge.csv", "harbour-tide-gauge-joints.csv")
    return {
        "name": "Skerrivoe tide gauge",
        "files": [
            {"name": name, "content": base64.b64encode((DEMO / name).read_bytes()).decode()} for name in names
        ],
    }


def check(client: httpx.Client, say: Say) -> Document:
    """Check the station and tell the worst."""
    report: Document = client.post("/v1/assemblies/check", json=station()).raise_for_status().json()["report"]
    say(f"checked: {report['totals']['joints']} joints, {report['totals']['by_verdict']}")
    for joint in report["joints"][:3]:
        say(f"  {joint['joint']} {joint['verdict']}: {joint['why']}")
    return report


def substitute(client: httpx.Client, say: Say) -> Document:
    """Ask whether a zinc flake bolt may take the place of the stainless one."""
    offer = {"part": "SK-1112", "substitutes": [{"ref": "offer 7", "surface": "8.8 flZn-480h-L"}]}
    asked = client.post("/v1/substitutions/check", json={**station(), **offer}).raise_for_status().json()
    outcome: Document = asked["comparison"]["substitutes"][0]
    reason = outcome["decided_by"]["detail"] if outcome["decided_by"] else "nothing speaks against it"
    say(f"substitute for SK-1112: {outcome['decision']} ({reason})")
    return outcome


def store(client: httpx.Client, say: Say) -> None:
    """Keep the station under watch and wait for its first report."""
    stored = client.put("/v1/assemblies/stored/tide-gauge", json=station()).raise_for_status().json()
    job = until(client, stored["job"]["address"], lambda found: found["state"] == "done")
    say(f"stored: job {job['state']}, {job['summary']}")


def correct(url: str, say: Say) -> str:
    """Propose an invented correction, have it reviewed by another, and publish it."""
    with closing(Database.open(url)) as database, database.writing() as session:
        rows = KnowledgeRepository(session).all_rows()["limits"]
        (limit,) = [row for row in rows if row["id"] == "anodic-index-harsh"]
        reason = "invented for the demonstration"
        proposal = propose(session, "limits", limit | {"limit_V": 0.02}, reason=reason, by="ada")
        review(session, proposal.id, Decision.APPROVE, by="grace")
        label = publish(session, by="grace", note=reason, engine=ENGINE_VERSION).release.label
    say(f"published {label}: limits anodic-index-harsh limit_V {limit['limit_V']} -> 0.02")
    return label


def verified(receiver: Receiver, secret: str, say: Say) -> Document:
    """Wait for the webhook and verify it with the library of the specification."""
    deadline = time.monotonic() + PATIENCE_S
    while not receiver.taken and time.monotonic() < deadline:
        time.sleep(0.05)
    headers, body = receiver.taken[0]
    message: Document = Webhook(secret).verify(body, headers)
    data = message["data"]
    say(f"webhook {headers['webhook-id']} verified")
    say(f"  {message['type']} of {data['subject']}, serial {data['serial']}")
    for joint in data["detail"]["joints"]:
        cause = joint["because"][0]
        say(f"  {joint['joint']}: {joint['before']['verdict']} -> {joint['after']['verdict']}")
        moved = f"{cause['field']} {cause['before']} -> {cause['after']}"
        say(f"    because {cause['table']} {cause['key'][0]} {moved}")
    return message


def until(client: httpx.Client, address: str, is_reached: Callable[[Document], bool]) -> Document:
    """Ask for something until it is as wanted."""
    deadline = time.monotonic() + PATIENCE_S
    while time.monotonic() < deadline:
        found: Document = client.get(address).raise_for_status().json()
        if is_reached(found):
            return found
        time.sleep(0.05)
    raise AssertionError(address)


def run(file: Path, say: Say = print) -> Document:
    """Go through all of it on a database that is set up; return the message that was received."""
    env = environment(
        file, FAYING_WEBHOOKS_ALLOW_PRIVATE="true", FAYING_WEBHOOK_POLL_S="0.2", FAYING_RELEASE_POLL_S="0.2"
    )
    with receiving() as receiver, serving(env) as server, server.client() as client:
        check(client, say)
        substitute(client, say)
        store(client, say)
        wanted = {"url": receiver.url, "events": ["verdicts.corrected", "verdicts.regraded"]}
        webhook = client.post("/v1/webhooks", json=wanted).raise_for_status().json()
        correct(env["FAYING_DATABASE_URL"], say)
        message = verified(receiver, webhook["secret"], say)
        feed = client.get("/v1/changes?kind=verdicts.corrected").raise_for_status().json()["items"]
        say(f"the feed says the same: serial {feed[-1]['serial']}, {feed[-1]['detail']['reason']}")
    return message


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "faying.sqlite3"
        done = faying("setup", env=environment(place))
        assert done.status == 0, done.complaint
        run(place)
