"""A worker as its own process, on PostgreSQL."""

from __future__ import annotations

import signal
import subprocess
import sys
import time

from tests.acceptance.processes import PATIENCE_S, PROJECT, environment, faying


def test_a_worker_starts_and_ends_when_it_is_told(postgresql_url: str) -> None:
    env = environment(postgresql_url)
    assert faying("release", "publish", env=env).status == 0
    process = subprocess.Popen(
        [sys.executable, "-m", "service", "worker"], cwd=PROJECT, env=env, stderr=subprocess.PIPE, text=True
    )
    try:
        assert process.stderr
        assert "release open" in process.stderr.readline()
        time.sleep(1)
        process.send_signal(signal.SIGTERM)
        assert process.wait(PATIENCE_S) == 0
        assert "Traceback" not in process.stderr.read()
    finally:
        process.kill()
        process.communicate()
