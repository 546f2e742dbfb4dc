"""SECURITY.md names tests that are there, settings that are there, and all ten risks."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

from service.settings import Settings

PROJECT = Path(__file__).parents[1]
DOCUMENT = (PROJECT / "SECURITY.md").read_text(encoding="utf-8")
TESTS = sorted(set(re.findall(r"`(tests/[\w/]+\.py)::(\w+)`", DOCUMENT)))


@cache
def names_in(path: str) -> frozenset[str]:
    tree = ast.parse((PROJECT / path).read_text(encoding="utf-8"))
    found = (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))
    return frozenset(node.name for node in found)


@pytest.mark.parametrize(("path", "name"), TESTS, ids=[f"{path}::{name}" for path, name in TESTS])
def test_every_test_that_is_named_is_there(path: str, name: str) -> None:
    assert name in names_in(path)


def rows(heading: str) -> list[list[str]]:
    section = DOCUMENT.split(f"## {heading}\n")[1].split("\n## ")[0]
    lines = [line for line in section.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


@pytest.mark.parametrize("heading", ["Threats, and what holds them off", "OWASP API Security Top 10 (2023)"])
def test_every_row_names_a_test(heading: str) -> None:
    found = rows(heading)
    assert len(found) >= 10
    assert all("::test_" in row[-1] and all(row) for row in found)


def test_all_ten_risks_are_walked_through() -> None:
    numbers = [row[0].split()[0] for row in rows("OWASP API Security Top 10 (2023)")]
    assert numbers == [f"API{number}" for number in range(1, 11)]


def test_every_setting_that_is_named_is_there() -> None:
    named = set(re.findall(r"FAYING_([A-Z_]+)", DOCUMENT))
    assert named
    assert {name.lower() for name in named} <= set(Settings.model_fields)
