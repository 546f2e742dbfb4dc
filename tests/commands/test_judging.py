from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.commands.conftest import Faying

PLACE = "marine-atmosphere-0-100-m"


@pytest.fixture
def seeded(faying: Faying) -> Faying:
    """Seed and publish, then judge."""
    assert faying("setup").exit_code == 0
    return faying


def test_a_couple_is_judged_with_its_evidence(seeded: Faying) -> None:
    result = seeded("judge", "EN AW-6082-T6", "CW024A", "-e", PLACE)
    assert result.exit_code == 0, result.output
    assert result.stdout.splitlines()[0].startswith("unsuitable")
    assert "engine" in result.stdout


def test_the_whole_answer_is_json_on_request(seeded: Faying) -> None:
    arguments = (
        "judge",
        "EN AW-6082-T6",
        "CW024A",
        "-e",
        PLACE,
        "--life",
        "3",
        "--function",
        "seal",
        "--json",
    )
    document = json.loads(seeded(*arguments).stdout)
    assert document["joint"]["design_life_years"] == 3
    assert document["joint"]["functions"] == ["seal"]


def test_joints_come_worst_first(seeded: Faying, tmp_path: Path) -> None:
    parts, joints = tmp_path / "parts.csv", tmp_path / "joints.csv"
    parts.write_text("part,name,surface\nA,plate,EN AW-6082-T6\nB,bar,CW024A\nC,bracket,EN AW-6082-T6\n")
    joints.write_text(f"joint,first,second,environment\nmild,A,C,{PLACE}\nbad,A,B,{PLACE}\n")
    shown = seeded("judge", "--bom", str(parts), "--joints", str(joints), "--json")
    assert [item["joint"] for item in json.loads(shown.stdout)] == ["bad", "mild"]
    table = seeded("judge", "--bom", str(parts), "--joints", str(joints)).stdout
    assert table.index("bad") < table.index("mild")


def test_a_faulty_table_is_one_line_with_its_place(seeded: Faying, tmp_path: Path) -> None:
    parts = tmp_path / "parts.csv"
    parts.write_text("part,name,surface\nA,plate,EN AW-6082-T6\nA,plate,EN AW-6082-T6\n")
    result = seeded("judge", "--bom", str(parts), "--joints", str(parts))
    assert result.stderr.startswith("faying: parts:3: part: ")


def test_a_table_in_another_encoding_is_one_line(seeded: Faying, tmp_path: Path) -> None:
    parts = tmp_path / "parts.csv"
    parts.write_bytes("part,name,surface\nA,Blech,Oberfläche\n".encode("latin-1"))
    assert "must be UTF-8" in seeded("judge", "--bom", str(parts), "--joints", str(parts)).stderr


def test_half_a_question_says_what_is_missing(faying: Faying) -> None:
    assert "--environment" in faying("judge", "A2", "A4").stderr


def test_nothing_published_is_one_line(faying: Faying) -> None:
    result = faying("judge", "A2", "A4", "-e", PLACE)
    assert result.stderr == "faying: no release has been published yet\n"
