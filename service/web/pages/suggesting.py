"""Texts offered while somebody types a surface: materials first, finishes once a material stands there."""

from __future__ import annotations

from service.callouts import Resolver
from service.catalogue.catalogue import Catalogue
from service.remedies.feasibility import substrate_family, substrate_row

MOST = 12


def suggestions(text: str, catalogue: Catalogue) -> list[str]:
    """Texts that continue what is typed; after a comma or a semicolon, the finishes that fit there."""
    cut = max(text.rfind(","), text.rfind(";"))
    head, tail = text[: cut + 1], text[cut + 1 :].strip().lower()
    if head and tail:
        family = _family(head.rstrip(",; "), catalogue)
        return [f"{head} {name}" for name in _finishes(tail, family, catalogue)][:MOST]
    near = Resolver.of(catalogue).suggest(text, MOST)
    return list(dict.fromkeys([*near, *_finishes(tail, "", catalogue)]))[:MOST]


def _family(text: str, catalogue: Catalogue) -> str:
    """Family of the material that a text means, empty where it means none or several."""
    candidates = Resolver.of(catalogue).resolve(text).candidates
    families = {substrate_family(candidate.surface, catalogue) for candidate in candidates}
    return families.pop() if len(families) == 1 else ""


def _finishes(part: str, family: str, catalogue: Catalogue) -> list[str]:
    """Names of finishes for a family that hold every word of a text, those that begin with it first."""
    words = part.split()
    names = [
        finish.name
        for finish in catalogue.finishes.values()
        if words
        and all(word in finish.name.lower() for word in words)
        and (not family or _goes_on(finish.id, family, catalogue))
    ]
    return sorted(names, key=lambda name: (not name.lower().startswith(part), len(name), name))


def _goes_on(finish_id: str, family: str, catalogue: Catalogue) -> bool:
    row = substrate_row(finish_id, family, catalogue)
    return row is not None and row.suitability != "no"
