from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("ENIG", "(copper) | enig"),
    ("lead free HASL", "(copper) | hasl-lf"),
    ("leaded HASL", "(copper) | hasl-snpb"),
    ("HASL RoHS", "(copper) | hasl-lf"),
    ("HASL SnPb", "(copper) | hasl-snpb"),
    ("OSP", "(copper) | osp"),
    ("ENEPIG", "(copper) | enepig"),
    ("IPC-4552", "(copper) | enig"),
    ("IPC-4553", "(copper) | imm-ag"),
    ("IPC-4554", "(copper) | imm-sn"),
    ("IPC-4555", "(copper) | osp"),
    ("IPC-4556", "(copper) | enepig"),
    ("electroless nickel 4 um immersion gold 0.05 um", "(copper) | enig:0.05"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("HASL", "(copper) | hasl-lf"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
