"""Drawing text to surfaces: material, finish and thickness with a confidence and the reasons."""

from service.callouts.formatting import format_surface, notations_of
from service.callouts.reading import Candidate, Match, Reading, Span
from service.callouts.resolver import LONGEST_TEXT, Resolver

__all__ = [
    "LONGEST_TEXT",
    "Candidate",
    "Match",
    "Reading",
    "Resolver",
    "Span",
    "format_surface",
    "notations_of",
]
