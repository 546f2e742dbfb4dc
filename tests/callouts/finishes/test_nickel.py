from __future__ import annotations

import pytest

from service.callouts.reading import Match
from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("6061-T6 bright nickel plated", "al-6061-t6 | ni-electro"),
    ("duplex nickel plated", "() | ni-duplex"),
    ("sulfamate nickel", "() | ni-sulfamate"),
    ("electroless nickel high phosphorus", "() | en-high"),
    ("electroless nickel 5-9% P", "() | en-mid"),
    ("electroless nickel low phos", "() | en-low"),
    ("electroless nickel PTFE", "() | en-ptfe"),
    ("nickel boron", "() | chem-ni-b"),
    ("ASTM B733 TY III SC1", "() | en-low:5"),
    ("ASTM B733 TY IV SC2", "() | en-mid:13"),
    ("ASTM B733 TY V SC3", "() | en-high:25"),
    ("AMS 2405", "() | en-low"),
    ("QQ-N-290 CL 1 GR C", "() | ni-electro:25.4"),
    ("AMS 2403", "() | ni-electro"),
    ("AMS 2424", "() | ni-sulfamate"),
    ("AMS 2433", "() | chem-ni-b"),
    ("vernickelt", "() | ni-electro"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("nickel plated brass", "brass-cuzn37 | ni-electro"),
    ("6061-T6 nickel plated", "al-6061-t6 | ni-electro"),
    ("electroless nickel", "() | en-mid"),
    ("ASTM B733", "() | en-mid"),
    ("AMS 2404", "() | en-mid"),
    ("MIL-C-26074 GR A", "() | en-mid:25.4"),
    ("AMS-C-26074 CL 1 GR B", "() | en-mid:12.7"),
    ("ISO 4527", "() | en-mid"),
    ("ASTM B689 Class 5", "() | ni-electro:5"),
    ("ASTM B689 Type 1", "() | ni-electro"),
    ("ISO 1456", "() | ni-electro"),
    ("ISO 1456 chrome plated", "() | cr-decorative"),
    ("chem. vernickelt", "() | en-mid"),
    ("electroless nickel plated, nickel", "() | en-mid"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


UNKNOWN = [
    ("AMS 2416", "not understood: AMS 2416"),
]


@pytest.mark.parametrize(("text", "reason"), UNKNOWN)
def test_an_unknown_text_says_why(text: str, reason: str, resolver: Resolver) -> None:
    reading = resolver.resolve(text)
    assert reading.match is Match.UNKNOWN
    assert reading.reason == reason
