"""The table of faults names tests that exist, all of them, and DEVELOPERS.md shows it."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.acceptance.faults.table import FAULTS, PROJECT, markdown, outcomes

NAMED = {test for fault in FAULTS for test in fault.tests}
ABOUT_THE_RULES = {"the_rule_knows_what_contracts"}
"""Tests of a test."""


def functions_of(file: Path) -> set[str]:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    functions = (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))
    return {node.name for node in functions if node.name.startswith("test_")}


@pytest.mark.parametrize("test", sorted(NAMED))
def test_every_row_is_tested(test: str) -> None:
    file, _, name = test.partition("::")
    assert name in functions_of(PROJECT / "tests" / file)


def test_every_test_of_a_fault_has_a_row() -> None:
    for file in Path(__file__).parent.glob("test_*.py"):
        if file.name not in {"test_table.py", "test_moving.py"}:
            names = functions_of(file) - {f"test_{name}" for name in ABOUT_THE_RULES}
            assert {f"acceptance/faults/{file.name}::{name}" for name in names} <= NAMED


def test_the_documentation_shows_the_table() -> None:
    text = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    expected = markdown()
    assert expected in text, expected


def test_a_failure_is_written_beside_its_row(tmp_path: Path) -> None:
    cases = ""
    for test in NAMED:
        file, _, name = test.partition("::")
        place = f"tests.{file.removesuffix('.py').replace('/', '.')}"
        failure = "<failure/>" if "a_full_disk" in name else ""
        cases += f'<testcase classname="{place}" name="{name}[sqlite]" time="0.5">{failure}</testcase>'
    report = tmp_path / "junit.xml"
    report.write_text(f"<testsuites><testsuite>{cases}</testsuite></testsuites>", encoding="utf-8")
    text = outcomes(report)
    assert "1 of 1 FAILED, 0.5 s" in text
    assert text.count("FAILED") == 1
    assert text.count("hold") == len(FAULTS) - 1
