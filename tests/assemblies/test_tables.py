from __future__ import annotations

import pytest

from service.assemblies.errors import FileTooLargeError
from service.assemblies.tables import Limits, Row, checked

SMALL = Limits(rows=2, columns=3, cell_characters=5)


def run(*rows: list[str]) -> list[Row]:
    return list(checked("t", iter([(number, cells) for number, cells in enumerate(rows, 1)]), SMALL))


def test_rows_within_the_limits_pass() -> None:
    assert run(["a", "b"], ["c"]) == [(1, ["a", "b"]), (2, ["c"])]


def test_empty_cells_beyond_the_last_column_do_no_harm() -> None:
    assert len(run(["a", "", "", "", " "])) == 1


@pytest.mark.parametrize(
    ("rows", "quantity", "line"),
    [
        ([["a"], ["b"], ["c"]], "rows", None),
        ([["a"], ["a", "b", "c", "d"]], "columns", 2),
        ([["abcdef"]], "characters in one cell", 1),
    ],
)
def test_a_row_beyond_the_limits_is_named(rows: list[list[str]], quantity: str, line: int | None) -> None:
    with pytest.raises(FileTooLargeError) as caught:
        run(*rows)
    assert (caught.value.quantity, caught.value.line) == (quantity, line)
