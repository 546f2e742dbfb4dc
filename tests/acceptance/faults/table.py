"""The table of faults: what happens, what the caller sees, what is lost, how it ends, and the tests of it.

``python -m tests.acceptance.faults.table`` (``make faults``) runs every test that is named here and writes
the table with what came out into ``build/faults/``. DEVELOPERS.md holds the table itself; a test compares.
"""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from xml.etree import ElementTree as ET

PROJECT = Path(__file__).resolve().parents[3]
OUTPUT = PROJECT / "build" / "faults"
NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Fault:
    """One row. ``tests`` are below ``tests/``."""

    name: str
    seen: str
    lost: str
    end: str
    tests: tuple[str, ...]


def _here(module: str, *names: str) -> tuple[str, ...]:
    return tuple(f"acceptance/faults/test_{module}.py::test_{name}" for name in names)


def _killed(*names: str) -> tuple[str, ...]:
    return tuple(f"acceptance/test_killed.py::test_{name}" for name in names)


FAULTS = (
    Fault(
        "disk full",
        "lookups 200; writes 503 `database-unavailable` with Retry-After",
        f"{NOTHING}; answers wait in memory",
        "writes go on when there is room",
        _here("disk", "a_full_disk_refuses_writes_and_goes_on_answering"),
    ),
    Fault(
        "SQLite file read-only",
        "lookups 200; writes 503",
        NOTHING,
        "the server starts and answers; writes wait for the operator",
        _here("disk", "a_file_that_takes_no_changes_still_answers"),
    ),
    Fault(
        "PostgreSQL read-only (standby)",
        "lookups and reading 200; writes 503",
        f"{NOTHING}; answers wait in memory",
        "by itself after promotion",
        _here("standby", "a_standby_answers_and_refuses_writes_until_it_is_promoted"),
    ),
    Fault(
        "PostgreSQL gone and back",
        "lookups 200; `/readyz` degraded; what needs the database 503",
        NOTHING,
        "by itself: pools reconnect, workers go on",
        _killed("a_database_that_is_restarted_delays_the_work_and_harms_nothing"),
    ),
    Fault(
        "slow head, body or reader",
        "408 `too-slow`, or the connection ends; others notice nothing",
        NOTHING,
        "after FAYING_SLOW_CLIENT_S",
        (
            *_here("slow_clients", "callers_that_stall_are_let_go_and_harm_nobody"),
            "web/test_patience.py::test_whoever_does_not_take_the_answer_is_let_go",
        ),
    ),
    Fault(
        "SIGTERM during work",
        "running responses end whole; new connections are refused",
        NOTHING,
        "jobs go on in the next process or worker",
        _here(
            "draining",
            "a_server_that_is_told_to_stop_ends_its_streams_and_leaves_its_jobs_whole",
            "a_worker_that_is_told_to_stop_hands_its_job_on",
        ),
    ),
    Fault(
        "SIGKILL of a server",
        "a stream without its closing line",
        NOTHING,
        "the same request again gives the same bytes; the client asks for the rest itself",
        _killed(
            "a_batch_that_breaks_off_shows_it_and_can_be_sent_again",
            "a_server_killed_with_its_own_workers_goes_on_when_it_is_back",
        ),
    ),
    Fault(
        "SIGKILL of a worker",
        "the job stays `running`",
        f"{NOTHING}, and nothing twice",
        "another worker takes the chunk after FAYING_JOB_STALE_S",
        _killed(
            "a_worker_killed_mid_job_loses_nothing_and_doubles_nothing",
            "a_worker_killed_while_it_judges_the_portfolio_tells_each_change_once",
        ),
    ),
    Fault(
        "SIGKILL during a migration",
        "the command dies",
        NOTHING,
        "`faying migrate` again",
        _here("sudden_death", "a_migration_that_is_killed_can_be_begun_again"),
    ),
    Fault(
        "SIGKILL during publishing, a write, a restore",
        "the command dies",
        "the change that was not confirmed",
        "none of it has happened; again",
        _here(
            "sudden_death",
            "a_publication_that_is_killed_has_not_happened",
            "a_write_that_is_killed_has_not_happened",
            "a_restore_that_is_killed_changes_nothing",
            "a_backup_that_is_killed_leaves_no_file_that_looks_like_one",
        ),
    ),
    Fault(
        "clock set back a year or ahead an hour",
        NOTHING,
        NOTHING,
        "releases, identifiers and the feed keep their order; dead work is still taken up, messages to "
        "webhooks still go out",
        (
            *_here(
                "clocks",
                "the_newest_release_stays_the_newest",
                "identifiers_stay_in_order",
                "work_whose_worker_died_goes_on",
            ),
            "jobs/test_deliveries.py::test_a_clock_that_is_set_back_delays_no_message",
        ),
    ),
    Fault(
        "damaged page of SQLite",
        "503 for what lies on it, else 200; a backup is refused",
        "what came after the last backup",
        "`faying restore`",
        _here("disk", "a_damaged_page_is_told_and_a_backup_brings_everything_back"),
    ),
    Fault(
        "damaged release",
        "one line instead of a start; a running server keeps what it has",
        NOTHING,
        "found by its hash; `faying restore`",
        (
            *_here("disk", "a_damaged_release_is_found_by_its_hash"),
            "storage/test_backup.py::test_a_release_that_was_tampered_with_is_not_saved",
        ),
    ),
    Fault(
        "damaged backup",
        "one line",
        NOTHING,
        "found by its hash; nothing is changed",
        (
            "storage/test_backup_file.py::test_no_single_flipped_bit_goes_unnoticed",
            "storage/test_backup.py::test_a_restore_that_fails_changes_nothing",
        ),
    ),
    Fault(
        "two publishers at once",
        "each its release, one after the other",
        NOTHING,
        "they queue",
        ("storage/test_releases.py::test_two_publishers_at_once_make_one_release",),
    ),
    Fault(
        "old code beside a new schema",
        NOTHING,
        NOTHING,
        "migrations only add; the old version neither migrates nor saves",
        _here(
            "old_code",
            "a_migration_only_adds",
            "a_version_works_beside_what_the_next_one_adds",
            "only_the_newer_version_migrates_and_saves",
            "a_version_refuses_tables_that_are_too_old",
        ),
    ),
)


def markdown() -> str:
    """Write the table as DEVELOPERS.md holds it."""
    lines = ["| fault | what the caller sees | what is lost | how it ends |", "|---|---|---|---|"]
    lines += [f"| {fault.name} | {fault.seen} | {fault.lost} | {fault.end} |" for fault in FAULTS]
    return "\n".join(lines)


def main() -> None:
    """Run all tests of the table and write what came out."""
    OUTPUT.mkdir(parents=True, exist_ok=True)
    report = OUTPUT / "junit.xml"
    names = sorted({f"tests/{test}" for fault in FAULTS for test in fault.tests})
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:randomly", f"--junitxml={report}", *names]
    status = subprocess.run(command, cwd=PROJECT, check=False).returncode
    text = outcomes(report)
    (OUTPUT / "faults.txt").write_text(text, encoding="utf-8")
    sys.stdout.write(text)
    sys.exit(status)


def outcomes(report: Path) -> str:
    """Put what pytest found beside each row."""
    found: dict[str, list[ET.Element]] = {}
    for case in ET.parse(report).iter("testcase"):  # noqa: S314 - the same
        module = case.get("classname", "").removeprefix("tests.").replace(".", "/")
        found.setdefault(f"{module}.py::{case.get('name', '').partition('[')[0]}", []).append(case)
    cases = {fault: [case for test in fault.tests for case in found[test]] for fault in FAULTS}
    return "".join(_outcome(fault, each) for fault, each in cases.items())


def _outcome(fault: Fault, cases: list[ET.Element]) -> str:
    failed = [case for case in cases if len(case)]
    seconds = sum(float(case.get("time", 0)) for case in cases)
    verdict = f"{len(failed)} of {len(cases)} FAILED" if failed else f"{len(cases)} tests hold"
    return (
        f"{fault.name}\n  seen  {fault.seen}\n  lost  {fault.lost}\n  end   {fault.end}\n"
        f"  {verdict}, {seconds:.1f} s\n"
    )


if __name__ == "__main__":
    main()
