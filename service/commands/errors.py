"""One clear line, and no traceback, for what a person at a terminal can put right."""

from __future__ import annotations

import sys
from typing import Any

import typer
from pydantic import ValidationError
from sqlalchemy.exc import SQLAlchemyError
from typer.core import TyperGroup

from service.storage.distress import distress


class Failure(Exception):  # noqa: N818 - a command that fails is no error of the program
    """A command cannot go on; its text is the one line that the person sees."""


class CommandGroup(TyperGroup):
    """A group of commands whose known errors end in one line and exit status 1."""

    def invoke(self, ctx: Any) -> Any:
        """Run a command."""
        try:
            return super().invoke(ctx)
        except SQLAlchemyError as error:
            trouble = distress(error)
            if trouble is None:
                raise
            reason = f"the database {trouble.distress.value}: {first_line(getattr(error, 'orig', error))}"
        except ValidationError as error:
            reason = settings_fault(error)
        except Exception as error:
            if not is_known(error):
                raise
            reason = str(error)
        sys.stderr.write(f"faying: {reason}\n")
        raise typer.Exit(1)


def is_known(error: Exception) -> bool:
    """Tell whether an error is one that a room of ours raises on purpose.

    Told by where its class is defined, so that the rooms need not be imported to ask.
    """
    module = type(error).__module__
    return module.startswith("service.") and module.endswith(".errors")


def first_line(error: object) -> str:
    """Return the first line of an error's text."""
    return (str(error).strip().splitlines() or ["no reason given"])[0]


def settings_fault(error: ValidationError) -> str:
    """Say which setting is wrong and why."""
    fault = error.errors()[0]
    name = "_".join(str(part) for part in fault["loc"]).upper()
    return f"FAYING_{name}: {fault['msg']}" if name else f"settings: {fault['msg']}"
