"""Drawing text to surfaces: the entry of the room."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from threading import Lock
from typing import ClassVar, Self

from service.callouts.compose import BASIS_OPEN, NO_FINISH_NAMED, Text, compose
from service.callouts.finishes.deciders import kind_of
from service.callouts.finishes.implied_basis import IMPLIED_BASIS
from service.callouts.lexicon import Lexicon, Token
from service.callouts.marks import Alloy, Bare, Callout, Coat, Mark, Option, Sense
from service.callouts.normalise import Normalised, normalise
from service.callouts.reading import Candidate, Match, Reading, Span
from service.callouts.scan import BARE_FINISH, aside_book, phrase_book, scan
from service.callouts.search import TrigramIndex
from service.callouts.spelling import Vocabulary, corrected
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface

LONGEST_TEXT = 10_240
"""Characters of a text that are read; a longer one is answered as unknown, with the reason."""

SUGGESTIONS = 5
_LONGEST_SEARCHED = 80
"""Longer texts are not a name with a typing error in it."""
_SURE_SCORE = 90.0
_WORTH_SAYING = 55.0
_CLEAR_LEAD = 4.0
_FUZZY_CONFIDENCE = 0.7
_KEPT_CATALOGUES = 4
_NO_FINISH_NOTES = frozenset(
    ["-", "none", "n/a", "na", "nil", "no", "keine", "keiner", "ohne", "sans", "aucun", "aucune"]
)


@dataclass(frozen=True, slots=True)
class Resolver:
    """Reads drawing text against one catalogue. Get it with ``Resolver.of``."""

    catalogue: Catalogue
    lexicon: Lexicon
    index: TrigramIndex
    vocabulary: Vocabulary
    names: dict[str, str]

    _known: ClassVar[dict[str, Resolver]] = {}
    _building: ClassVar[Lock] = Lock()

    @classmethod
    def of(cls, catalogue: Catalogue) -> Resolver:
        """Return the resolver of a catalogue; those of the last few are kept by content hash."""
        with cls._building:
            known = cls._known.pop(catalogue.content_hash, None) or cls._built(catalogue)
            cls._known[catalogue.content_hash] = known
            while len(cls._known) > _KEPT_CATALOGUES:
                cls._known.pop(next(iter(cls._known)))
        return known

    @classmethod
    def _built(cls, catalogue: Catalogue) -> Self:
        lexicon = Lexicon.of(catalogue)
        written = {normalise(text).text: text for text in (*lexicon.exact_materials, *lexicon.exact_finishes)}
        words = {word for name in written for word in name.replace("-", " ").split()}
        spoken = phrase_book().words | aside_book().words
        vocabulary = Vocabulary.of(words | spoken, spoken)
        return cls(catalogue, lexicon, TrigramIndex.of(written), vocabulary, written)

    def resolve(self, text: str) -> Reading:
        """Read one text. Never raises: what cannot be read comes back as unknown with a reason."""
        refused = _refused(text)
        if refused is not None:
            return refused
        identified = self._identified(text)
        if identified is not None:
            return identified
        return self._upgraded(self._read(text, normalise(text)))

    def resolve_notes(self, material_note: str, finish_note: str) -> Reading:
        """Read a material note and a finish note that came as separate fields.

        The text of the reading is both notes joined by a line feed, and spans refer to it.
        """
        joined = f"{material_note}\n{finish_note}"
        refused = _refused(joined)
        if refused is not None:
            return refused
        normalised = normalise(joined)
        start = len(normalise(f"{material_note}\n").text)
        return self._read(joined, normalised, start)

    def resolve_many(self, texts: Iterable[str]) -> list[Reading]:
        """Read many texts; a text that occurs again is read once."""
        seen: dict[str, Reading] = {}
        return [seen[text] if text in seen else seen.setdefault(text, self.resolve(text)) for text in texts]

    def suggest(self, text: str, limit: int = SUGGESTIONS) -> list[str]:
        """Return names of materials and finishes that start like the text or resemble it."""
        wanted = normalise(text[:_LONGEST_SEARCHED]).text.strip()
        if not wanted:
            return []
        starts = sorted((name for name in self.names if name.startswith(wanted)), key=len)
        hits = self.index.nearest(wanted, limit, same_codes=False)
        near = [hit.name for hit in hits if hit.score >= _WORTH_SAYING]
        return [self.names[name] for name in dict.fromkeys((*starts, *near))][:limit]

    def _identified(self, text: str) -> Reading | None:
        """An identifier of the catalogue needs no reading."""
        name = text.strip()
        start = text.index(name)
        if name in self.catalogue.materials:
            span = Span("material", start, start + len(name), "identifier")
            surface = Surface(name)
            return _exactly(text, Candidate(surface, 1.0, (span,), (NO_FINISH_NAMED,)))
        if name in self.catalogue.finishes:
            span = Span("finish", start, start + len(name), "identifier")
            surface = Surface(None, _layers(name), basis_family=IMPLIED_BASIS.get(name, ""))
            return _exactly(text, Candidate(surface, 1.0, (span,), missing=(BASIS_OPEN,)))
        return None

    def _upgraded(self, reading: Reading) -> Reading:
        """A reading of a name that the catalogue holds verbatim is exact."""
        name = reading.text.strip()
        if reading.match is not Match.NORMALISED:
            return reading
        if name not in self.lexicon.exact_materials and name not in self.lexicon.exact_finishes:
            return reading
        return replace(reading, match=Match.EXACT)

    def _read(self, text: str, normalised: Normalised, finish_from: int | None = None) -> Reading:
        marks, unread = self._marks(text, normalised, finish_from)
        reading = compose(Text(text, normalised, marks, unread, finish_from=finish_from), self.lexicon)
        if unread:
            reading = self._with_slips_corrected(reading, normalised, unread, finish_from)
        return reading if reading.match is not Match.UNKNOWN else self._searched(reading, normalised)

    def _marks(
        self, text: str, normalised: Normalised, finish_from: int | None
    ) -> tuple[tuple[Mark, ...], tuple[Token, ...]]:
        marks, unread = scan(normalised.text, self.lexicon)
        if finish_from is None:
            return tuple(marks), tuple(unread)
        for start, end in ((0, finish_from - 1), (finish_from, len(normalised.text))):
            first, last = normalised.span(start, end) if start < end else (0, 0)
            sense = self._whole_note(text[first:last].strip(), is_finish=start > 0)
            if sense is not None:
                marks = [mark for mark in marks if mark.end <= start or mark.start >= end]
                unread = [token for token in unread if token.end <= start or token.start >= end]
                marks.append(Mark(start, end, sense, "identifier"))
        return tuple(sorted(marks, key=lambda mark: mark.start)), tuple(unread)

    def _whole_note(self, note: str, *, is_finish: bool) -> Sense | None:
        if is_finish and (note == BARE_FINISH or note.lower() in _NO_FINISH_NOTES):
            return Bare()
        if is_finish and note in self.catalogue.finishes:
            return Callout((Coat(kind_of(note), options=(Option(note),)),))
        if not is_finish and note in self.catalogue.materials:
            return Alloy((note,), self.lexicon.family(note))
        return None

    def _with_slips_corrected(
        self, reading: Reading, normalised: Normalised, unread: tuple[Token, ...], finish_from: int | None
    ) -> Reading:
        """Read again with typing errors put right; keep the first reading if that changes nothing."""
        better = corrected(normalised, unread, self.vocabulary)
        if better is None:
            return reading
        if finish_from is not None:
            finish_from += len(better.text) - len(normalised.text) if unread[0].start < finish_from else 0
        marks, left = scan(better.text, self.lexicon)
        text = Text(
            reading.text, better, tuple(marks), tuple(left), is_corrected=True, finish_from=finish_from
        )
        again = compose(text, self.lexicon)
        if again.match is Match.UNKNOWN is reading.match:
            return replace(reading, reason=again.reason, is_insulator=again.is_insulator)
        if again.match is Match.UNKNOWN or _surfaces(again) == _surfaces(reading):
            return reading
        return again

    def _searched(self, reading: Reading, normalised: Normalised) -> Reading:
        """Look for the whole text among the names; what is not surely one of them is suggested."""
        wanted = normalised.text.strip()
        if len(wanted) > _LONGEST_SEARCHED:
            return reading
        hits = self.index.nearest(wanted, 2, same_codes=True)
        if (
            hits
            and hits[0].score >= _SURE_SCORE
            and (len(hits) == 1 or hits[0].score - hits[1].score >= _CLEAR_LEAD)
        ):
            name = self.names[hits[0].name]
            marks, unread = scan(hits[0].name, self.lexicon)
            found = compose(Text(name, Normalised(hits[0].name), tuple(marks), tuple(unread)), self.lexicon)
            if found.match is not Match.UNKNOWN:
                return _as_fuzzy(reading, found, hits[0].score)
        return replace(reading, suggestions=tuple(self.suggest(reading.text)))


def _refused(text: str) -> Reading | None:
    if len(text) > LONGEST_TEXT:
        return Reading(text, Match.UNKNOWN, reason=f"longer than {LONGEST_TEXT} characters: not read")
    return None if text.strip() else Reading(text, Match.UNKNOWN, reason="empty text")


def _exactly(text: str, candidate: Candidate) -> Reading:
    return Reading(text, Match.EXACT, (candidate,))


def _layers(finish_id: str) -> tuple[Layer, ...]:
    return () if finish_id == BARE_FINISH else (Layer(finish_id),)


def _surfaces(reading: Reading) -> list[tuple[Surface, tuple[str, ...]]]:
    return [(candidate.surface, candidate.missing) for candidate in reading.candidates]


def _as_fuzzy(reading: Reading, found: Reading, score: float) -> Reading:
    """Carry the reading of a name over to the text that resembles it."""
    whole = (Span("material", 0, len(reading.text), f"resembles {found.text!r}"),)
    candidates = tuple(
        replace(c, spans=whole, confidence=float(f"{c.confidence * _FUZZY_CONFIDENCE * score / 100.0:.2g}"))
        for c in found.candidates
    )
    match = Match.AMBIGUOUS if found.match is Match.AMBIGUOUS else Match.FUZZY
    return Reading(reading.text, match, candidates, found.question)
