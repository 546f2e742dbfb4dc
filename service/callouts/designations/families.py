"""All designation grammars in the order in which they are asked."""

from __future__ import annotations

from service.callouts.designations import (
    aluminium,
    castings,
    copper,
    gaskets,
    nickel,
    nonmetals,
    other_metals,
    relatives,
    stainless,
    steel,
    tempers,
    titanium,
    unlisted,
)

_FAMILIES = (
    relatives,
    aluminium,
    stainless,
    steel,
    copper,
    nickel,
    titanium,
    castings,
    gaskets,
    other_metals,
    nonmetals,
)
PATTERNS = tuple(entry for family in _FAMILIES for entry in family.PATTERNS) + tempers.PATTERNS
LAST_PATTERNS = unlisted.PATTERNS
PHRASES = tuple(family.PHRASES for family in _FAMILIES)
