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
    assert [item["joint"] for item in json.loads(shown.stdout)["joints"]] == ["bad", "mild"]
    table = seeded("judge", "--bom", str(parts), "--joints", str(joints)).stdout
    assert table.index("bad") < table.index("mild")
    bad = next(line.rstrip() for line in table.splitlines() if line.startswith("bad"))
    assert "unsuitable" in bad
    assert bad.split()[-4:-2] == ["A", "kinetics"]
    assert bad.endswith(" x")


def test_a_list_without_joints_is_judged_by_assumed_contacts(seeded: Faying, tmp_path: Path) -> None:
    parts = tmp_path / "parts.csv"
    parts.write_text('Item,Description\n1,"Plate, EN AW-6082-T6"\n2,"SCREW, M4X10, A4-70"\n')
    shown = seeded("judge", "--bom", str(parts), "--environment", PLACE, "--life", "7", "--json")
    (joint,) = json.loads(shown.stdout)["joints"]
    assert joint["is_assumed"]
    assert joint["design_life_years"] == 7
    assert "assumed: " in seeded("judge", "--bom", str(parts), "-e", PLACE).stdout


def test_a_report_is_written_to_a_file(seeded: Faying, tmp_path: Path) -> None:
    parts = tmp_path / "parts.csv"
    parts.write_text("part,material\nA,EN AW-6082-T6\nB,CW024A\n")
    arguments = ("judge", "--bom", str(parts), "-e", PLACE, "--export")
    for suffix, start in ((".csv", b"\xef\xbb\xbfjoint"), (".xlsx", b"PK"), (".json", b'{"assumptions"')):
        assert seeded(*arguments, str(tmp_path / f"report{suffix}")).exit_code == 0
        assert (tmp_path / f"report{suffix}").read_bytes().startswith(start)
    assert "is written as" in seeded(*arguments, str(tmp_path / "report.pdf")).stderr
    assert "cannot write" in seeded(*arguments, str(tmp_path / "none" / "report.csv")).stderr


def test_what_a_table_holds_wrongly_is_told_with_its_place(seeded: Faying, tmp_path: Path) -> None:
    parts, joints = tmp_path / "parts.csv", tmp_path / "joints.csv"
    parts.write_text("part_number,description,material\nA,plate,EN AW-6082-T6\nB,bar,CW024A\n")
    joints.write_text(f"joint,part_a,part_b,environment\nok,A,B,{PLACE}\nbad,A,Z,{PLACE}\n")
    result = seeded("judge", "--bom", str(parts), "--joints", str(joints), "--json")
    assert "joints.csv:3" in result.stderr


def test_no_table_at_all_is_one_line(seeded: Faying, tmp_path: Path) -> None:
    parts = tmp_path / "parts.csv"
    parts.write_text("nothing\n")
    result = seeded("judge", "--bom", str(parts))
    assert result.exit_code == 1
    assert result.stderr.startswith("faying: ")


def test_half_a_question_says_what_is_missing(faying: Faying) -> None:
    assert "--environment" in faying("judge", "A2", "A4").stderr


def test_nothing_published_is_one_line(faying: Faying) -> None:
    result = faying("judge", "A2", "A4", "-e", PLACE)
    assert result.stderr == "faying: no release has been published yet\n"
