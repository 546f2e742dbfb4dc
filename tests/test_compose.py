"""The container set-up promises what the README says; nothing here needs a container engine."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml

PROJECT = Path(__file__).resolve().parents[1]
COMPOSE: dict[str, Any] = yaml.safe_load((PROJECT / "docker-compose.yml").read_text(encoding="utf-8"))
OURS = sorted(name for name, service in COMPOSE["services"].items() if service["image"] == "faying")


@pytest.mark.parametrize("name", OURS)
def test_our_containers_are_locked_down(name: str) -> None:
    service = COMPOSE["services"][name]
    assert service["read_only"]
    assert service["cap_drop"] == ["ALL"]
    assert "no-new-privileges:true" in service["security_opt"]
    assert re.search(r"^USER [1-9]", service["build"]["dockerfile_inline"], re.MULTILINE)


@pytest.mark.parametrize("name", sorted(COMPOSE["services"]))
def test_secrets_come_from_files(name: str) -> None:
    service = COMPOSE["services"][name]
    assert set(service["secrets"]) <= set(COMPOSE["secrets"])
    for variable, value in service.get("environment", {}).items():
        if "PASSWORD" in variable or "URL" in variable or "PEPPER" in variable:
            assert variable.endswith("_FILE"), variable
            assert str(value).startswith("/run/secrets/")


def test_the_database_is_migrated_once_before_anything_answers() -> None:
    assert COMPOSE["services"]["migrate"]["depends_on"]["database"] == {"condition": "service_healthy"}
    for name in OURS:
        if name != "migrate":
            waits = COMPOSE["services"][name]["depends_on"]["migrate"]
            assert waits == {"condition": "service_completed_successfully"}


def test_what_keeps_running_is_watched() -> None:
    for name, service in COMPOSE["services"].items():
        if service["restart"] != "no":
            assert service["healthcheck"], name


def test_the_image_copies_only_what_is_there() -> None:
    recipe = COMPOSE["services"]["api"]["build"]["dockerfile_inline"]
    for line in re.findall(r"^COPY (?!--from)(.*)$", recipe, re.MULTILINE):
        for name in line.split()[:-1]:
            assert (PROJECT / name).exists(), name


def test_the_image_stops_reading_the_lock_file_where_development_begins() -> None:
    recipe = COMPOSE["services"]["api"]["build"]["dockerfile_inline"]
    pattern = re.search(r"sed '/(\^.*?)/,", recipe)
    assert pattern
    lock = (PROJECT / "requirements.lock").read_text(encoding="utf-8")
    runtime = lock[: re.search(pattern[1], lock, re.MULTILINE).start()]  # type: ignore[union-attr]
    assert "uvicorn==" in runtime
    assert "pytest==" not in runtime
