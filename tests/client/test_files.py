from __future__ import annotations

import base64
import csv
import io
import json
from pathlib import Path

import httpx
import pytest
from openpyxl import load_workbook

from service.client import Client, UnexpectedReplyError, attach, bodies
from tests.factories.scripted import scripted

DEMO = Path(__file__).parents[2] / "seed_data" / "demo"
FILES = [DEMO / "harbour-tide-gauge.csv", DEMO / "harbour-tide-gauge-joints.csv"]


def test_a_file_is_attached_under_its_name_or_another() -> None:
    attached = attach(FILES[0])
    assert attached["name"] == "harbour-tide-gauge.csv"
    assert base64.b64decode(attached["content"]) == FILES[0].read_bytes()
    assert attach(str(FILES[0]), "parts.csv")["name"] == "parts.csv"


def test_tables_are_checked_as_they_are_and_exported(client: Client) -> None:
    files = [attach(file) for file in FILES]
    check = client.check_assembly(files=files, name="Skerrivoe tide gauge")
    assert check.report.totals.joints == len(check.report.joints) > 0
    rows = list(csv.DictReader(io.StringIO(client.export_assembly("csv", files=files).decode("utf-8-sig"))))
    assert [row["joint"] for row in rows] == [joint.joint for joint in check.report.joints]
    workbook = load_workbook(io.BytesIO(client.export_assembly("xlsx", files=files)))
    assert workbook.sheetnames


def test_an_answer_is_archived_in_its_bytes(client: Client) -> None:
    answer = client.judge_couple(first="A4-80", second="CW024A", environment="heated-indoor")
    archived = client.get_answer_bytes(answer.digest)
    assert json.loads(archived) == answer.as_dict()


@pytest.mark.parametrize("headers", [{}, {"Repr-Digest": "sha-256=:AAAA:"}])
def test_other_bytes_than_promised_are_refused(headers: dict[str, str]) -> None:
    client, _ = scripted(httpx.Response(200, headers=headers, content=b"{}"))
    with pytest.raises(UnexpectedReplyError, match="answer 5b"):
        client.get_answer_bytes("5b")


def test_a_template_is_what_can_be_filled_in(client: Client) -> None:
    template = client.get_assembly_template("csv", "joints")
    assert template != client.get_assembly_template()
    workbook = load_workbook(io.BytesIO(client.get_assembly_template("xlsx")))
    assert len(workbook.sheetnames) >= 2


def test_a_substitute_is_compared_joint_by_joint(client: Client) -> None:
    files = [attach(file) for file in FILES]
    offers: list[str | bodies.SubstituteRequest] = [{"ref": "offer 7", "surface": "8.8 flZn-480h-L"}, "A2-70"]
    check = client.check_substitution(part="SK-1112", substitutes=offers, files=files)
    first, second = check.comparison.substitutes
    assert first.ref == "offer 7"
    assert {first.decision, second.decision} <= {"accept", "review", "reject"}
    assert first.joints
