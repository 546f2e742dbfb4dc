"""Disks that are full, files that take no changes, pages and releases that are not as they were written."""

from __future__ import annotations

import os
import resource
import sqlite3
from contextlib import closing
from pathlib import Path

import httpx

from service.storage import Database, current_release
from service.storage.repositories.answers import AnswersRepository, StoredAnswer
from tests.acceptance.faults.test_sudden_death import rows
from tests.acceptance.processes import Server, environment, faying, serving
from tests.factories.http import problem

COUPLE = {"first": "A4-80", "second": "EN AW-6082-T6", "environment": "heated-indoor"}
OTHER = COUPLE | {"second": "CW024A"}
ASSEMBLY = {
    "parts": [{"part_number": "1", "surface": "A2"}, {"part_number": "2", "surface": "S235JR"}],
    "joints": [{"id": "J1", "first": "1", "second": "2"}],
    "programme": {"environment": "heated-indoor"},
}
TRIGGERS = "SELECT name FROM sqlite_master WHERE tbl_name = 'releases' AND type = 'trigger'"
STORED = "/v1/assemblies/stored/mast"


def refused(response: httpx.Response, why: str) -> None:
    """Check that a write was refused because of the database, and says when to come again."""
    assert why in problem(response, 503, "database-unavailable")["detail"]
    assert int(response.headers["retry-after"]) > 0


def fill_disk(server: Server, file: Path) -> None:
    """Let no file of the server's grow beyond what the database is now."""
    for each in file.parent.glob(f"{file.name}*"):
        os.truncate(each, each.stat().st_size)
    size = file.with_name(f"{file.name}-wal").stat().st_size
    _, most = resource.prlimit(server.process.pid, resource.RLIMIT_FSIZE)
    resource.prlimit(server.process.pid, resource.RLIMIT_FSIZE, (size, most))


def make_room(server: Server) -> None:
    _, most = resource.prlimit(server.process.pid, resource.RLIMIT_FSIZE)
    resource.prlimit(server.process.pid, resource.RLIMIT_FSIZE, (most, most))


def test_a_full_disk_refuses_writes_and_goes_on_answering(database_file: Path) -> None:
    env = environment(database_file)
    with serving(env, log=Path(os.devnull)) as server, server.client() as client:
        known = client.get("/v1/couples", params=COUPLE).raise_for_status()
        fill_disk(server, database_file)
        refused(client.put(STORED, json=ASSEMBLY), "full")
        assert client.get("/v1/couples", params=COUPLE).content == known.content
        new = client.get("/v1/couples", params=OTHER).raise_for_status()
        assert client.get("/readyz").status_code == 200
        make_room(server)
        assert client.put(STORED, json=ASSEMBLY).status_code == 201
        assert server.terminate() in {0, -15}
    with serving(env) as server, server.client() as client:
        again = client.get(f"/v1/answers/{new.json()['digest']}")
        assert (again.status_code, again.content) == (200, new.content)
        assert client.get(STORED).status_code == 200


def test_a_file_that_takes_no_changes_still_answers(database_file: Path) -> None:
    env = environment(f"sqlite:///file:{database_file}?mode=ro&uri=true")
    with serving(env, log=Path(os.devnull)) as server, server.client() as client:
        assert client.get("/v1/couples", params=COUPLE).status_code == 200
        assert client.get("/v1/materials").status_code == 200
        refused(client.put(STORED, json=ASSEMBLY), "no changes")


def damage(file: Path, table: str) -> None:
    """Overwrite the first page of a table."""
    with closing(sqlite3.connect(file)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        page = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,)).fetchone()[0]
        size = connection.execute("PRAGMA page_size").fetchone()[0]
    with file.open("r+b") as stream:
        stream.seek((page - 1) * size)
        stream.write(b"\xa5" * size)


def issued(file: Path) -> str:
    """Keep an answer in the database alone, and return its address."""
    with closing(Database.open(f"sqlite:///{file}")) as database, database.writing() as session:
        release = current_release(session)
        assert release
        answer = StoredAnswer("0" * 64, release.label, "1", None, "", "", b"{}", b"{}")
        AnswersRepository(session).add([answer])
    return f"/v1/answers/{answer.digest}"


def test_a_damaged_page_is_told_and_a_backup_brings_everything_back(
    database_file: Path, tmp_path: Path
) -> None:
    env, saved = environment(database_file), tmp_path / "saved.gz"
    address, before = issued(database_file), rows(f"sqlite:///{database_file}")
    assert faying("backup", str(saved), env=env).status == 0
    damage(database_file, "answers")
    with serving(env, log=Path(os.devnull)) as server, server.client() as client:
        refused(client.get(address), "damaged")
        assert client.get("/v1/couples", params=COUPLE).status_code == 200
    spoilt = faying("backup", str(tmp_path / "second.gz"), env=env)
    assert (spoilt.status, spoilt.output) == (1, "")
    assert "damaged" in spoilt.complaint
    for each in tmp_path.glob(f"{database_file.name}*"):
        each.unlink()
    assert faying("restore", str(saved), env=env).status == 0
    assert rows(f"sqlite:///{database_file}") == before


def test_a_damaged_release_is_found_by_its_hash(database_file: Path) -> None:
    whole = database_file.read_bytes()
    with closing(sqlite3.connect(database_file)) as connection:
        for (name,) in connection.execute(TRIGGERS).fetchall():
            connection.execute(f"DROP TRIGGER {name}")
        connection.execute("UPDATE releases SET blob = substr(blob, 1, length(blob) - 9)")
        connection.commit()
    env = environment(database_file)
    for command in (("serve", "--port", "0"), ("release", "show", label_in(database_file))):
        outcome = faying(*command, env=env)
        assert outcome.status == 1
        assert outcome.complaint.splitlines()[-1].startswith("faying: release content hash is unreadable")
    database_file.write_bytes(whole)
    assert faying("release", "show", label_in(database_file), env=env).status == 0


def label_in(file: Path) -> str:
    with closing(sqlite3.connect(file)) as connection:
        return str(connection.execute("SELECT label FROM releases").fetchone()[0])
