"""From normalised text to marks that do not overlap: the longest understanding of each stretch wins."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from functools import cache
from operator import itemgetter

from service.callouts import asides, quantities, specifications, thickness, translations
from service.callouts.designations import families as designations
from service.callouts.finishes import families as finishes
from service.callouts.finishes import traits
from service.callouts.finishes.deciders import kind_of
from service.callouts.lexicon import Lexicon, Token, joined, tokens_of
from service.callouts.marks import Bare, Callout, Coat, Mark, MetalClass, Option, Several
from service.callouts.patterns import Pattern, grams_of, guards_of, marks_of
from service.callouts.phrases import PhraseBook

BARE_FINISH = "none-bare"
"""Identifier of the finish that is none; a surface writes it as no layer."""

_FIRST: tuple[tuple[Pattern, ...], ...] = (finishes.PATTERNS + thickness.PATTERNS, designations.PATTERNS)
_LAST: tuple[tuple[Pattern, ...], ...] = (specifications.PATTERNS, traits.PATTERNS + quantities.PATTERNS)
"""Where two grammars understand the same stretch, codes go before words, words before the names of the
catalogue, and these before the numbers of documents."""


_GUARDS = guards_of(
    entry for patterns in (*_FIRST, *_LAST, designations.LAST_PATTERNS, asides.PATTERNS) for entry in patterns
)


@cache
def phrase_book() -> PhraseBook:
    """Compile the words that carry meaning."""
    tables = (*designations.PHRASES, *finishes.PHRASES, traits.PHRASES, asides.COMPOUND_PHRASES)
    return PhraseBook.of((*tables, translations.translated(tables)))


@cache
def aside_book() -> PhraseBook:
    """Compile the words that carry none."""
    return PhraseBook.of((asides.PHRASES, translations.ASIDES))


def scan(text: str, lexicon: Lexicon) -> tuple[list[Mark], list[Token]]:
    """Return the marks of a text in order, and the words that nothing explains."""
    tokens = tokens_of(text)
    grams = grams_of(text) & _GUARDS
    covered = bytearray(len(text))
    meanings = _meanings(text, tokens, grams, lexicon)
    marks = _longest_first(meanings, covered)
    if _has_lost_a_number(meanings, tokens, covered):
        left = _blanked(text, covered)
        marks += _longest_first(_meanings(left, tokens_of(left), grams_of(left) & _GUARDS, lexicon), covered)
    marks += _longest_first(
        [(0, mark) for mark in marks_of(designations.LAST_PATTERNS, text, grams, lexicon)], covered
    )
    rest = _uncovered(tokens, covered)
    asides_found = [*marks_of(asides.PATTERNS, text, grams, lexicon), *aside_book().marks_in(text, rest)]
    marks += _longest_first([(0, mark) for mark in asides_found], covered)
    marks = [single for mark in marks for single in _singles(mark)]
    marks.sort(key=_START)
    return marks, _uncovered(rest, covered)


_START = itemgetter(0)
_TAKEN, _FREE = b"\x01", b"\x00"
_DIGIT = re.compile(r"\d")


def _has_lost_a_number(
    meanings: Iterable[tuple[int, Mark]], tokens: Sequence[Token], covered: bytearray
) -> bool:
    """Whether a number was understood only together with a word that a longer phrase took from it.

    In *cold rolled steel 1008* the phrase takes the word of *steel 1008*.
    """
    starts = [token.start for token in tokens]
    for _, mark in meanings:
        if covered.find(_FREE, mark.start, mark.end) < 0 or covered.find(_TAKEN, mark.start, mark.end) < 0:
            continue
        within = tokens[bisect_left(starts, mark.start) : bisect_left(starts, mark.end)]
        if any(_DIGIT.search(token.text) and not covered[token.start] for token in within):
            return True
    return False


def _blanked(text: str, covered: bytearray) -> str:
    """Replace what is understood by commas, so that the rest keeps its place."""
    return "".join("," if taken else character for character, taken in zip(text, covered, strict=True))


def _uncovered(tokens: Iterable[Token], covered: bytearray) -> list[Token]:
    return [token for token in tokens if covered.find(_TAKEN, token.start, token.end) < 0]


def _singles(mark: Mark) -> tuple[Mark, ...]:
    if isinstance(mark.sense, Several):
        return tuple(mark._replace(sense=sense) for sense in mark.sense.senses)
    return (mark,)


def _meanings(text: str, tokens: list[Token], grams: set[str], lexicon: Lexicon) -> list[tuple[int, Mark]]:
    sources: list[Iterable[Mark]] = [marks_of(patterns, text, grams, lexicon) for patterns in _FIRST]
    sources += [phrase_book().marks_in(text, tokens), _names(text, tokens, lexicon)]
    sources += [marks_of(patterns, text, grams, lexicon) for patterns in _LAST]
    return [(tier, mark) for tier, marks in enumerate(sources) for mark in marks]


def _names(text: str, tokens: list[Token], lexicon: Lexicon) -> Iterator[Mark]:
    found = list(lexicon.names_in(text, tokens))
    whole = joined(text, tokens)
    if whole in lexicon.alloys and whole not in lexicon.generic:
        found.append((tokens[0].start, tokens[-1].end, whole))
    for start, end, key in found:
        alloy = lexicon.alloys.get(key)
        if alloy is None:
            named = lexicon.finishes[key]
            if named == (BARE_FINISH,):
                yield Mark(start, end, Bare(), "catalogue name of no finish")
                continue
            options = tuple(Option(name) for name in named)
            yield Mark(
                start, end, Callout((Coat(kind_of(named[0]), options=options),)), "catalogue name of a finish"
            )
        elif key in lexicon.generic:
            if key != whole and _has_a_grammar(text[start:end]):
                continue  # lead, tin, iron
            names = ", ".join(lexicon.catalogue.materials[name].name for name in alloy.options)
            question = f"Which grade is it, {names} or another?"
            sense = MetalClass(text[start:end], frozenset({alloy.family}), alloy.options, question)
            yield Mark(start, end, sense, "generic name")
        else:
            yield Mark(start, end, alloy, "catalogue designation")


def _has_a_grammar(word: str) -> bool:
    """Whether a single generic word is among the words that the grammars know."""
    books = (phrase_book().entries.get(word, ()), aside_book().entries.get(word, ()))
    return any(words == (word,) for entries in books for words, _ in entries)


def _longest_first(found: Iterable[tuple[int, Mark]], covered: bytearray) -> list[Mark]:
    """Choose marks that do not overlap, the longest first, and note what they cover."""
    ranked = [
        (mark.start - mark.end, tier, mark.start, place, mark) for place, (tier, mark) in enumerate(found)
    ]
    chosen = []
    for length, _tier, start, _place, mark in sorted(ranked):
        if covered.find(_TAKEN, start, mark.end) < 0:
            covered[start : mark.end] = _TAKEN * -length
            chosen.append(mark)
    return chosen
