from __future__ import annotations

import pytest

from service.callouts.finishes.implied_basis import IMPLIED_BASIS
from service.callouts.resolver import Resolver
from service.catalogue.catalogue import Catalogue
from tests.callouts.outlines import firm, torn

FIRM = [
    ("hot dip galvanized", "(carbon steel) | zn-hdg"),
    ("passivated", "(stainless steel) | ss-passivated"),
    ("ENIG", "(copper) | enig"),
    ("black oxide", "(carbon steel) | black-oxide-steel"),
    ("AMS 2488", "(titanium) | ti-anodised"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("anodized", "(aluminium) | anod-ii-clear"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted


def test_only_finishes_of_the_catalogue_imply_a_basis(catalogue: Catalogue) -> None:
    assert set(IMPLIED_BASIS) <= set(catalogue.finishes)


def test_an_identifier_implies_its_basis_too(resolver: Resolver) -> None:
    assert firm(resolver.resolve("zn-hdg")) == "(carbon steel) | zn-hdg"
