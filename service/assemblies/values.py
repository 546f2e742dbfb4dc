"""Words of cells: functions, geometries, conditions, yes and no, in three languages."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from enum import StrEnum
from typing import Any, TypeVar

from service.assemblies.columns import plain
from service.catalogue.surfaces import Condition
from service.judgement import Function, Geometry

Member = TypeVar("Member", bound=StrEnum)

_FUNCTIONS = {
    Function.STRUCTURAL: "mechanical; structure; load; tragend; mechanisch; mécanique; structurel",
    Function.ELECTRICAL_BOND: "bond; bonding; equipotential bonding; potentialausgleich; masse; "
    "équipotentiel",
    Function.PROTECTIVE_EARTH: "pe; earth; ground; grounding; earthing; safety earth; protective ground; "
    "schutzleiter; erdung; schutzerde; terre; mise à la terre; terre de protection",
    Function.POWER_CONTACT: "power; current; leistungskontakt; stromkontakt; leistung; puissance",
    Function.SIGNAL_CONTACT: "signal; contact; signalkontakt; data",
    Function.RF: "radio; emc; emi; shielding; hf; schirmung; blindage",
    Function.SEAL: "sealing; seal face; gasket; dichtung; dichtfläche; étanchéité; joint",
    Function.THERMAL: "heat; heat sink; heat transfer; wärme; wärmeleitung; thermique",
}
_GEOMETRIES = {
    Geometry.STRIP: "plate; lap; flange; line; fläche; blech; plaque; bride",
    Geometry.FASTENER: "screw; bolt; rivet; schraube; niet; vis; boulon; rivet",
    Geometry.PIPE: "tube; bore; rohr; tuyau; tube",
    Geometry.IMMERSED: "bulk; under water; submerged; eingetaucht; immergé",
}
_CONDITIONS = {
    Condition.INTACT: "new; sound; good; neu; heil; unbeschädigt; neuf; intacte",
    Condition.WORN: "used; rubbed; abgenutzt; verschlissen; usé; usée",
    Condition.DAMAGED: "scratched; broken; beschädigt; zerkratzt; endommagé; endommagée",
}
_YES = frozenset(("yes", "y", "true", "1", "x", "ja", "j", "oui", "o", "vrai"))
_NO = frozenset(("no", "n", "false", "0", "nein", "non", "faux", "none"))


def _spellings(members: Mapping[Member, str]) -> dict[str, Member]:
    return {
        plain(word): member for member, words in members.items() for word in (*words.split(";"), member.value)
    }


_KNOWN: dict[type[StrEnum], dict[str, Any]] = {
    Function: _spellings(_FUNCTIONS),
    Geometry: _spellings(_GEOMETRIES),
    Condition: _spellings(_CONDITIONS),
}


def member(text: str, kind: type[Member]) -> Member:
    """Read one word.

    Raises
    ------
    ValueError
        If it is none of the words known; the message names the nearest ones.
    """
    known = _KNOWN[kind]
    word = plain(text)
    if word in known:
        found: Member = known[word]
        return found
    near = difflib.get_close_matches(word, [plain(each.value) for each in kind], 1)
    hint = f"; did you mean {near[0]!r}?" if near else ""
    message = f"{text[:40]!r} is none of {', '.join(kind)}{hint}"
    raise ValueError(message)


def functions(text: str) -> tuple[Function, ...]:
    """Read functions separated by semicolons, commas, pluses or slashes.

    Raises
    ------
    ValueError
        If one of them is not known.
    """
    words = [word for word in re.split(r"[;,+/|]", text) if word.strip()]
    return tuple(dict.fromkeys(member(word, Function) for word in words))


def truth(text: str) -> bool:
    """Read yes or no.

    Raises
    ------
    ValueError
        If it is neither.
    """
    word = plain(text)
    if word not in _YES | _NO:
        message = f"{text[:40]!r} is neither yes nor no"
        raise ValueError(message)
    return word in _YES
