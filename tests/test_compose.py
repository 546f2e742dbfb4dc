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


@pytest.mark.parametrize("name", sorted(COMPOSE["services"]))
def test_every_container_is_locked_down(name: str) -> None:
    service = COMPOSE["services"][name]
    assert service["read_only"] is True
    assert service["cap_drop"] == ["ALL"]
    assert not service.get("cap_add")
    assert service["security_opt"] == ["no-new-privileges:true"]
    assert service["init"] is True
    for forbidden in ("privileged", "network_mode", "pid", "ipc", "devices", "userns_mode"):
        assert forbidden not in service
    assert not any("docker.sock" in str(volume) for volume in service.get("volumes", ()))


@pytest.mark.parametrize("name", sorted(COMPOSE["services"]))
def test_nobody_is_root(name: str) -> None:
    service = COMPOSE["services"][name]
    recipe = service.get("build", {}).get("dockerfile_inline", "")
    last = re.findall(r"^USER (\S+)", recipe, re.MULTILINE)[-1:] or [service.get("user")]
    assert last[0]
    assert str(last[0]) not in {"root", "0"}


@pytest.mark.parametrize("name", sorted(COMPOSE["services"]))
def test_nobody_can_take_the_whole_machine(name: str) -> None:
    service = COMPOSE["services"][name]
    limits = service["deploy"]["resources"]["limits"]
    assert set(limits) == {"cpus", "memory", "pids"}
    assert int(service["logging"]["options"]["max-file"]) > 0
    for mount in service["tmpfs"]:
        options = mount.partition(":")[2].split(",")
        assert any(option.startswith("size=") for option in options), mount
        assert {"noexec", "nosuid", "nodev"} <= set(options) or mount.startswith("/run/"), mount


def seconds(text: str) -> int:
    return int(text.removesuffix("s"))


def test_whoever_is_told_to_stop_has_time_to_end_its_work() -> None:
    source = (PROJECT / "service" / "commands" / "serving.py").read_text(encoding="utf-8")
    drains = re.search(r"timeout_graceful_shutdown=(\d+)", source)
    assert drains
    services = COMPOSE["services"]
    assert seconds(services["api"]["stop_grace_period"]) > int(drains[1])
    assert seconds(services["worker"]["stop_grace_period"]) >= 60
    assert seconds(services["database"]["stop_grace_period"]) >= 60


def test_only_the_api_is_reached_from_outside_and_by_default_from_this_machine() -> None:
    services = COMPOSE["services"]
    assert [name for name, service in services.items() if service.get("ports")] == ["api"]
    assert all(port.startswith("${FAYING_ADDRESS:-127.0.0.1}:") for port in services["api"]["ports"])
    assert COMPOSE["networks"]["inside"]["internal"] is True
    assert services["database"]["networks"] == services["migrate"]["networks"] == ["inside"]


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
