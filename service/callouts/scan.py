"""From normalised text to marks that do not overlap: the longest understanding of each stretch wins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cache

from service.callouts import asides, designations, specifications, thickness
from service.callouts.finishes import PATTERNS as FINISH_PATTERNS
from service.callouts.finishes import PHRASES as FINISH_PHRASES
from service.callouts.finishes import traits
from service.callouts.lexicon import Lexicon, Token, key_of, tokens_of
from service.callouts.marks import Bare, Callout, Coat, Mark, MetalClass, Option, Several
from service.callouts.patterns import Pattern, marks_of
from service.callouts.phrases import PhraseBook

BARE_FINISH = "none-bare"
"""Identifier of the finish that is none; a surface writes it as no layer."""

_TIERS: tuple[tuple[Pattern, ...], ...] = (
    FINISH_PATTERNS + thickness.PATTERNS,
    designations.PATTERNS,
    specifications.PATTERNS,
    traits.PATTERNS,
)
"""Where two patterns understand the same stretch, the earlier tier wins."""


@cache
def phrase_book() -> PhraseBook:
    """Compile the words that carry meaning."""
    return PhraseBook.of((*designations.PHRASES, *FINISH_PHRASES, traits.PHRASES, asides.COMPOUND_PHRASES))


@cache
def aside_book() -> PhraseBook:
    """Compile the words that carry none."""
    return PhraseBook.of((asides.PHRASES,))


def scan(text: str, lexicon: Lexicon) -> tuple[list[Mark], list[Token]]:
    """Return the marks of a text in order, and the words that nothing explains."""
    tokens = tokens_of(text)
    covered = bytearray(len(text))
    marks = list(_longest_first(_meanings(text, tokens, lexicon), covered))
    unlisted = marks_of(designations.LAST_PATTERNS, text, lexicon)
    marks.extend(_longest_first([(mark, 0) for mark in unlisted], covered))
    rest = [*marks_of(asides.PATTERNS, text, lexicon), *aside_book().marks_in(text, tokens)]
    marks.extend(_longest_first([(mark, 0) for mark in rest], covered))
    marks = [single for mark in marks for single in _singles(mark)]
    marks.sort(key=lambda mark: mark.start)
    return marks, [token for token in tokens if not any(covered[token.start : token.end])]


def _singles(mark: Mark) -> tuple[Mark, ...]:
    if isinstance(mark.sense, Several):
        return tuple(replace(mark, sense=sense) for sense in mark.sense.senses)
    return (mark,)


def _meanings(text: str, tokens: list[Token], lexicon: Lexicon) -> list[tuple[Mark, int]]:
    found = [
        (mark, tier) for tier, patterns in enumerate(_TIERS) for mark in marks_of(patterns, text, lexicon)
    ]
    tier = len(_TIERS)
    found.extend((mark, tier) for mark in phrase_book().marks_in(text, tokens))
    found.extend((mark, tier + 1) for mark in _names(text, tokens, lexicon))
    return found


def _names(text: str, tokens: list[Token], lexicon: Lexicon) -> Iterator[Mark]:
    found = list(lexicon.names_in(text, tokens))
    whole = key_of(text)
    if whole in lexicon.alloys and whole not in lexicon.generic:
        found.append((tokens[0].start, tokens[-1].end, whole))
    for start, end, key in found:
        alloy = lexicon.alloys.get(key)
        if alloy is None:
            finishes = lexicon.finishes[key]
            if finishes == (BARE_FINISH,):
                yield Mark(start, end, Bare(), "catalogue name of no finish")
                continue
            options = tuple(Option(name) for name in finishes)
            yield Mark(
                start, end, Callout((Coat(finishes[0], options=options),)), "catalogue name of a finish"
            )
        elif key in lexicon.generic:
            if text[start:end].isalpha() and key != whole:
                continue  # a single generic word is left to the grammars: lead, tin, iron
            names = ", ".join(lexicon.catalogue.materials[name].name for name in alloy.options)
            question = f"Which grade is it, {names} or another?"
            sense = MetalClass(text[start:end], frozenset({alloy.family}), alloy.options, question)
            yield Mark(start, end, sense, "generic name")
        else:
            yield Mark(start, end, alloy, "catalogue designation")


def _longest_first(found: Iterable[tuple[Mark, int]], covered: bytearray) -> Iterator[Mark]:
    """Yield marks that do not overlap and note what they cover."""
    for mark, _tier in sorted(
        found, key=lambda entry: (entry[0].start - entry[0].end, entry[1], entry[0].start)
    ):
        stretch = covered[mark.start : mark.end]
        if any(stretch):
            continue
        covered[mark.start : mark.end] = b"\x01" * len(stretch)
        yield mark
