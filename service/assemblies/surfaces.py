"""The surfaces of parts: read once for each way of naming one, from notes or from descriptions."""

from __future__ import annotations

import re
from dataclasses import replace

from service.assemblies.parts import Part
from service.callouts.reading import Match, Reading
from service.callouts.resolver import Resolver
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.judgement import InvalidInquiryError, Side
from service.judgement.readings import reading_of

_PIECES = re.compile(r"[,;|]|\s[-–—/]\s|[()\[\]]")
_OTHER_MEANINGS = re.compile(
    r"(?<!\w)(?:lead ?screws?|(?:test |battery |with )leads?|soldering irons?|tin ?snips|"
    r"silver ?(?:grey|gray)|"
    r"gold ?(?:colou?red)?(?= colou?r)|brass ?band|iron ?on)(?!\w)",
    re.IGNORECASE,
)
"""Words of part names that sound like metals."""

_FIRM = {Match.EXACT, Match.NORMALISED, Match.AMBIGUOUS}
"""Readings that a description may give: likeness alone is too weak where nothing says material."""


class Surfaces:
    """Readings of the parts of one assembly by one release."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._resolver = Resolver.of(catalogue)
        self._readings: dict[Side, Reading | InvalidInquiryError] = {}
        self._described: dict[str, str] = {}

    def named(self, part: Part) -> Part:
        """Return a part whose surface is named.

        Where neither text nor notes name one, it is read from the description or, if that holds none,
        from specification and remarks; the part then says so. A part that names nothing comes back
        as it is.
        """
        if part.names_surface:
            return part
        for source, text in (("description", part.description), ("specification", part.note)):
            found = self._in_words(text)
            if found:
                reason = f"the surface is read from {found!r} in the {source}"
                return replace(part, text=found, assumptions=(*part.assumptions, reason))
        return part

    def reading(self, part: Part) -> Reading | None:
        """How the surface of a part is read, ``None`` where it names none or an impossible structure."""
        if not part.names_surface:
            return None
        side = part.side
        if side not in self._readings:
            try:
                self._readings[side] = reading_of(side, "", self.catalogue)
            except InvalidInquiryError as error:
                self._readings[side] = error
        found = self._readings[side]
        return None if isinstance(found, InvalidInquiryError) else found

    def surface(self, part: Part) -> Surface | None:
        """The likeliest surface of a part, ``None`` where it is not known."""
        reading = self.reading(part)
        return reading.candidates[0].surface if reading and reading.candidates else None

    def is_insulator(self, part: Part) -> bool:
        """Whether the material of a part is known not to conduct."""
        surface = self.surface(part)
        material = self.catalogue.materials.get(surface.material_id or "") if surface else None
        return material is not None and not material.is_conductive

    def _in_words(self, text: str) -> str:
        if text not in self._described:
            self._described[text] = self._search(text)
        return self._described[text]

    def _search(self, text: str) -> str:
        """The stretch of a description that names a surface, empty for none."""
        plain = _OTHER_MEANINGS.sub(" ", text).strip(" ,;-")
        if not plain:
            return ""
        if self._is_firm(plain):
            return plain
        pieces = [piece for piece in (part.strip() for part in _PIECES.split(plain)) if piece]
        firm = [piece for piece in pieces if self._is_firm(piece)]
        together = ", ".join(firm)
        if len(firm) > 1 and self._is_firm(together):
            return together
        return firm[0] if firm else ""

    def _is_firm(self, text: str) -> bool:
        """Whether a text names a surface; where it is open in more than one way, a metal at least."""
        reading = self._resolver.resolve(text)
        if reading.match not in _FIRM or not reading.candidates:
            return False
        leading = reading.candidates[0].surface
        return reading.match is not Match.AMBIGUOUS or bool(leading.material_id or leading.basis_family)
