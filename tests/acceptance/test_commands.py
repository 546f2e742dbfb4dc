"""The program from the outside: what a person types, and the one line they get when it cannot work."""

from __future__ import annotations

import json
import os
import socket
import stat
import subprocess
from pathlib import Path

import pytest

from tests.acceptance.processes import PROJECT, Outcome, environment, faying

COUPLE = ("EN AW-6082-T6, anodized 15 µm", "A4-80", "-e", "marine-atmosphere-0-100-m")


def one_line(outcome: Outcome) -> str:
    assert outcome.status == 1, outcome
    lines = outcome.complaint.splitlines()
    assert len(lines) == 1, outcome.complaint
    assert lines[0].startswith("faying: ")
    return lines[0]


def test_setting_up_publishes_the_first_release(first_setup: tuple[Path, Outcome]) -> None:
    assert first_setup[1].status == 0, first_setup[1].complaint
    assert "published" in first_setup[1].output


def test_setting_up_again_changes_nothing(database_file: Path) -> None:
    env = environment(database_file)
    before = faying("release", "list", env=env).output
    again = faying("setup", env=env)
    assert again.status == 0, again.complaint
    assert "is current" in again.output
    assert faying("release", "list", env=env).output == before


def test_a_couple_is_judged_from_the_shell(database_file: Path) -> None:
    outcome = faying("judge", *COUPLE, "--json", env=environment(database_file))
    assert outcome.status == 0, outcome.complaint
    document = json.loads(outcome.output)
    assert document["surfaces"]["first"]["layers"][0]["thickness_um"] == 15
    assert document["evidence"]


def test_the_demo_station_is_judged_worst_first(database_file: Path) -> None:
    demo = PROJECT / "seed_data" / "demo"
    files = (
        "--bom",
        str(demo / "harbour-tide-gauge.csv"),
        "--joints",
        str(demo / "harbour-tide-gauge-joints.csv"),
    )
    outcome = faying("judge", *files, "--json", env=environment(database_file))
    assert outcome.status == 0, outcome.complaint
    verdicts = [item["verdict"] for item in json.loads(outcome.output)["joints"]]
    order = ["unsuitable", "undetermined", "conditional", "suitable"]
    assert len(verdicts) > 5
    assert verdicts == sorted(verdicts, key=order.index)
    table = faying("judge", *files, env=environment(database_file, COLUMNS="200"))
    assert table.status == 0, table.complaint
    assert "unsuitable" in table.output


def test_an_unknown_environment_is_one_line(database_file: Path) -> None:
    outcome = faying("judge", "A2", "A4", "-e", "the moon", env=environment(database_file))
    assert "the moon" in one_line(outcome)


def test_half_a_question_is_one_line(database_file: Path) -> None:
    assert "--environment" in one_line(faying("judge", "A2", env=environment(database_file)))


def test_serving_before_setting_up_is_one_line(tmp_path: Path) -> None:
    assert "faying setup" in one_line(faying("serve", env=environment(tmp_path / "new.sqlite3")))


def test_a_busy_port_is_one_line(database_file: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        line = one_line(faying("serve", env=environment(database_file, FAYING_PORT=str(port))))
    assert f"127.0.0.1:{port}" in line
    assert "FAYING_PORT" in line


def test_a_folder_that_cannot_be_written_is_one_line(tmp_path: Path) -> None:
    folder = tmp_path / "read-only"
    folder.mkdir()
    folder.chmod(stat.S_IRUSR | stat.S_IXUSR)
    # Permissions do not stop root, and nobody can write below /proc.
    place = folder if os.geteuid() else Path("/proc")
    line = one_line(faying("setup", env=environment(place / "var" / "faying.sqlite3")))
    assert "cannot write" in line
    assert "FAYING_DATABASE_URL" in line


def test_a_wrong_setting_is_one_line(database_file: Path) -> None:
    line = one_line(faying("serve", env=environment(database_file, FAYING_PORT="many")))
    assert "FAYING_PORT" in line


def test_a_database_that_does_not_answer_is_one_line() -> None:
    line = one_line(faying("setup", env=environment("postgresql+psycopg://nobody@127.0.0.1:9/none")))
    assert "does not answer" in line


def test_a_faulty_seed_package_is_refused_whole(tmp_path: Path) -> None:
    outcome = faying("check-data", str(tmp_path), env=environment(tmp_path / "new.sqlite3"))
    assert outcome.status == 1
    assert "materials.csv: the file is missing" in outcome.complaint


def test_an_old_python_is_one_line(tmp_path: Path) -> None:
    for name in ("python3", "python3.11"):
        fake = tmp_path / name
        fake.write_text('#!/bin/sh\n[ "$1" = --version ] && echo "Python 3.9.18"\nexit 1\n')
        fake.chmod(0o755)
    (tmp_path / "tail").symlink_to("/usr/bin/tail")
    done = subprocess.run(
        [str(PROJECT / ".ci" / "find-python"), ""],
        env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=False,
    )  # fmt: skip
    line = one_line(Outcome(done.returncode, done.stdout, done.stderr))
    assert "needs Python 3.11 or newer" in line
    assert "Python 3.9.18" in line


@pytest.mark.parametrize("command", [("key", "revoke", "nothing"), ("release", "show", "nothing")])
def test_an_unknown_name_is_one_line(database_file: Path, command: tuple[str, ...]) -> None:
    assert "nothing" in one_line(faying(*command, env=environment(database_file)))
