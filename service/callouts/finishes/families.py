"""All finish grammars in the order in which they are asked."""

from __future__ import annotations

from service.callouts.finishes import (
    aluminium_films,
    boards,
    cadmium,
    chromium,
    fastener_codes,
    flake,
    gold,
    hot_dip,
    iso_codes,
    nickel,
    organic,
    silver,
    stacks,
    steel_films,
    tin,
    zinc,
)
from service.callouts.marks import Spec

_FAMILIES = (
    hot_dip,
    zinc,
    flake,
    cadmium,
    boards,
    gold,
    silver,
    tin,
    nickel,
    chromium,
    aluminium_films,
    steel_films,
    organic,
)
PATTERNS = (
    iso_codes.PATTERNS
    + stacks.PATTERNS
    + fastener_codes.PATTERNS
    + tuple(entry for family in _FAMILIES for entry in family.PATTERNS)
)
PHRASES = tuple(family.PHRASES for family in _FAMILIES)
SPECS: dict[str, Spec] = {key: spec for family in _FAMILIES for key, spec in family.SPECS.items()}
