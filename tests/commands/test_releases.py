from __future__ import annotations

from pathlib import Path

from tests.commands.conftest import Faying


def test_a_release_is_published_listed_and_shown(faying: Faying) -> None:
    published = faying("release", "publish", "--label", "first", "--note", "nothing in it yet")
    assert published.exit_code == 0, published.output
    label, content = published.stdout.split()
    assert label == "first"
    assert "nothing in it yet" in faying("release", "list").stdout
    shown = faying("release", "show", "first").stdout
    assert content in shown
    assert "0 materials" in shown


def test_an_unchanged_state_stays_the_release_it_is(faying: Faying) -> None:
    first = faying("release", "publish", "--label", "first").stdout
    assert faying("release", "publish", "--label", "second").stdout == first


def test_a_release_travels_as_a_file(faying: Faying, tmp_path: Path) -> None:
    faying("release", "publish", "--label", "first")
    file = faying("release", "export", "first", "--directory", str(tmp_path)).stdout.strip()
    assert Path(file).parent == tmp_path
    assert faying("release", "import", file).stdout.startswith("first ")


def test_a_release_travels_as_a_data_package(faying: Faying, tmp_path: Path) -> None:
    published = faying("release", "publish", "--label", "first").stdout
    out = faying("release", "export", "first", "--package", "--directory", str(tmp_path)).stdout
    folder = Path(out.replace("\n", ""))
    assert (folder / "datapackage.json").exists()
    assert faying("release", "import", str(folder)).stdout == published


def test_an_unknown_release_is_one_line(faying: Faying) -> None:
    result = faying("release", "show", "never")
    assert (result.exit_code, result.stderr) == (1, "faying: no release 'never'\n")
