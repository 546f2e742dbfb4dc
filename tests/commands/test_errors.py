from __future__ import annotations

import pytest
import typer
from pydantic import ValidationError
from typer.testing import CliRunner

from service.commands.errors import CommandGroup, Failure, first_line, is_known, settings_fault
from service.settings import Settings
from service.storage.errors import UnknownReleaseError


def program(error: Exception) -> typer.Typer:
    app = typer.Typer(cls=CommandGroup, pretty_exceptions_enable=False)

    @app.command()
    def fail() -> None:
        raise error

    @app.command()
    def other() -> None:
        """Make a group of it: one command alone would be no group."""

    return app


@pytest.mark.parametrize("error", [Failure("it cannot be"), UnknownReleaseError("2026.11.25-1")])
def test_a_known_error_is_one_line_and_status_1(error: Exception) -> None:
    result = CliRunner().invoke(program(error), ["fail"])
    assert (result.exit_code, result.stderr) == (1, f"faying: {error}\n")


def test_an_unknown_error_is_not_hidden() -> None:
    result = CliRunner().invoke(program(ZeroDivisionError("a fault of ours")), ["fail"])
    assert isinstance(result.exception, ZeroDivisionError)


def test_only_the_first_line_of_a_driver_is_shown() -> None:
    assert first_line("refused\nmore\n") == "refused"
    assert first_line(None) == "None"
    assert first_line("") == "no reason given"


def test_a_fault_in_the_settings_names_the_variable() -> None:
    with pytest.raises(ValidationError) as caught:
        Settings(port=70000)
    assert settings_fault(caught.value).startswith("FAYING_PORT: ")


def test_a_fault_between_settings_is_told_too() -> None:
    with pytest.raises(ValidationError) as caught:
        Settings(host="0.0.0.0", development_key=Settings().effective_development_key)  # noqa: S104 - to be refused
    assert settings_fault(caught.value).startswith("settings: ")


def test_known_are_the_errors_that_rooms_define() -> None:
    assert is_known(UnknownReleaseError("never"))
    assert not is_known(ValueError("a fault of ours"))
