"""The programs that README.md and the guide show are run as they stand, against a service."""

from __future__ import annotations

import asyncio
import json
import re
from pathlib import Path
from typing import Any

import httpx
import pytest

from service.client import NotFoundError, Ruling
from service.client.document.results import SubstituteOutcome
from service.settings import LOCAL_DEVELOPMENT_KEY
from tests.factories.html import Page

PROJECT = Path(__file__).parents[2]
IN_README = "http://127.0.0.1:8480"


@pytest.fixture(autouse=True)
def _at_hand(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """The key in its variable, and a folder to write to that has the demonstration in it."""
    monkeypatch.setenv("FAYING_KEY", LOCAL_DEVELOPMENT_KEY)
    monkeypatch.setenv("NO_PROXY", "*")
    (tmp_path / "seed_data").symlink_to(PROJECT / "seed_data")
    monkeypatch.chdir(tmp_path)


def run(programs: list[str]) -> dict[str, Any]:
    """Run programs one after another, as somebody would who copies them."""
    names: dict[str, Any] = {}
    for program in programs:
        exec(compile(program, "<guide>", "exec"), names)  # noqa: S102 - the programs are our own pages
    return names


def test_the_programs_of_the_readme(service_address: str) -> None:
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    programs = re.findall(r"```python\n(.*?)```", readme, re.DOTALL)
    names = run([program.replace(IN_README, service_address) for program in programs])
    assert len(programs) == 3
    ruling: Ruling = names["ruling"]
    assert ruling.may_save
    assert names["record"]["answer"].startswith("/v1/answers/")
    outcome: SubstituteOutcome = names["outcome"]
    assert outcome.ref == "offer 7"
    assert names["compliance"].is_inside
    pairs = [{"first": "A4-80", "second": "CW024A", "ref": "lug"}]
    found = asyncio.run(names["verdicts"](pairs))
    assert found.keys() == {"lug"}
    names["client"].close()


def test_the_programs_of_the_guide(service_address: str, capsys: pytest.CaptureFixture[str]) -> None:
    with httpx.Client(trust_env=False) as http:
        page = Page.of(http.get(f"{service_address}/guide").text)
    programs = [element.text for element in page.all("pre", class_="python")]
    assert len(programs) == 6
    names = run(programs)
    said = capsys.readouterr().out
    assert "/geometry ('strip'" in said
    assert "saved with /v1/answers/" in said
    assert "3 in all, 0 not judged" in said
    assert "0 against the rule" in said
    assert "True inside the envelope" in said
    assert said.endswith("True\n")
    assert json.loads(Path("joint-7.json").read_bytes())["digest"]
    client = names["client"]
    client.remove_stored_assembly("tide-gauge")
    with pytest.raises(NotFoundError):
        client.get_stored_assembly("tide-gauge")
    client.close()
