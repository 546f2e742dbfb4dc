"""Texts offered while somebody types a surface: materials first, finishes once a material stands there."""

from __future__ import annotations

from service.callouts import Resolver
from service.catalogue.catalogue import Catalogue

MOST = 12


def suggestions(text: str, catalogue: Catalogue) -> list[str]:
    """Texts that continue what is typed; after a comma or a semicolon, the finishes that fit behind it."""
    cut = max(text.rfind(","), text.rfind(";"))
    head, tail = text[: cut + 1], text[cut + 1 :].strip().lower()
    if head and tail:
        return [f"{head} {name}" for name in _finishes(tail, catalogue)][:MOST]
    near = Resolver.of(catalogue).suggest(text, MOST)
    return list(dict.fromkeys([*near, *_finishes(tail, catalogue)]))[:MOST]


def _finishes(part: str, catalogue: Catalogue) -> list[str]:
    """Names of finishes that hold every word of a text, those that begin with it first."""
    words = part.split()
    names = [
        finish.name
        for finish in catalogue.finishes.values()
        if words and all(word in finish.name.lower() for word in words)
    ]
    return sorted(names, key=lambda name: (not name.lower().startswith(part), len(name), name))
