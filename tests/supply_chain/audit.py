"""``make audit``: known vulnerabilities of what is locked, in words that cannot be mistaken for good news.

pip-audit ends well although it could look nothing up, where no vulnerability service can be reached or the
package index gives no advisories. Here whatever was not looked up is a failure of its own, told in one line.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Mapping, Sequence
from typing import Any

from tests.supply_chain.lock import LOCK

SOUND, VULNERABLE, UNKNOWN = 0, 1, 2


def main(tool: str) -> int:
    """Run pip-audit, say what it found, and return the status to end with."""
    command = [tool, "--require-hashes", "--disable-pip", "--progress-spinner", "off", "--format", "json"]
    done = subprocess.run([*command, "--requirement", str(LOCK)], capture_output=True, text=True, check=False)
    status, lines = outcome(done.stdout, done.stderr)
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    return status


def outcome(report: str, said: str) -> tuple[int, Sequence[str]]:
    """Return the status and the lines to show for what pip-audit has written and said."""
    try:
        found = json.loads(report)["dependencies"]
    except (ValueError, KeyError, TypeError):
        last = (said.strip().splitlines() or ["it said nothing"])[-1]
        return UNKNOWN, [f"audit: nothing was looked up, no vulnerability service answered: {last}"]
    skipped = [each for each in found if "skip_reason" in each]
    vulnerable = [each for each in found if each.get("vulns")]
    lines = [line for each in vulnerable for line in _advisories(each)]
    if skipped or not found:
        lines.append(
            f"audit: {len(skipped)} of {len(found)} packages could not be looked up: no vulnerability "
            "service answered for them, and nothing is known about them"
        )
        return UNKNOWN, lines
    lines.append(f"audit: {len(vulnerable)} of {len(found)} packages have known vulnerabilities")
    return (VULNERABLE if vulnerable else SOUND), lines


def _advisories(package: Mapping[str, Any]) -> Sequence[str]:
    return [
        f"{package['name']} {package['version']}: {each['id']}, mended in "
        f"{', '.join(each['fix_versions']) or 'no version'}"
        for each in package["vulns"]
    ]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
