"""The demonstration of the whole integration is run as it is shown."""

from __future__ import annotations

from pathlib import Path

from tests.acceptance.demo_station import run


def test_a_moved_figure_reaches_the_receiver_signed_and_with_its_cause(database_file: Path) -> None:
    said: list[str] = []
    message = run(database_file, said.append)
    assert message["type"] == "verdicts.corrected"
    (joint,) = message["data"]["detail"]["joints"]
    assert joint["before"]["verdict"] != joint["after"]["verdict"]
    causes = {(cause["table"], cause["key"][0], cause["field"]) for cause in joint["because"]}
    assert causes == {("limits", "anodic-index-harsh", "limit_V")}
    assert said[0].startswith("checked: 34 joints")
    assert any(line.startswith("substitute for SK-1112:") for line in said)
