"""What callers do all day, in the shares in which they do it: mostly ask what was asked before."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from http.client import HTTPConnection, HTTPResponse
from itertools import pairwise
from typing import Any
from urllib.parse import quote, urlencode

TEXTS = (
    "EN AW-6082-T6", "A4-80", "S235JR, HDG ISO 1461", "CW024A", "CuSn8", "1.4404", "Ti-6Al-4V", "CW614N",
    "EN AW-6082-T6, anodized 15 µm", "CW024A, tin plated 5 µm",
)  # fmt: skip
PLACES = ("marine-atmosphere-0-100-m", "heated-indoor", "harbour-quay-spray")
COUPLES = [
    f"/v1/couples?{urlencode({'first': first, 'second': second, 'environment': place})}"
    for place in PLACES
    for first, second in pairwise(TEXTS)
]
PATIENCE_S = 60.0
NDJSON = {"Content-Type": "application/x-ndjson"}


class WrongAnswerError(Exception):
    """The service gave an answer that it should not give."""


@dataclass
class Caller:
    """One client with one connection. Each method is one thing to do and checks what comes back."""

    host: str
    port: int
    key: str
    number: int
    chance: random.Random
    tags: dict[str, str] = field(default_factory=dict)
    cursor: str = "/v1/materials?limit=20"

    def __post_init__(self) -> None:
        self.connection = HTTPConnection(self.host, self.port, timeout=PATIENCE_S)

    def known_couple(self) -> None:
        """Ask what was asked before."""
        address = self.chance.choice(COUPLES)
        self.tags[address] = self._send("GET", address, 200)[1].headers["etag"]

    def unchanged_couple(self) -> None:
        """Ask whether an answer is still the same."""
        address = self.chance.choice(COUPLES)
        if address in self.tags:
            self._send("GET", address, 304, headers={"If-None-Match": self.tags[address]})
        else:
            self.known_couple()

    def new_couple(self) -> None:
        """Ask what nobody has asked."""
        self._post("/v1/couples", self._couple())

    def resolve(self) -> None:
        """Read drawing texts."""
        texts = [f"{text} {self.chance.randint(1, 99)}" for text in TEXTS[:4]]
        self._post("/v1/resolve", {"texts": texts})

    def page(self) -> None:
        """Turn a page of a list."""
        body = json.loads(self._send("GET", self.cursor, 200)[0])
        self.cursor = body["next"] or "/v1/materials?limit=20"

    def batch(self) -> None:
        """Judge a few dozen couples at once."""
        lines = b"\n".join(json.dumps(self._couple()).encode() for _ in range(40))
        body, _ = self._send("POST", "/v1/couples/batch?view=decision", 200, lines, NDJSON)
        last = json.loads(body.splitlines()[-1])
        if (last["complete"], last["count"], last["failed"]) != (True, 40, 0):
            raise WrongAnswerError(last)

    def assembly(self) -> None:
        """Check an assembly."""
        self._post("/v1/assemblies/check", self._assembly())

    def store(self) -> None:
        """Store an assembly under one of a few names, and read it back."""
        address = f"/v1/assemblies/stored/{quote(f'caller-{self.number}-{self.chance.randint(0, 4)}')}"
        body = json.dumps(self._assembly()).encode()
        self._send("PUT", address, (200, 201), body, {"Content-Type": "application/json"})
        self._send("GET", address, 200)

    def job(self) -> None:
        """Put a small job in, and look at what there is."""
        lines = b"\n".join(json.dumps(self._couple()).encode() for _ in range(20))
        self._send("POST", "/v1/jobs?kind=batch&view=decision", 202, lines, NDJSON)
        self._send("GET", "/v1/jobs?limit=5", 200)

    def _couple(self) -> dict[str, Any]:
        first, second = self.chance.sample(TEXTS, 2)
        return {
            "first": first,
            "second": second,
            "environment": self.chance.choice(PLACES),
            "first_area_cm2": round(self.chance.uniform(1, 1000), 3),
        }

    def _assembly(self) -> dict[str, Any]:
        parts = [{"part_number": str(number), "surface": self.chance.choice(TEXTS)} for number in range(6)]
        joints = [{"id": f"J{number}", "first": "0", "second": str(number)} for number in range(1, 6)]
        return {"parts": parts, "joints": joints, "programme": {"environment": self.chance.choice(PLACES)}}

    def _post(self, address: str, body: object) -> None:
        self._send("POST", address, 200, json.dumps(body).encode(), {"Content-Type": "application/json"})

    def _send(
        self,
        method: str,
        address: str,
        expected: int | tuple[int, ...],
        body: bytes | None = None,
        headers: dict[str, str] | None = None,
    ) -> tuple[bytes, HTTPResponse]:
        try:
            self.connection.request(
                method, address, body, {"Authorization": f"Bearer {self.key}", **(headers or {})}
            )
            response = self.connection.getresponse()
            content = response.read()
        except OSError:
            self.connection.close()  # it connects anew at the next request
            raise
        if response.status not in (expected if isinstance(expected, tuple) else (expected,)):
            raise WrongAnswerError(method, address, response.status, content[:300])
        return content, response


SHARES: dict[str, tuple[Callable[[Caller], None], float]] = {
    "known couple": (Caller.known_couple, 0.60),
    "unchanged couple": (Caller.unchanged_couple, 0.15),
    "new couple": (Caller.new_couple, 0.10),
    "resolve": (Caller.resolve, 0.05),
    "page of a list": (Caller.page, 0.05),
    "batch of 40": (Caller.batch, 0.015),
    "assembly check": (Caller.assembly, 0.015),
    "store and read": (Caller.store, 0.015),
    "job of 20": (Caller.job, 0.005),
}
"""What is done, and how often."""


def choices(chance: random.Random) -> Iterator[tuple[str, Callable[[Caller], None]]]:
    """Go on choosing for ever."""
    names = list(SHARES)
    weights = [share for _, share in SHARES.values()]
    while True:
        for name in chance.choices(names, weights, k=200):
            yield name, SHARES[name][0]
