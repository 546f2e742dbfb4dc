"""The command line, one module for each thing that one may want to do."""

from service.commands.errors import CommandGroup, Failure

__all__ = ["CommandGroup", "Failure"]
