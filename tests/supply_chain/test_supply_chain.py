"""What the service is built on is known, may be used, and is what is installed."""

from __future__ import annotations

import json
import tomllib
from importlib.metadata import version
from typing import Any

import pytest
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

from tests.supply_chain import licences, run
from tests.supply_chain.licences import UnknownLicenceError, is_allowed, licence_of
from tests.supply_chain.lock import PROJECT, Package, packages
from tests.supply_chain.sbom import VERSION, bill_of, written

PACKAGES = packages()
RUNTIME = [package for package in PACKAGES if package.is_runtime]


@pytest.mark.parametrize("package", PACKAGES, ids=lambda package: package.name)
def test_every_package_is_installed_as_locked_under_a_licence_that_we_may_use(package: Package) -> None:
    assert version(package.name) == package.version
    licence = licence_of(package.name)
    assert is_allowed(licence, is_runtime=package.is_runtime), licence


def test_the_lock_is_read_whole() -> None:
    names = {package.name for package in PACKAGES}
    assert len(names) == len(PACKAGES)
    assert {"fastapi", "psycopg", "pyjwt"} <= {package.name for package in RUNTIME}
    assert {"pytest", "schemathesis"} <= names - {package.name for package in RUNTIME}
    by_name = {package.name: package for package in PACKAGES}
    assert by_name["pyjwt"].wanted_by == ("faying",)
    assert "httpx" in by_name["certifi"].wanted_by
    wanting = {name for package in PACKAGES for name in package.wanted_by}
    assert wanting <= names | {"faying"}


def test_a_lock_is_read_line_by_line() -> None:
    text = (
        "one==1.0 \\\n    --hash=sha256:00\n    # via faying (pyproject.toml)\n"
        "# --- development: not needed\n"
        "two==2.0 \\\n    --hash=sha256:00\n    # via\n    #   one\n    #   three\n"
    )
    assert packages(text) == [
        Package("one", "1.0", is_runtime=True, wanted_by=("faying",)),
        Package("two", "2.0", is_runtime=False, wanted_by=("one", "three")),
    ]


@pytest.mark.parametrize(
    ("expression", "runtime", "contributors"),
    [
        ("MIT", True, True),
        ("GPL-3.0-only", False, False),
        ("AGPL-3.0-only OR MIT", True, True),
        ("AGPL-3.0-only AND MIT", False, False),
        ("MPL-2.0 AND (Apache-2.0 OR MIT)", True, True),
        ("MIT-CMU", False, True),
        ("LicenseRef-Proprietary", False, False),
    ],
)
def test_a_licence_is_allowed_if_all_that_has_to_be_met_can_be(
    expression: str, *, runtime: bool, contributors: bool
) -> None:
    assert is_allowed(expression, is_runtime=True) is runtime
    assert is_allowed(expression, is_runtime=False) is contributors


def test_a_package_that_does_not_say_its_licence_is_not_guessed(monkeypatch: pytest.MonkeyPatch) -> None:
    class Silent(dict[str, str]):
        def get_all(self, _name: str) -> list[str]:
            return ["Topic :: Software Development", "License :: OSI Approved :: Strange License"]

    monkeypatch.setattr(licences, "metadata", lambda _name: Silent())
    with pytest.raises(UnknownLicenceError):
        licence_of("silent")


def test_everything_that_is_allowed_says_what_it_asks_for() -> None:
    assert all({**licences.ALLOWED, **licences.ALLOWED_TO_CONTRIBUTORS}.values())


@pytest.fixture(scope="module")
def bill() -> dict[str, Any]:
    document: dict[str, Any] = json.loads(written(bill_of(PACKAGES)))
    return document


def test_the_bill_keeps_to_the_schema_of_cyclonedx(bill: dict[str, Any]) -> None:
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(json.dumps(bill)) is None
    assert bill["bomFormat"] == "CycloneDX"


def test_the_bill_lists_every_package_with_its_licence(bill: dict[str, Any]) -> None:
    listed = {(each["name"], each["version"], each["scope"]) for each in bill["components"]}
    scopes = {True: "required", False: "excluded"}
    assert listed == {(each.name, each.version, scopes[each.is_runtime]) for each in PACKAGES}
    assert all(each["licenses"] for each in bill["components"])
    assert all(each["purl"].startswith("pkg:pypi/") for each in bill["components"])


def test_the_bill_says_who_needs_whom(bill: dict[str, Any]) -> None:
    needs = {each["ref"]: set(each.get("dependsOn", ())) for each in bill["dependencies"]}
    versions = {package.name: f"{package.name}=={package.version}" for package in PACKAGES}
    assert {versions["fastapi"], versions["pyjwt"]} <= needs["faying"]
    assert versions["starlette"] in needs[versions["fastapi"]]


def test_the_bill_is_of_this_version() -> None:
    project = tomllib.loads((PROJECT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["version"] == VERSION


def test_the_bill_names_no_host(bill: dict[str, Any]) -> None:
    text = json.dumps({name: value for name, value in bill.items() if name != "$schema"})
    addresses = [word for word in text.split('"') if "://" in word and "cyclonedx" not in word.lower()]
    assert addresses == []


def test_the_report_lists_every_package() -> None:
    lines = run.report(PACKAGES).splitlines()
    assert len(lines) == len(PACKAGES) + 4
    assert not any("**no**" in line for line in lines)
