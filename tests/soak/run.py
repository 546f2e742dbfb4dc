"""A service under load for a long time: ``make soak MINUTES=15``, or ``python -m tests.soak.run``.

Measures how much the server can do, then sends it four fifths of that, from several client processes, at a
pace that does not slow down when the server does. Meanwhile its memory is watched. The report goes to
``build/soak/``; errors or growing memory end it with status 1.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

import httpx
import numpy as np

from service.settings import LOCAL_DEVELOPMENT_KEY
from tests.acceptance.processes import PROJECT, environment, faying, serving
from tests.soak.clients import CLIENTS, Tally, call_together
from tests.soak.mix import SHARES

SHARE_OF_CEILING = 0.8
SETTLING = 1 / 3
"""Share of the run in which caches fill, so that memory may grow."""
MOST_GROWTH_MB = 8.0
MOST_GROWTH = 0.05
"""Of what the server had when it had settled, or ``MOST_GROWTH_MB`` if that is more."""
OUTPUT = PROJECT / "build" / "soak"
GENEROUS = {
    "FAYING_REQUESTS_PER_MINUTE": "100000000",
    "FAYING_REQUEST_BURST": "100000000",
    "FAYING_LOG_LEVEL": "WARNING",
    # Full within minutes, so that what grows later is a leak.
    "FAYING_ANSWER_CACHE_BYTES": str(8 * 2**20),
    "FAYING_BATCH_CACHE_BYTES": str(4 * 2**20),
}


@dataclass
class Memory:
    """Resident memory of a process over time."""

    pid: int
    at_s: list[float] = field(default_factory=list)
    megabytes: list[float] = field(default_factory=list)

    def look(self) -> None:
        """Take a sample, and wait for the next."""
        for line in Path(f"/proc/{self.pid}/status").read_text(encoding="ascii").splitlines():
            if line.startswith("VmRSS:"):
                self.at_s.append(time.monotonic())
                self.megabytes.append(int(line.split()[1]) / 1024)
        time.sleep(1.0)


def growth_mb(at_s: list[float], megabytes: list[float]) -> tuple[float, float]:
    """Return where memory had settled, and what the straight line through the rest adds to it."""
    start = int(len(at_s) * SETTLING)
    slope, base = np.polyfit(np.array(at_s[start:]) - at_s[start], megabytes[start:], 1)
    return float(base), float(slope * (at_s[-1] - at_s[start]))


def is_flat(settled_mb: float, grown_mb: float) -> bool:
    """Tell whether a growth is within what allocation makes of constant work."""
    return grown_mb <= max(MOST_GROWTH_MB, MOST_GROWTH * settled_mb)


def report(minutes: float, ceiling: float, tally: Tally, memory: Memory) -> tuple[str, bool]:
    """Write the report; tell whether all is well."""
    settled_mb, grown_mb = growth_mb(memory.at_s, memory.megabytes)
    is_well = not tally.errors and is_flat(settled_mb, grown_mb)
    every = np.concatenate([np.array(each) for each in tally.seconds.values()]) * 1000
    load = os.getloadavg()[0]
    sent = SHARE_OF_CEILING * ceiling
    lines = [
        f"{minutes:g} minutes, {CLIENTS} clients, {os.cpu_count()} cores, load average {load:.1f}",
        f"ceiling {ceiling:.0f} requests/s; sent at {sent:.0f}/s: {tally.count} requests",
        f"errors {tally.errors}",
        f"memory {settled_mb:.0f} MB settled, {grown_mb:+.1f} MB since, at most {max(memory.megabytes):.0f}",
        f"all: p50 {np.percentile(every, 50):.1f} ms, p99 {np.percentile(every, 99):.1f} ms",
        *(f"  {name}: {_percentiles(tally, name)}" for name in SHARES),
        *(f"  wrong: {example}" for example in tally.examples),
        "all is well" if is_well else "NOT WELL",
    ]
    return "\n".join(lines) + "\n", is_well


def _percentiles(tally: Tally, name: str) -> str:
    found = np.array(tally.seconds.get(name, [])) * 1000
    if not len(found):
        return "none"
    return f"{len(found)}, p50 {np.percentile(found, 50):.1f} ms, p99 {np.percentile(found, 99):.1f} ms"


def run(minutes: float, probe_s: float) -> bool:
    """Start a server and soak it."""
    OUTPUT.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        env = environment(Path(folder) / "soak.sqlite3", **GENEROUS)
        done = faying("setup", env=env)
        if done.status:
            raise RuntimeError(done.complaint)
        with serving(env, log=OUTPUT / "server.log") as server:
            address = httpx.URL(server.address)
            place, key = (address.host, address.port or 0), LOCAL_DEVELOPMENT_KEY
            memory = Memory(server.process.pid)
            probed = call_together(place, key, probe_s, None, lambda: time.sleep(0.2))
            ceiling = probed.count / probe_s
            tally = call_together(place, key, 60 * minutes, SHARE_OF_CEILING * ceiling, memory.look)
            tally.errors += probed.errors
            tally.examples += probed.examples
    text, is_well = report(minutes, ceiling, tally, memory)
    (OUTPUT / "report.txt").write_text(text, encoding="utf-8")
    sys.stdout.write(text)
    return is_well


def main() -> None:
    """Read the options and run."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=15.0)
    parser.add_argument("--probe-seconds", type=float, default=20.0, help="how long the ceiling is measured")
    given = parser.parse_args()
    sys.exit(0 if run(given.minutes, given.probe_seconds) else 1)


if __name__ == "__main__":
    main()
