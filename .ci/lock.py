#!/usr/bin/env python3
"""Write requirements.lock: every package with the hashes of all its files, and no host.

Two sections in one file. What the service needs comes first, so that a container can stop reading
at the marker; what its contributors need follows. Called by ``make lock`` with pip-tools at hand.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

LOCK = Path("requirements.lock")
MARKER = "# --- development: not needed to run the service ---"
HEADER = "# Resolved for Python 3.11 by `make lock`; hashes of all files of each version. Do not edit.\n"
RUNTIME = ["--extra=server", "--extra=postgresql", "--extra=build"]
OPTIONS = [
    "--quiet", "--generate-hashes", "--allow-unsafe", "--strip-extras", "--no-header", "--no-emit-index-url",
    "--no-emit-trusted-host", "--no-emit-find-links", "--no-emit-options",
]  # fmt: skip


def resolve(folder: Path, name: str, *more: str) -> str:
    """Return what pip-compile makes of the project with some of its extras."""
    output = folder / name
    if LOCK.exists() and "--upgrade" not in sys.argv:
        output.write_text(LOCK.read_text())
    command = [
        sys.executable,
        "-m",
        "piptools",
        "compile",
        *OPTIONS,
        *more,
        "-o",
        str(output),
        "pyproject.toml",
    ]
    subprocess.run(command, check=True)
    return output.read_text()


def entries(text: str) -> dict[str, str]:
    """Split a lock into its packages, each with its hashes and the comment on who wants it."""
    found = re.split(r"^(?=[a-zA-Z0-9])", text, flags=re.MULTILINE)
    return {entry.split("==")[0]: entry for entry in found if "==" in entry}


def main() -> None:
    """Resolve twice and write the two sections."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        runtime = entries(resolve(folder, "runtime.txt", *RUNTIME))
        whole = entries(resolve(folder, "whole.txt", *RUNTIME, "--extra=dev"))
    development = [entry for package, entry in whole.items() if package not in runtime]
    differing = [
        package for package, entry in runtime.items() if entry.split()[0] != whole[package].split()[0]
    ]
    if differing:
        sys.exit(f"the service and its tests resolve to different versions of {', '.join(differing)}")
    text = HEADER + "".join(runtime.values()) + MARKER + "\n" + "".join(development)
    if "://" in text:
        sys.exit("a host got into the lock file")
    LOCK.write_text(text)


if __name__ == "__main__":
    main()
