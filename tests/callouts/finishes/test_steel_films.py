from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("black oxide", "(carbon steel) | black-oxide-steel"),
    ("C11000 black oxide", "cu-etp | cu-black-oxide"),
    ("MIL-DTL-13924 CL 1", "(carbon steel) | black-oxide-steel"),
    ("MIL-DTL-13924 CL 4", "(stainless steel) | black-oxide-stainless"),
    ("zinc phosphate", "(carbon steel) | phosphate-zn"),
    ("manganese phosphate", "(carbon steel) | phosphate-mn"),
    ("iron phosphate", "(carbon steel) | phosphate-fe"),
    ("MIL-DTL-16232 TY M", "(carbon steel) | phosphate-mn"),
    ("DOD-P-16232 TY Z", "(carbon steel) | phosphate-zn"),
    ("TT-C-490 TY I", "(carbon steel) | phosphate-zn"),
    ("passivated", "(stainless steel) | ss-passivated"),
    ("C11000 passivated", "cu-etp | cu-passivated"),
    ("AZ91D chromated", "mg-az91d | mg-chromate"),
    ("zinc plated passivated blue", "() | zn-passivated-clear"),
    ("ASTM A967", "(stainless steel) | ss-passivated"),
    ("ASTM A380 passivated", "(stainless steel) | ss-passivated"),
    ("ASTM B912", "(stainless steel) | ss-electropolished"),
    ("electropolished", "(stainless steel) | ss-electropolished"),
    ("1.4301 gebeizt", "ss-304 | ss-pickled"),
    ("DC01 gebeizt", "steel-dc01 | bare"),
    ("MIL-F-495", "(copper) | cu-black-oxide"),
    ("AMS 2759", "(carbon steel) | nitrocarburised"),
    ("nitrocarburized", "(carbon steel) | nitrocarburised"),
    ("PVD TiN", "() | ti-nitride-pvd"),
    ("DLC", "() | dlc"),
    ("HVOF", "() | hvof-wc"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("303 black oxide", "ss-303 | black-oxide-stainless"),
    ("phosphated", "(carbon steel) | phosphate-zn"),
    ("TT-C-490", "(carbon steel) | phosphate-zn"),
    ("6061-T6 passivated", "al-6061-t6 | tcp-1a"),
    ("chromated", "(aluminium) | chem-film-1a"),
    ("ASTM A380", "(stainless steel) | ss-passivated"),
    ("gelbchromatiert 6082-T6", "al-6082-t6 | chem-film-1a"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
