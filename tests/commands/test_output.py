from __future__ import annotations

import pytest
from rich.table import Table

from service.commands.output import display, say


def test_a_line_is_never_folded(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "20")
    say("x" * 300)
    assert capsys.readouterr().out == "x" * 300 + "\n"


@pytest.mark.parametrize(("columns", "lines"), [("30", 2), ("150", 1)])
def test_a_table_takes_the_room_there_is(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, columns: str, lines: int
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    table = Table(box=None, show_header=False)
    table.add_row("some twenty letters a", "some twenty letters b")
    display(table)
    assert len(capsys.readouterr().out.splitlines()) == lines


def test_a_table_in_a_pipe_is_wide(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("COLUMNS", raising=False)
    table = Table(box=None, show_header=False)
    table.add_row("x" * 90, "y" * 90)
    display(table)
    assert len(capsys.readouterr().out.splitlines()) == 1
