"""What a grammar can say about a stretch of text.

A grammar turns characters into marks; it never decides alone. The composition of marks into
surfaces (``compose``) sees all of them and settles which belong together.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple


@dataclass(frozen=True, slots=True)
class Amount:
    """A thickness in micrometres; ``high_um`` where the text gives a range."""

    low_um: float
    high_um: float | None = None


@dataclass(frozen=True, slots=True)
class Alloy:
    """A material named so closely that ``options`` are its tempers or twins, best first.

    Empty ``options``: the designation was understood, the catalogue does not hold it;
    ``family`` then says what kind of material it is. ``key`` is the name in the lexicon.
    ``question`` makes the reading ambiguous even with one option (a nearest relative); ``doubt``
    does so unless another word of the text names the same kind of material (*316* beside *SS*).
    """

    options: tuple[str, ...]
    family: str = ""
    key: str = ""
    temper: str = ""
    strength_class: str = ""
    assumptions: tuple[str, ...] = ()
    question: str = ""
    doubt: str = ""


@dataclass(frozen=True, slots=True)
class MetalClass:
    """A generic word such as *brass* or *Edelstahl*.

    ``families`` are what it covers, ``options`` their representatives, best first, to be judged where
    nothing closer is named.
    """

    name: str
    families: frozenset[str]
    options: tuple[str, ...]
    question: str


@dataclass(frozen=True, slots=True)
class Option:
    """One finish that a part of the text may mean, with the share of belief in it."""

    finish_id: str
    weight: float = 1.0
    assumption: str = ""


@dataclass(frozen=True, slots=True)
class Coat:
    """One coat of a finish. ``kind`` names the decider (``zn``, ``au``, ``anodise``, ``paint``).

    ``options`` is filled where a code fixes the finish; otherwise the decider of the kind
    chooses from the clues. ``is_under`` marks a strike or underplate. ``is_bare_word`` is a metal
    word without process or thickness: it may as well name the base material or a colour.
    """

    kind: str
    process: str = ""
    amount: Amount | None = None
    options: tuple[Option, ...] = ()
    question: str = ""
    is_under: bool = False
    is_bare_word: bool = False


@dataclass(frozen=True, slots=True)
class Callout:
    """A finish code read as a whole: its coats, outermost first, and the basis it names."""

    coats: tuple[Coat, ...]
    basis_family: str = ""
    assumptions: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Clues:
    """What else the text says while a coat or specification is decided.

    ``traits`` are pairs such as (colour, black); ``attributes`` are pairs such as (type, 2);
    ``families`` are the families of the materials named; ``kinds`` the coats named.
    """

    traits: frozenset[tuple[str, str]] = frozenset()
    attributes: tuple[tuple[str, str], ...] = ()
    families: frozenset[str] = frozenset()
    kinds: frozenset[str] = frozenset()
    amount: Amount | None = None

    def trait(self, name: str) -> str:
        """Return the value of a trait, empty if the text is silent."""
        return min((value for key, value in self.traits if key == name), default="")

    def has(self, name: str, *values: str) -> bool:
        """Whether the text gives the trait one of these values."""
        return any((name, value) in self.traits for value in values)

    def attribute(self, name: str) -> str:
        """Return the first type, class, grade or code that the text gives."""
        return next((value for key, value in self.attributes if key == name), "")


@dataclass(frozen=True, slots=True)
class Spec:
    """A finish specification whose type and class stand elsewhere in the text."""

    name: str
    read: Callable[[Clues], Callout | None]


@dataclass(frozen=True, slots=True)
class Trait:
    """A property of the finish: ``colour``, ``chemistry``, ``seal``, ``gloss``, ``hardness``..."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Attribute:
    """Type, class, grade or code of a specification. ``name`` is one of these words."""

    name: str
    value: str


class Link(StrEnum):
    """Words that order coats, or a coat and its basis."""

    OVER = "over"
    ALTERNATIVE = "or"


@dataclass(frozen=True, slots=True)
class Process:
    """A word that says a finish was applied without saying which (*plated*, *beschichtet*).

    ``is_weak`` words mean other things as well (*plate*, *finish*, *surface*).
    """

    word: str
    is_weak: bool = False


@dataclass(frozen=True, slots=True)
class Bare:
    """The text says that there is no finish."""


@dataclass(frozen=True, slots=True)
class Foreign:
    """Not a metal or another conductor that the catalogue judges (plastic, rubber, glass)."""

    name: str


@dataclass(frozen=True, slots=True)
class Wear:
    """State of the finish: ``worn`` or ``damaged``."""

    condition: str


@dataclass(frozen=True, slots=True)
class Zone:
    """A selective finish names its zone (contact area, solder tail)."""

    name: str


@dataclass(frozen=True, slots=True)
class Aside:
    """Understood and without bearing on the surface: shape, size, product standard, preposition."""

    word: str = ""


@dataclass(frozen=True, slots=True)
class Riddle:
    """A text that has several unrelated meanings (*C4*): each as an own sense, best first."""

    senses: tuple[Alloy | Callout, ...]
    question: str


@dataclass(frozen=True, slots=True)
class Unread:
    """A specification or code that no grammar knows, reported instead of dropped."""

    text: str


@dataclass(frozen=True, slots=True)
class Several:
    """One word with several meanings that all hold: *steel sheet* is a metal and a form."""

    senses: tuple[Alloy | MetalClass | Coat | Callout | Trait | Foreign, ...]


Sense = (
    Alloy
    | MetalClass
    | Coat
    | Callout
    | Spec
    | Trait
    | Attribute
    | Amount
    | Link
    | Process
    | Bare
    | Foreign
    | Wear
    | Zone
    | Aside
    | Riddle
    | Several
    | Unread
)


class Mark(NamedTuple):
    """A stretch of the normalised text and what it means.

    A named tuple, because a resolver makes hundreds of thousands a second.
    """

    start: int
    end: int
    sense: Sense
    reason: str = ""
