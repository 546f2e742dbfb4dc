from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("powder coated", "() | powder-coat"),
    ("e-coat", "() | e-coat"),
    ("polyurethane paint", "() | pu-topcoat"),
    ("chromate primer", "() | epoxy-primer-cr"),
    ("chromate free primer", "() | epoxy-primer-ncr"),
    ("zinc-rich primer", "() | zn-rich-primer"),
    ("zinc silicate", "() | zn-silicate-primer"),
    ("MIL-PRF-23377 CL C", "() | epoxy-primer-cr"),
    ("MIL-PRF-23377 CL N", "() | epoxy-primer-ncr"),
    ("MIL-PRF-23377 Cr-free", "() | epoxy-primer-ncr"),
    ("MIL-PRF-85285", "() | pu-topcoat"),
    ("MIL-PRF-24712", "() | powder-coat"),
    ("MIL-PRF-46010", "() | dry-film-lube"),
    ("ISO 12944 C4-H", "() | pu-topcoat"),
    ("ISO 12944", "() | pu-topcoat"),
    ("powder coated ISO 12944 C3", "() | powder-coat"),
    ("powder coated RAL 9005", "() | powder-coat"),
    ("dry film lube", "() | dry-film-lube"),
    ("PTFE coated", "() | ptfe-coat"),
    ("parylene", "() | parylene"),
    ("clear lacquer", "() | acrylic-lacquer"),
    ("rubber lined", "() | rubber-lining"),
    ("vitreous enamel", "() | porcelain-enamel"),
    ("nickel paint", "() | nickel-acrylic"),
    ("copper paint", "() | copper-paint"),
    ("sol-gel", "() | sol-gel"),
    ("PVDF coil coated", "() | pvdf-coil"),
    ("mio epoxy", "() | epoxy-mio"),
    ("glass flake epoxy", "() | epoxy-glass-flake"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("painted", "() | pu-topcoat"),
    ("epoxy primer", "() | epoxy-primer-ncr"),
    ("MIL-PRF-23377", "() | epoxy-primer-cr"),
    ("TT-P-1757", "() | epoxy-primer-ncr"),
    ("S235JR RAL 7035", "steel-s235 | pu-topcoat"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
