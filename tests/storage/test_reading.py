from __future__ import annotations

from pathlib import Path

import pytest

from service.storage import read_package
from service.storage.errors import PackageError
from service.storage.writing import write_package
from tests.factories.knowledge import row, small_package


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_package(small_package(), tmp_path)
    return tmp_path


def problems(folder: Path) -> list[str]:
    with pytest.raises(PackageError) as caught:
        read_package(folder)
    assert str(caught.value) == "\n".join(str(problem) for problem in caught.value.problems)
    return [str(problem) for problem in caught.value.problems]


def edit(folder: Path, file: str, old: str, new: str) -> None:
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_a_package_is_read_as_it_was_written(folder: Path) -> None:
    assert read_package(folder) == small_package()


def test_a_byte_order_mark_and_blank_lines_do_no_harm(folder: Path) -> None:
    path = folder / "limits.csv"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes() + b"\n\n")
    assert read_package(folder) == small_package()


def test_a_missing_file_is_named(folder: Path) -> None:
    (folder / "compounds.csv").unlink()
    assert problems(folder) == ["compounds.csv: the file is missing"]


def test_a_cell_that_cannot_be_read_is_named_with_its_line(folder: Path) -> None:
    edit(folder, "limits.csv", "0.25", "a quarter")
    assert problems(folder) == ["limits.csv:2: limit_V: 'a quarter' cannot be read"]


def test_lines_are_counted_across_cells_that_span_several(folder: Path) -> None:
    package = small_package()
    package["materials"][0]["name"] = "Zinc\n\nsheet"
    package["materials"][1]["electrode_id"] = "bronze"
    write_package(package, folder)
    assert problems(folder) == ["materials.csv:5: electrode_id: no electrodes with id 'bronze'"]


def test_columns_must_be_those_of_the_record(folder: Path) -> None:
    edit(folder, "limits.csv", "limit_V", "limit_mV")
    assert problems(folder) == [
        "limits.csv:1: limit_V: the column is missing",
        "limits.csv:1: limit_mV: is not a column of this table",
    ]


def test_a_column_may_stand_once(folder: Path) -> None:
    edit(folder, "scales.csv", "name,kind", "kind,kind")
    assert "scales.csv:1: kind: the column stands twice" in problems(folder)


def test_an_empty_file_lacks_all_columns(folder: Path) -> None:
    (folder / "scales.csv").write_text("")
    assert "scales.csv:1: id: the column is missing" in problems(folder)


def test_a_row_must_have_as_many_cells_as_the_header(folder: Path) -> None:
    with (folder / "scales.csv").open("a", encoding="utf-8") as stream:
        stream.write("short,row\n")
    assert problems(folder) == ["scales.csv:3: has 2 cells, the header has 7"]


def test_a_key_may_stand_once(folder: Path) -> None:
    package = small_package()
    package["designations"].append(row("designations", material_id="s235", system="EN name", text="S235JR"))
    write_package(package, folder)
    expected = 'designations.csv:4: material_id: \'["s235","EN name","S235JR"]\' stands already on line 2'
    assert problems(folder) == [expected]


def test_a_key_may_not_be_empty(folder: Path) -> None:
    package = small_package()
    package["compounds"][0]["id"] = ""
    write_package(package, folder)
    assert problems(folder) == ["compounds.csv:2: id: the key is empty"]


def test_every_figure_names_a_source(folder: Path) -> None:
    package = small_package()
    package["kinetics"][0]["source_id"] = ""
    write_package(package, folder)
    assert problems(folder) == ["kinetics.csv:2: source_id: is empty"]


def test_the_subject_of_a_measurement_must_exist(folder: Path) -> None:
    package = small_package()
    package["measurements"][0]["subject_id"] = "brass"
    package["measurements"][1]["subject_kind"] = "weather"
    write_package(package, folder)
    assert problems(folder) == [
        "measurements.csv:2: subject_id: no electrodes with id 'brass'",
        "measurements.csv:3: subject_id: no such kind of subject with id 's235'",
    ]


@pytest.mark.parametrize("content", [b"\xff\xfe\n", b'"open\n'])
def test_a_file_that_is_no_csv_in_utf8_is_named(folder: Path, content: bytes) -> None:
    path = folder / "scales.csv"
    path.write_bytes(path.read_bytes() + content)
    assert any(problem.startswith("scales.csv: is not CSV in UTF-8") for problem in problems(folder))
