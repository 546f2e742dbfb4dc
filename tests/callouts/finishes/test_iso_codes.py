from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("Fe//Zn8//A", "(carbon steel) | zn-passivated-clear:8"),
    ("Fe//Zn8//B", "(carbon steel) | zn-passivated-clear:8"),
    ("Fe//Zn8//D", "(carbon steel) | zn-chromate-olive:8"),
    ("Fe//Zn8//F", "(carbon steel) | zn-black:8"),
    ("Fe//Zn8//U", "(carbon steel) | zn-plain:8"),
    ("Fe/Zn 8 c1A", "(carbon steel) | zn-passivated-clear:8"),
    ("Fe//Zn8//An//T0", "(carbon steel) | zn-passivated-clear:8"),
    ("Fe//Zn8//Cn//T2", "(carbon steel) | zn-passivated-sealed:8"),
    ("Fe/Zn8/P5", "(carbon steel) | zn-passivated-iridescent:8"),
    ("Fe//ZnNi(12-16)8//Fn//T2", "(carbon steel) | znni-black:8"),
    ("Fe//Zn8//Znph", "(carbon steel) | zn-phosphate:8"),
    ("Fe/SR(210)2/Zn25/ER(210)22/A", "(carbon steel) | zn-passivated-clear:25"),
    ("Fe//Cd8//C", "(carbon steel) | cd-yellow:8"),
    ("Fe/Ni20b Cr r", "(carbon steel) | cr-decorative / ni-electro:20"),
    ("Fe/Ni30d Cr mp", "(carbon steel) | cr-decorative-microcracked / ni-duplex:30"),
    ("Fe/Cu20 Ni30d Cr mc", "(carbon steel) | cr-decorative-microcracked / ni-duplex:30 / cu-plate:20"),
    ("Fe/NiP(9)25", "(carbon steel) | en-mid:25"),
    ("Cu/Ni2/Sn5m", "(copper) | sn-over-ni:5 / ni-sulfamate:2"),
    ("Fe//Sn8f", "(carbon steel) | sn-reflow:8"),
    ("Fe//Cr50hr", "(carbon steel) | cr-hard:50"),
    ("Cu/Ni/Cr", "() | cr-decorative / ni-electro / cu-plate"),
    ("CuZn/Ni5", "(brass) | ni-electro:5"),
    ("Ep-Fe/Zn[3-C1]", "(carbon steel) | zn-passivated-clear:8"),
    ("EP-Zn/Cu+Nib 20, Cr 0.1 r", "(zinc die cast) | cr-decorative:0.1 / ni-electro:20 / cu-plate"),
    ("Zn8/Cn/T2", "() | zn-passivated-sealed:8"),
    ("ZnNi8/An/T0", "() | znni:8"),
    ("PL/Cu15Ni10b Cr r", "(plastic) | cr-decorative / ni-electro:10 / cu-plate:15"),
    ("Fe//Zn0//A", "(carbon steel) | zn-passivated-clear"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("Fe//Zn8//C", "(carbon steel) | zn-chromate-yellow:8"),
    ("Fe/Zn 8 cC", "(carbon steel) | zn-chromate-yellow:8"),
    ("Fe/Zn8/C2", "(carbon steel) | zn-chromate-yellow:8"),
    ("Fe/Zn 8", "(carbon steel) | zn-passivated-clear:8"),
    ("Ep-Fe/Zn 8/CM2", "(carbon steel) | zn-chromate-yellow:8"),
    ("Ep-Fe/Zn(2)", "(carbon steel) | zn-passivated-clear:5"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
