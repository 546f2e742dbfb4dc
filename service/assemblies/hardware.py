"""Fasteners and thread sizes in part descriptions: what clamps others, and how wide its head is."""

from __future__ import annotations

import re
from functools import lru_cache

_NOUNS = (
    "screw bolt stud setscrew capscrew eyebolt u-bolt nut locknut nyloc washer lockwasher circlip rivet "
    "rivnut standoff stand-off spacer "
    "schraube zylinderschraube sechskantschraube senkschraube linsenschraube stiftschraube gewindestift "
    "bolzen stehbolzen gewindestange mutter sechskantmutter hutmutter scheibe unterlegscheibe federring "
    "federscheibe sicherungsring niet blindniet splint zylinderstift spannstift gewindeeinsatz "
    "gewindeeinsätze abstandsbolzen "
    "vis boulon goujon écrou ecrou rondelle rivet goupille entretoise "
    "tornillo tuerca arandela remache bullone bulloni dado dadi vite viti bout bouten moer moeren sluitring "
    "parafuso porca arruela shcs bhcs fhcs"
)
_PHRASES = (
    r"grub ?screws?|machine ?screws?|threaded rods?|retaining rings?|threaded inserts?|heat[- ]?set inserts?|"
    r"(?:cotter|split|dowel|roll|clevis|hinge) ?pins?|tiges? filetées?|inserts? filetés?|anneaux? "
    r"élastiques?|"
    r"(?:varillas?|barras?) roscadas?|barre? filettat[ae]|insertos? roscados?|insertos? a "
    r"quente|draad(?:stang|eind)"
)
_FASTENER = re.compile(
    rf"(?<!\w)(?:(?:{'|'.join(_NOUNS.split())})(?:e?s|e?n|e)?|{_PHRASES})(?!\w)",
    re.IGNORECASE,
)
_THREADED = re.compile(r"(?<![\w.])M\d{1,2}(?:[.,]\d)?\s*[x×*]\s*\d", re.IGNORECASE)
"""M6x20 and the like: nothing but a fastener is called by thread and length."""

_NOT_ITSELF = re.compile(
    r"(?<!\w)(?:screwdrivers?|screw ?terminals?|bolt[- ]?on|lead ?screws?|ball ?screws?|schraubklemmen?|"
    r"kugelgewindetrieb|nut ?plates?|wrench|schlüssel|for (?:a )?screws?|screw ?caps?|"
    r"washer (?:pump|bottle|fluid)|stud ?bars?|pcb spacers?)(?!\w)",
    re.IGNORECASE,
)
_STANDARDS = (
    "84 85 93 94 95 96 97 125 126 127 128 137 186 261 315 316 319 417 427 432 433 434 438 439 440 444 464 "
    "471 472 551 553 555 557 558 560 561 562 571 580 582 601 603 604 605 608 653 660 661 662 787 835 912 "
    "913 914 915 916 917 928 929 931 933 934 935 936 938 939 963 964 965 966 975 976 979 980 982 985 986 "
    "1479 1481 1587 1804 4014 4016 4017 4018 4026 4027 4028 4029 4032 4033 4034 4035 4161 4762 4766 6325 "
    "6330 6331 6334 6797 6798 6799 6885 6899 6912 6916 6921 6923 7040 7042 7045 7046 7047 7049 7050 7051 "
    "7089 7090 7091 7092 7093 7337 7338 7343 7346 7349 7380 7434 7435 7436 7980 7981 7982 7983 7984 7985 "
    "7991 8734 8752 9021 10511 10642 14579 14583 15973 15977 15979 15983 "
)
"""Product standards of screws, nuts, washers, pins and rivets (common practice, no source)."""

_STANDARD = re.compile(
    rf"(?<!\w)(?:(?:DIN|EN|ISO|NF)[ -]*)+(?:{'|'.join(_STANDARDS.split())})(?!\d)", re.IGNORECASE
)

_METRIC = re.compile(r"(?<![\w.])M(\d{1,2}(?:[.,]\d)?)(?![\d-])", re.IGNORECASE)
_NUMBERED = re.compile(r"#(\d{1,2})(?:\s*-\s*\d{2})?(?!\d)")
_INCH = re.compile(r"(?<![\d/.-])(\d)/(\d{1,2})\s*(?:\"|”|''|in\b|-\s*\d{2})")
_MM_PER_IN = 25.4
_LARGEST_MM = 100.0

HEAD_RADIUS_PER_DIAMETER = 0.85
"""Radius of a screw head or nut over the diameter of its thread: width across flats of 1.5 to 1.8
diameters (common practice, no source)."""


@lru_cache(maxsize=65_536)
def is_fastener(text: str) -> bool:
    """Whether a description is that of a fastener: by its noun, its thread or its product standard."""
    if _NOT_ITSELF.search(text):
        return False
    return bool(_FASTENER.search(text) or _THREADED.search(text) or _STANDARD.search(text))


def names_standard(text: str) -> bool:
    """Whether a text names the product standard of a fastener."""
    return _STANDARD.search(text) is not None


@lru_cache(maxsize=65_536)
def thread_diameter_m(text: str) -> float | None:
    """Nominal diameter of the first thread that a text names, metric or inch, ``None`` for none.

    Numbered sizes follow 0.060 in + 0.013 in for each number (ASME B1.1, from memory).
    """
    if found := _METRIC.search(text):
        diameter_mm = float(found[1].replace(",", "."))
    elif found := _NUMBERED.search(text):
        diameter_mm = (0.060 + 0.013 * int(found[1])) * _MM_PER_IN
    elif (found := _INCH.search(text)) and int(found[2]):
        diameter_mm = int(found[1]) / int(found[2]) * _MM_PER_IN
    else:
        return None
    return diameter_mm / 1e3 if 0.0 < diameter_mm <= _LARGEST_MM else None


def head_radius_m(text: str) -> float | None:
    """Radius of the head of a fastener by its thread, ``None`` where the text names no thread."""
    diameter = thread_diameter_m(text)
    return None if diameter is None else HEAD_RADIUS_PER_DIAMETER * diameter
