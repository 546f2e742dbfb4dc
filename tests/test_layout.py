"""The layout that every contributor can rely on: where tests are, what rooms show, what never appears."""

from __future__ import annotations

import ast
import importlib
import re
import subprocess
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parents[1]
SERVICE = PROJECT / "service"
LONGEST_MODULE = 400
MAY_BE_LONGER = {
    "catalogue/records.py": "one record for each table of the seed package, to be read side by side"
}

WITHOUT_OWN_TEST = {
    "errors": "a tree of exceptions; raised and checked where they arise",
    "records": "frozen dataclasses without behaviour",
    "surfaces": "frozen dataclasses without behaviour",
    "reading": "frozen dataclasses without behaviour",
    "inquiry": "frozen dataclasses without behaviour",
    "version": "one constant",
}
"""Module names that need no test of their own, with the reason."""

WITHOUT_OWN_TEST_IN = {
    "client/document": "written from the OpenAPI document, and compared with it by the contract tests",
    "storage/tables": "columns; the migration tests compare them with the database",
    "web/schemas": "fields; every example is sent for real by the contract tests",
}
"""Folders whose modules need no test of their own, with the reason."""

TESTED_THROUGH = {"__main__.py": "acceptance/"}
"""Modules without a test of their own, and what runs them."""


def modules() -> list[Path]:
    return sorted(path.relative_to(SERVICE) for path in SERVICE.rglob("*.py"))


def modules_with_behaviour() -> list[Path]:
    return [
        path
        for path in modules()
        if path.stem not in {"__init__", *WITHOUT_OWN_TEST}
        and path.parent.as_posix() not in WITHOUT_OWN_TEST_IN
    ]


@pytest.mark.parametrize("module", modules_with_behaviour(), ids=str)
def test_every_module_has_its_test(module: Path) -> None:
    own = module.parent / f"test_{module.stem.strip('_')}.py"
    expected = PROJECT / "tests" / TESTED_THROUGH.get(module.as_posix(), own)
    assert expected.exists(), f"{expected.relative_to(PROJECT)} is missing"


def test_the_exceptions_are_still_needed() -> None:
    names = {path.stem for path in modules()}
    folders = {path.parent.as_posix() for path in modules()}
    assert set(WITHOUT_OWN_TEST) <= names
    assert set(TESTED_THROUGH) <= {path.as_posix() for path in modules()}
    assert set(WITHOUT_OWN_TEST_IN) <= folders


GENERATED = {"client/document"}
"""Folders whose modules nobody writes or reads from end to end."""


@pytest.mark.parametrize("module", modules(), ids=str)
def test_no_module_is_too_long_to_read(module: Path) -> None:
    if module.parent.as_posix() in GENERATED:
        return
    longest = 500 if module.as_posix() in MAY_BE_LONGER else LONGEST_MODULE
    assert len((SERVICE / module).read_text(encoding="utf-8").splitlines()) <= longest


@pytest.mark.parametrize("module", modules(), ids=str)
def test_no_module_is_a_drawer(module: Path) -> None:
    assert module.stem not in {"utils", "helpers", "common", "misc", "base"}


def rooms() -> list[str]:
    return sorted(path.parent.name for path in SERVICE.glob("*/__init__.py"))


@pytest.mark.parametrize("room", rooms())
def test_a_room_shows_exactly_what_it_imports(room: str) -> None:
    tree = ast.parse((SERVICE / room / "__init__.py").read_text(encoding="utf-8"))
    assert ast.get_docstring(tree)
    imported = {
        alias.asname or alias.name
        for node in tree.body
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }
    shown = getattr(importlib.import_module(f"service.{room}"), "__all__", [])
    assert set(shown) == imported
    assert list(shown) == sorted(shown, key=lambda name: (not name.isupper(), not name[0].isupper(), name))
    rest = [
        node for node in tree.body[1:] if not isinstance(node, ast.ImportFrom | ast.Assign | ast.AnnAssign)
    ]
    assert rest == []


IMAGES = {".png", ".gz", ".woff2", ".ico", ".svg"}


def texts() -> list[Path]:
    listed = subprocess.run(["git", "ls-files"], cwd=PROJECT, capture_output=True, text=True, check=True)  # noqa: S607
    found = [PROJECT / name for name in listed.stdout.splitlines()]
    return [path for path in found if path.is_file() and path.suffix not in IMAGES]


FOREIGN = re.compile(r"(?<![\w.-])/(?:home|root|work|Users)/|\.\./s(?:hared)\b")
"""A folder of one developer's machine, or one beside the project."""


def test_nothing_names_a_place_outside_the_project() -> None:
    named = [
        f"{path.relative_to(PROJECT)}:{number}"
        for path in texts()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if FOREIGN.search(line)
    ]
    assert named == []


def test_the_lock_file_pins_everything_by_hash_and_names_no_host() -> None:
    lock = (PROJECT / "requirements.lock").read_text(encoding="utf-8")
    assert "://" not in lock
    entries = re.findall(
        r"^([a-z0-9][^=\s]*)==\S+ \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)", lock, re.MULTILINE
    )
    assert len(entries) == len(re.findall(r"^[a-z0-9]", lock, re.MULTILINE))


def test_the_lock_file_holds_every_declared_dependency() -> None:
    lock = (PROJECT / "requirements.lock").read_text(encoding="utf-8")
    runtime, _, development = lock.partition("# --- development")
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    for wanted, section in (
        (project["dependencies"] + extras["server"] + extras["postgresql"] + extras["build"], runtime),
        (extras["dev"], runtime + development),
    ):
        for requirement in wanted:
            name = re.split(r"[\[>=<~!]", requirement)[0]
            assert re.search(rf"^{re.escape(name)}==", section, re.MULTILINE), name


def imported_distributions(folder: str) -> set[str]:
    known = packages_distributions()
    names: set[str] = set()
    for path in (PROJECT / folder).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names |= {alias.name.split(".")[0] for alias in node.names}
            elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                names.add(node.module.split(".")[0])
    # Distributions that share a name, as those of OpenTelemetry do, stand for each other.
    return {min(known[name]).lower().replace("_", "-") for name in names if name in known} - {"faying"}


def declared(*extras: str) -> set[str]:
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    optional = project["optional-dependencies"]
    wanted = project["dependencies"] + [requirement for extra in extras for requirement in optional[extra]]
    return {re.split(r"[\[>=<~!]", requirement)[0].lower() for requirement in wanted}


def test_what_the_service_imports_is_declared() -> None:
    assert imported_distributions("service") - declared("server", "postgresql") == set()


def test_what_the_client_imports_is_declared_without_any_extra() -> None:
    assert imported_distributions("service/client") == declared()


def test_what_the_tests_import_is_declared() -> None:
    assert imported_distributions("tests") - declared("server", "postgresql", "dev") == set()
