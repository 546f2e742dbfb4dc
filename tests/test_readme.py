"""The generated parts of README.md say what the code says."""

from __future__ import annotations

import json
from pathlib import Path

from service.__main__ import app
from service.settings import Settings

README = (Path(__file__).resolve().parents[1] / "README.md").read_text(encoding="utf-8")


def settings_table() -> str:
    lines = ["| variable | default | meaning |", "|---|---|---|"]
    for name, field in Settings.model_fields.items():
        default = shown(field.default)
        lines.append(f"| `FAYING_{name.upper()}` | {default} | {field.description} |")
    return "\n".join(lines)


def shown(default: object) -> str:
    value = default.get_secret_value() if hasattr(default, "get_secret_value") else default
    return f"`{value}`" if value not in {None, "", ()} else ""


def part(name: str) -> str:
    return README.split(f"<!-- {name} -->\n")[1].split(f"\n<!-- /{name} -->")[0]


def test_the_table_of_settings_is_the_one_of_the_code() -> None:
    assert part("settings") == settings_table(), f"put this into README.md:\n{settings_table()}"


def test_every_command_is_described() -> None:
    described = part("commands")
    names = [
        f"faying {info.name or info.callback.__name__}" for info in app.registered_commands if info.callback
    ]
    for group in app.registered_groups:
        assert group.typer_instance
        for info in group.typer_instance.registered_commands:
            assert info.callback
            names.append(f"faying {group.name} {info.name or info.callback.__name__}")
    assert [name for name in names if f"`{name}" not in described] == []


def test_the_first_answer_is_real_json() -> None:
    block = README.split("```json\n")[1].split("```")[0]
    assert json.loads(block)["verdict"] in {"suitable", "conditional", "unsuitable", "undetermined"}
