from __future__ import annotations

from pathlib import Path

import pytest

from service.commands import Failure, places
from service.settings import Settings
from service.storage.repositories.pages import Page


def test_the_command_line_goes_before_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FAYING_PORT", "8001")
    assert places.configured().port == 8001
    assert places.configured(port=8002, host=None).port == 8002


def test_secrets_are_read_from_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "faying_key_pepper").write_text("from a file\n")
    monkeypatch.setattr(places, "SECRETS", tmp_path)
    assert places.configured().key_pepper.get_secret_value() == "from a file"


@pytest.mark.parametrize(
    ("url", "file"),
    [
        ("sqlite:///var/x.sqlite3", Path("var/x.sqlite3")),
        ("sqlite:////srv/x.sqlite3", Path("/srv/x.sqlite3")),
        ("sqlite://", None),
        ("postgresql+psycopg://somebody@host/faying", None),
    ],
)
def test_the_file_of_an_embedded_database(url: str, file: Path | None) -> None:
    assert places.database_file(Settings(database_url=url)) == file


def test_a_folder_in_the_way_of_a_file_is_one_line(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    settings = Settings(database_url=f"sqlite:///{tmp_path}/taken/x.sqlite3")
    with pytest.raises(Failure, match="cannot write"):
        places.make_folder(settings)


def test_an_empty_database_is_refused(empty_database_url: str) -> None:
    with pytest.raises(Failure, match="faying setup"):
        places.require_schema(Settings(database_url=empty_database_url))


def test_a_missing_file_is_not_made_by_looking(tmp_path: Path) -> None:
    file = tmp_path / "new.sqlite3"
    with pytest.raises(Failure, match="faying setup"):
        places.require_schema(Settings(database_url=f"sqlite:///{file}"))
    assert not file.exists()


def test_a_migrated_database_is_opened(database_url: str) -> None:
    with places.opened(Settings(database_url=database_url)) as database, database.reading() as session:
        assert session.connection().in_transaction()


def test_an_older_schema_is_refused(database_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(places, "newest", lambda: "a later one")
    with pytest.raises(Failure, match="faying migrate"):
        places.require_schema(Settings(database_url=database_url))


def test_every_goes_through_all_pages() -> None:
    pages = {"": Page((1, 2), "b"), "b": Page((3,), "")}
    assert list(places.every(pages.__getitem__)) == [1, 2, 3]
