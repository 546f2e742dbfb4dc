from __future__ import annotations

import subprocess
import sys

from typer.testing import CliRunner

from service.__main__ import app


def test_help_names_every_command() -> None:
    shown = CliRunner().invoke(app, ["--help"]).stdout
    for name in (
        "serve",
        "worker",
        "judge",
        "setup",
        "migrate",
        "seed",
        "check-data",
        "release",
        "key",
        "openapi",
    ):
        assert name in shown


def test_an_unknown_command_is_refused_without_a_traceback() -> None:
    result = CliRunner().invoke(app, ["frobnicate"])
    assert result.exit_code == 2
    assert "No such command" in result.stderr
    assert "Traceback" not in result.stderr


def test_the_package_runs_as_a_module() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "service", "--help"], capture_output=True, text=True, check=True
    )
    assert done.stdout.startswith("Usage: faying")
