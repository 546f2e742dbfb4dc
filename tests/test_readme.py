"""The generated parts of README.md say what the code says.

Each failure prints the text that belongs into README.md.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from service.__main__ import app
from service.commands.greeting import FIRST_COUPLE
from service.judgement import Inquiry, Side, answer
from service.settings import Settings
from tests.validation.cases import seed_catalogue

README = (Path(__file__).resolve().parents[1] / "README.md").read_text(encoding="utf-8")


def part(name: str) -> str:
    return README.split(f"<!-- {name} -->\n")[1].split(f"\n<!-- /{name} -->")[0]


def settings_table() -> str:
    lines = ["| variable | default | meaning |", "|---|---|---|"]
    for name, field in Settings.model_fields.items():
        lines.append(f"| `FAYING_{name.upper()}` | {shown(field.default)} | {field.description} |")
    return "\n".join(lines)


def shown(default: object) -> str:
    value = default.get_secret_value() if hasattr(default, "get_secret_value") else default
    return f"`{value}`" if value not in {None, "", ()} else ""


def test_the_table_of_settings_is_the_one_of_the_code() -> None:
    expected = settings_table()
    assert part("settings") == expected, expected


def first_answer() -> str:
    """Abridge the answer to the first couple: some members whole, of evidence the first of each source."""
    inquiry = Inquiry(
        Side(text=FIRST_COUPLE["first"]), Side(text=FIRST_COUPLE["second"]), FIRST_COUPLE["environment"]
    )
    document = answer([inquiry], seed_catalogue())[0].document()
    screening = next(item for item in document["findings"] if item["witness"] == "screening")
    differences = ("difference_low_mV", "difference_high_mV", "permissible_difference_mV")
    abridged: dict[str, Any] = {
        "verdict": document["verdict"],
        "severity": document["severity"],
        "deciding_witness": document["deciding_witness"],
        "dissenting_witnesses": document["dissenting_witnesses"],
        "anode": document["anode"],
        "summary": {"line": document["summary"]["line"]},
        "loss": {
            name: document["loss"][name]
            for name in ("galvanic_rate_um_per_year", "galvanic_loss_um", "reach_mm", "allowance_um")
        },
        "findings": [
            {"witness": "screening", "figures": {name: screening["figures"][name] for name in differences}}
        ],
        "conditions": document["conditions"],
        "evidence": [
            {name: item[name] for name in ("quantity", "subject", "grade", "obtained", "citation")}
            for item in document["evidence"][:3]
        ],
        "engine": document["engine"],
    }
    return f"```json\n{json.dumps(abridged, indent=2, ensure_ascii=False)}\n```"


def test_the_first_answer_is_the_one_that_is_given() -> None:
    expected = first_answer()
    assert part("first answer") == expected, expected


def test_the_first_query_asks_for_it() -> None:
    query = README.split("<!-- first answer -->")[0]
    for name, value in FIRST_COUPLE.items():
        assert f"'{name}={value}'" in query


def commands() -> str:
    lines = ["| command | what it does |", "|---|---|"]
    for info in app.registered_commands:
        assert info.callback
        lines.append(command_line("", info.name or info.callback.__name__, info.callback.__doc__))
    for group in app.registered_groups:
        assert group.typer_instance
        for info in group.typer_instance.registered_commands:
            assert info.callback
            name = info.name or info.callback.__name__
            lines.append(command_line(f"{group.name} ", name, info.callback.__doc__))
    return "\n".join(lines)


def command_line(group: str, name: str, text: str | None) -> str:
    assert text
    return f"| `faying {group}{name}` | {text.splitlines()[0]} |"


def test_every_command_is_described() -> None:
    expected = commands()
    assert part("commands") == expected, expected
