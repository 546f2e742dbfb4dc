"""One clear line, and no traceback, for what a person at a terminal can put right."""

from __future__ import annotations

import sys
from typing import Any

import typer
from pydantic import ValidationError
from sqlalchemy.exc import OperationalError
from typer.core import TyperGroup

from service.access.errors import AccessError
from service.assemblies.errors import AssemblyError
from service.catalogue.errors import CatalogueError
from service.judgement.errors import JudgementError
from service.storage.errors import StorageError


class Failure(Exception):  # noqa: N818 - a command that fails is no error of the program
    """A command cannot go on; its text is the one line that the person sees."""


KNOWN = (Failure, StorageError, AccessError, CatalogueError, JudgementError, AssemblyError)


class CommandGroup(TyperGroup):
    """A group of commands whose known errors end in one line and exit status 1."""

    def invoke(self, ctx: Any) -> Any:
        """Run a command."""
        try:
            return super().invoke(ctx)
        except KNOWN as error:
            reason = str(error)
        except OperationalError as error:
            reason = f"the database does not answer: {first_line(error.orig)}"
        except ValidationError as error:
            reason = settings_fault(error)
        sys.stderr.write(f"faying: {reason}\n")
        raise typer.Exit(1)


def first_line(error: object) -> str:
    """Return the first line of an error's text."""
    return (str(error).strip().splitlines() or ["no reason given"])[0]


def settings_fault(error: ValidationError) -> str:
    """Say which setting is wrong and why."""
    fault = error.errors()[0]
    name = "_".join(str(part) for part in fault["loc"]).upper()
    return f"FAYING_{name}: {fault['msg']}" if name else f"settings: {fault['msg']}"
