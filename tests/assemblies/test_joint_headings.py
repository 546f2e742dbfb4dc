from __future__ import annotations

from service.assemblies.columns import JOINTS, plain
from service.assemblies.joint_headings import JOINT_HEADINGS


def test_every_row_is_complete_and_stands_once() -> None:
    names = [row[0] for row in JOINT_HEADINGS]
    assert len(set(names)) == len(names)
    for name, kind, meaning, example, also in JOINT_HEADINGS:
        assert all((name, kind, meaning.endswith("."), example, also)), name


def test_no_column_names_a_heading_twice() -> None:
    for column in JOINTS.values():
        spellings = [plain(spelling) for spelling in column.also]
        assert all(spellings), column.name
