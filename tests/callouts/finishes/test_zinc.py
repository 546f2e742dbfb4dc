from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("zinc plated, clear", "() | zn-passivated-clear"),
    ("zinc plated yellow Cr3", "() | zn-passivated-iridescent"),
    ("zinc plated yellow hexavalent", "() | zn-chromate-yellow"),
    ("zinc plated black", "() | zn-black"),
    ("zinc plated, olive drab", "() | zn-chromate-olive"),
    ("zinc plated, clear, sealed", "() | zn-passivated-sealed"),
    ("zinc plated, phosphated", "() | zn-phosphate"),
    ("zinc plated, no chromate", "() | zn-plain"),
    ("galvanized blue", "() | zn-passivated-clear"),
    ("galvanized sheet", "(carbon steel) | zn-hdg-sheet"),
    ("mechanical zinc", "(carbon steel) | zn-mechanical"),
    ("zinc nickel", "() | znni"),
    ("zinc nickel black", "() | znni-black"),
    ("LHE zinc nickel", "() | znni-low-embrittlement"),
    ("zinc iron", "() | znfe"),
    ("zinc cobalt", "() | znco"),
    ("tin zinc", "() | snzn"),
    ("ASTM B633 Type II SC2", "(carbon steel) | zn-chromate-yellow:8"),
    ("ASTM B633 TYPE II SC1 BLACK", "(carbon steel) | zn-black:5"),
    ("ASTM B633 Type III", "(carbon steel) | zn-passivated-clear"),
    ("ASTM B633 Type IV SC3", "(carbon steel) | zn-phosphate:12"),
    ("ASTM B633 Type V SC4", "(carbon steel) | zn-passivated-clear:25"),
    ("ASTM B633 Type VI SC2", "(carbon steel) | zn-passivated-iridescent:8"),
    ("ASTM B633 Type VI black", "(carbon steel) | zn-black"),
    ("QQ-Z-325 TY III", "(carbon steel) | zn-phosphate"),
    ("AMS 2417", "(carbon steel) | znni"),
    ("AMS 2461", "(carbon steel) | znni-low-embrittlement"),
    ("ASTM B840", "(carbon steel) | znco"),
    ("Fe/Zn 8AN", "(carbon steel) | zn-passivated-clear:8"),
    ("Fe/Zn 12BT", "(carbon steel) | zn-passivated-clear:12"),
    ("Fe/Zn 5E", "(carbon steel) | zn-black:5"),
    ("Fe/Zn 8A T2", "(carbon steel) | zn-passivated-sealed:8"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("steel zinc plated yellow", "steel-s235 | zn-chromate-yellow"),
    ("zinc plated Cr(VI)-free", "() | zn-passivated-clear"),
    ("zinc plated chromate", "() | zn-chromate-yellow"),
    ("zinc plated", "() | zn-passivated-clear"),
    ("galvanized", "(carbon steel) | zn-hdg"),
    ("verzinkt", "(carbon steel) | zn-hdg"),
    ("galv. verzinkt", "() | zn-passivated-clear"),
    ("ASTM B633 Type I SC1", "(carbon steel) | zn-plain:5"),
    ("ASTM B633", "(carbon steel) | zn-passivated-clear"),
    ("QQ-Z-325 TY I CL 1", "(carbon steel) | zn-plain:25.4"),
    ("QQ-Z-325 TY II CL 3", "(carbon steel) | zn-chromate-yellow:5.1"),
    ("QQ-Z-325", "(carbon steel) | zn-passivated-clear"),
    ("AMS 2402", "(carbon steel) | zn-passivated-clear"),
    ("DIN 50979", "(carbon steel) | zn-passivated-clear"),
    ("Fe/Zn 5C", "(carbon steel) | zn-chromate-yellow:5"),
    ("Fe/Zn 5F", "(carbon steel) | zn-passivated-clear:5"),
    ("DEF STAN 03-20", "(carbon steel) | zn-passivated-clear"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
