"""The surfaces of parts: read once for each way of naming one, from notes or from descriptions."""

from __future__ import annotations

import re
from dataclasses import replace

from service.assemblies.hardware import is_fastener, names_standard
from service.assemblies.parts import Part
from service.callouts.reading import Match, Reading
from service.callouts.resolver import Resolver
from service.catalogue.catalogue import Catalogue
from service.catalogue.records import FinishRole
from service.catalogue.surfaces import Surface
from service.judgement import InvalidInquiryError, Side
from service.judgement.readings import reading_of

_OTHER_MEANINGS = re.compile(
    r"(?<!\w)(?:(?:3d[- ]?)?print(?:ed|s)?|lead ?screws?|(?:test |battery |with )leads?|"
    r"soldering irons?|tin ?snips|"
    r"silver ?(?:grey|gray)|"
    r"gold ?(?:colou?red)?(?= colou?r)|brass ?band|iron ?on|"
    r"cad(?! ?(?:plat|coat|-?cr))|protected (?:silver|gold|alumini?um)|copper "
    r"(?:keep-?outs?|pours?|areas?|planes?|traces?))(?!\w)|"
    r"[\w/.-]*[./]stl(?!\w)|^\s*stl\s*$|(?<!\w)stl(?= files?)",
    re.IGNORECASE,
)
"""Words of part names that sound like metals, and files of printed parts."""

_MATES = re.compile(
    r"(?<!\w)(?:for|to fit|fits|used with|compatible with|includes?|including|incl\.|für|passend "
    r"zu|pour|para|"
    r"voor)(?!\w)[^,;()]*?(?=[,;()]|$|\b(?:18-8|30[34]|316|a[24]|stainless|inox|zinc|galvani[sz]ed|nickel|anodi)\b)|"
    r"\w+-to-\w+(?: \w+)?|\b(?:alu\w*|\d{4})[ -](?:extrusions?|profiles?)(?= (?:t-?)?(?:nut|screw|bolt))",
    re.IGNORECASE,
)
"""What a part is for, or comes with: *nut for aluminium profile* tells nothing of the nut."""

_CERTAIN = {Match.EXACT, Match.NORMALISED}


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
        number = part.number if names_standard(part.number) else ""
        sources = (("description", part.description), ("specification", part.note), ("number", number))
        for source, text in sources:
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

    def likeness(self, part: Part) -> object:
        """What two parts share whose texts are read alike, however they are written.

        A text that is not understood is like itself alone.
        """
        reading = self.reading(part)
        if reading is None or not reading.candidates:
            return part.side
        return reading.match, tuple(candidate.surface for candidate in reading.candidates)

    def is_insulator(self, part: Part) -> bool:
        """Whether the material of a part is known not to conduct."""
        reading = self.reading(part)
        if reading is not None and reading.is_insulator:
            return True
        surface = self.surface(part)
        material = self.catalogue.materials.get(surface.material_id or "") if surface else None
        return material is not None and not material.is_conductive

    def _in_words(self, text: str) -> str:
        """The description if it names a metal, empty if not; the resolver finds it among other words.

        A finish alone has to be certain, or metal on a fastener, because its words are also those of
        other things.
        """
        if text not in self._described:
            plain = _OTHER_MEANINGS.sub(" ", _MATES.sub(" ", text)).strip(" ,;-")
            reading = self._resolver.resolve(plain)
            leading = reading.candidates[0].surface if reading.candidates else None
            names_metal = leading is not None and bool(leading.material_id or leading.basis_family)
            is_certain = leading is not None and reading.match in _CERTAIN
            is_plated = leading is not None and is_fastener(plain) and self._is_metallic(leading)
            self._described[text] = plain if names_metal or is_certain or is_plated else ""
        return self._described[text]

    def _is_metallic(self, surface: Surface) -> bool:
        layers = surface.layers[:1]
        return any(self.catalogue.finishes[layer.finish_id].role is FinishRole.METALLIC for layer in layers)
