"""Which material the marks of a text name, when designations, classes and tempers are put together."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from service.callouts.designations.other_metals import METAL_OF_COAT
from service.callouts.designations.tempers import with_temper
from service.callouts.lexicon import Lexicon
from service.callouts.marks import Alloy, Coat, Mark, MetalClass, Trait

_SEVERAL = "The text names several materials: which one is the part made of?"
MOST_OPTIONS = 8
"""Readings of one material that are worth judging; a class has a representative for each kind."""

_TEMPERED = frozenset(
    {
        "wrought aluminium",
        "cast aluminium",
        "magnesium",
        "copper",
        "beryllium copper",
        "brass",
        "bronze",
        "nickel silver",
        "copper-nickel",
        "stainless steel",
    }
)
"""Families whose designations are followed by a temper."""


@dataclass(frozen=True, slots=True)
class MaterialReading:
    """Materials that a text may mean, best first. No option: none is named, or none is listed."""

    options: tuple[str, ...] = ()
    families: frozenset[str] = frozenset()
    temper: str = ""
    strength_class: str = ""
    assumptions: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    question: str = ""
    marks: tuple[Mark, ...] = field(default=(), compare=False)

    @property
    def is_named(self) -> bool:
        """Whether the text says anything about the base material."""
        return bool(self.options or self.families)


def read_materials(marks: Sequence[Mark], text: str, lexicon: Lexicon) -> MaterialReading:
    """Put the designations and generic words of a text together."""
    alloys = [(mark, mark.sense) for mark in marks if isinstance(mark.sense, Alloy)]
    classes = [(mark, mark.sense) for mark in marks if isinstance(mark.sense, MetalClass)]
    tempers = [mark for mark in marks if isinstance(mark.sense, Trait) and mark.sense.name == "temper"]
    if not alloys:
        return _from_classes(classes, lexicon)
    reading = _from_alloys(alloys, text, tempers, lexicon)
    return _confirmed(reading, alloys, classes, lexicon)


def _from_alloys(
    alloys: Sequence[tuple[Mark, Alloy]], text: str, tempers: Sequence[Mark], lexicon: Lexicon
) -> MaterialReading:
    listed = [alloy for _, alloy in alloys if alloy.options]
    unlisted = [(mark, alloy) for mark, alloy in alloys if not alloy.options]
    missing = tuple(f"{text[mark.start : mark.end].upper()} is not in the catalogue" for mark, _ in unlisted)
    if not listed:
        return _unlisted(unlisted, missing, alloys)
    alloy, conflict = _common(listed)
    temper = _temper_of(alloys, tempers, alloy)
    if temper and not alloy.temper:
        alloy = with_temper(alloy, temper, lexicon)
    foreign = (
        unlisted[0][1].family not in {lexicon.family(name) for name in alloy.options} if unlisted else False
    )
    question = conflict or alloy.question
    if unlisted and not question:
        question = (
            f"{missing[0]}: is it the same material as {_names(alloy.options, lexicon)}, or another part?"
        )
    return MaterialReading(
        options=alloy.options[:MOST_OPTIONS],
        families=frozenset(lexicon.family(name) for name in alloy.options),
        temper=alloy.temper,
        strength_class=next((a.strength_class for _, a in alloys if a.strength_class), ""),
        assumptions=alloy.assumptions,
        missing=missing if foreign or unlisted else (),
        question=question,
        marks=(*(mark for mark, _ in alloys), *(tempers if temper else ())),
    )


def _unlisted(
    unlisted: Sequence[tuple[Mark, Alloy]], missing: tuple[str, ...], alloys: Sequence[tuple[Mark, Alloy]]
) -> MaterialReading:
    families = frozenset(alloy.family for _, alloy in unlisted)
    return MaterialReading(
        families=families,
        temper=next((alloy.temper for _, alloy in unlisted if alloy.temper), ""),
        missing=missing,
        question="Which material is the part made of?" if len(families) > 1 else "",
        marks=tuple(mark for mark, _ in alloys),
    )


def _common(alloys: Sequence[Alloy]) -> tuple[Alloy, str]:
    """Intersect several designations of one text; where they exclude each other, keep all and ask."""
    result = alloys[0]
    question = ""
    for alloy in alloys[1:]:
        shared = tuple(name for name in result.options if name in alloy.options)
        if shared:
            firm = result if len(result.options) <= len(alloy.options) else alloy
            doubts = "" if not (result.question and alloy.question) else firm.question
            temper = result.temper or alloy.temper
            result = replace(firm, options=shared, question=doubts, doubt="", temper=temper)
        else:
            question = _SEVERAL
            result = replace(result, options=(*result.options, *alloy.options), assumptions=())
    return result, question


def _temper_of(alloys: Sequence[tuple[Mark, Alloy]], tempers: Sequence[Mark], alloy: Alloy) -> str:
    if not tempers or alloy.family not in _TEMPERED:
        return ""
    first = min(mark.start for mark, _ in alloys)
    after = [mark for mark in tempers if mark.start > first] or tempers
    sense = after[0].sense
    return sense.value if isinstance(sense, Trait) else ""


def _confirmed(
    reading: MaterialReading,
    alloys: Sequence[tuple[Mark, Alloy]],
    classes: Sequence[tuple[Mark, MetalClass]],
    lexicon: Lexicon,
) -> MaterialReading:
    """Check designations against the generic words beside them."""
    marks = (*reading.marks, *(mark for mark, _ in classes))
    options, families, question = reading.options, reading.families, reading.question
    for _, metal in classes:
        if reading.question == _SEVERAL:
            break  # a word that fits one of several materials does not say that the others are not there
        kept = tuple(name for name in options if lexicon.family(name) in metal.families)
        if kept or (not options and families & metal.families):
            if len(kept) == 1 < len(options) and question == reading.question:
                question = ""
            options = kept
            families = frozenset(lexicon.family(name) for name in kept) or families & metal.families
            continue
        options = (*options, *lexicon.held(*metal.options))[:MOST_OPTIONS]
        families |= metal.families
        question = _SEVERAL
    doubts = [alloy.doubt for _, alloy in alloys if alloy.doubt]
    if doubts and not classes and len(alloys) == 1:
        question = question or doubts[0]
    return replace(reading, options=options, families=families, question=question, marks=marks)


_NEVER_ON_STAINLESS = frozenset({"zn", "znni", "znfe", "znco", "snzn", "cd", "flake", "phosphate"})
"""Coats that protect steel which rusts; nobody orders them on stainless steel."""
_STAINLESS = "stainless steel"


def without_stainless(
    reading: MaterialReading, marks: Iterable[Mark], kinds: frozenset[str], lexicon: Lexicon
) -> MaterialReading:
    """Drop stainless steel from a generic word such as *spring steel* where the coat excludes it."""
    is_generic = not any(isinstance(mark.sense, Alloy) for mark in marks)
    kept = tuple(name for name in reading.options if lexicon.family(name) != _STAINLESS)
    if not (is_generic and kept and kinds & _NEVER_ON_STAINLESS):
        return reading
    return replace(reading, options=kept, families=reading.families - {_STAINLESS})


def _from_classes(classes: Sequence[tuple[Mark, MetalClass]], lexicon: Lexicon) -> MaterialReading:
    if not classes:
        return MaterialReading()
    narrow = min((metal for _, metal in classes), key=lambda metal: len(metal.families))
    first = classes[0][1]
    families = narrow.families
    for _, metal in classes:
        families &= metal.families
    marks = tuple(mark for mark, _ in classes)
    if families:
        chosen = narrow if len(narrow.families) < len(first.families) else first
        options = tuple(name for name in lexicon.held(*chosen.options) if lexicon.family(name) in families)
        return MaterialReading(options[:MOST_OPTIONS], families, question=chosen.question, marks=marks)
    every = tuple(dict.fromkeys(name for _, metal in classes for name in lexicon.held(*metal.options)))
    return MaterialReading(
        every[:MOST_OPTIONS],
        frozenset().union(*(metal.families for _, metal in classes)),
        question=_SEVERAL,
        marks=marks,
    )


def material_of_coat(coat: Coat) -> MetalClass | None:
    """Return what a metal word means where it names the part and not its coat."""
    return METAL_OF_COAT.get(coat.kind) if coat.is_bare_word else None


def _names(options: Iterable[str], lexicon: Lexicon) -> str:
    return " or ".join(lexicon.catalogue.materials[name].name for name in options)
