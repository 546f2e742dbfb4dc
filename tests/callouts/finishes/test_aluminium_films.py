from __future__ import annotations

import pytest

from service.callouts.resolver import Resolver
from tests.callouts.outlines import firm, torn

FIRM = [
    ("clear anodized", "(aluminium) | anod-ii-clear"),
    ("black anodized", "(aluminium) | anod-ii-dyed"),
    ("anodized 15 um", "(aluminium) | anod-ii-clear:15"),
    ("anodized 50 um", "(aluminium) | anod-iii-hard:50"),
    ("anodized unsealed", "(aluminium) | anod-ii-unsealed"),
    ("hard anodized", "(aluminium) | anod-iii-hard"),
    ("hard anodized PTFE", "(aluminium) | anod-iii-ptfe"),
    ("chromic acid anodize", "(aluminium) | anod-i"),
    ("boric sulfuric anodize", "(aluminium) | anod-ic"),
    ("phosphoric anodize", "(aluminium) | anod-phosphoric"),
    ("plasma electrolytic oxidation", "() | peo"),
    ("Ti-6Al-4V anodized", "ti-gr5 | ti-anodised"),
    ("AZ91D anodized", "mg-az91d | mg-anodise"),
    ("MIL-A-8625 TY I", "(aluminium) | anod-i"),
    ("MIL-A-8625 TY IB CL 1", "(aluminium) | anod-i"),
    ("MIL-A-8625 TY IC", "(aluminium) | anod-ic"),
    ("MIL-A-8625 TY IIB", "(aluminium) | anod-iib"),
    ("MIL-A-8625 TY II CL 1", "(aluminium) | anod-ii-clear"),
    ("MIL-A-8625 TY II CL 2", "(aluminium) | anod-ii-dyed"),
    ("MIL-A-8625 TY II CL 1 BLACK", "(aluminium) | anod-ii-dyed"),
    ("MIL-A-8625 TY III", "(aluminium) | anod-iii-hard"),
    ("MIL-A-8625 TY III PTFE", "(aluminium) | anod-iii-ptfe"),
    ("ISO 7599 AA15", "(aluminium) | anod-ii-clear:15"),
    ("ISO 10074", "(aluminium) | anod-iii-hard"),
    ("AMS 2471", "(aluminium) | anod-ii-clear"),
    ("AMS 2472", "(aluminium) | anod-ii-dyed"),
    ("AMS 2482", "(aluminium) | anod-iii-ptfe"),
    ("AMS 2488", "(titanium) | ti-anodised"),
    ("ASTM D3933", "(aluminium) | anod-phosphoric"),
    ("E6/EV1", "(aluminium) | anod-ii-clear"),
    ("E6/EV6", "(aluminium) | anod-ii-dyed"),
    ("E0 C-0", "(aluminium) | anod-ii-clear"),
    ("E6/C-34", "(aluminium) | anod-ii-dyed"),
    ("ELOX natur", "(aluminium) | anod-ii-clear"),
    ("chem film class 1A hexavalent", "(aluminium) | chem-film-1a"),
    ("chem film class 1A trivalent", "(aluminium) | tcp-1a"),
    ("MIL-DTL-5541 TY I CL 1A", "(aluminium) | chem-film-1a"),
    ("MIL-DTL-5541 TY II CL 3", "(aluminium) | tcp-3"),
    ("MIL-C-5541 CL 3", "(aluminium) | chem-film-3"),
    ("MIL-C-5541 CL 3 hex free", "(aluminium) | tcp-3"),
    ("zirconium conversion", "() | zirconium-conversion"),
    ("AZ91D chromate conversion", "mg-az91d | mg-chromate"),
    ("AZ91D chem film Cr-free", "mg-az91d | mg-conversion-ncr"),
    ("AMS-M-3171", "(magnesium) | mg-chromate"),
    ("MIL-DTL-83488", "() | ivd-al"),
    ("IVD aluminum", "() | ivd-al"),
    ("electroplated aluminum", "() | al-electro"),
    ("DEF STAN 03-26", "(aluminium) | anod-iii-hard"),
]


@pytest.mark.parametrize(("text", "wanted"), FIRM)
def test_a_firm_reading(text: str, wanted: str, resolver: Resolver) -> None:
    assert firm(resolver.resolve(text)) == wanted


TORN = [
    ("anodized", "(aluminium) | anod-ii-clear"),
    ("anodized 30 um", "(aluminium) | anod-iii-hard:30"),
    ("MIL-A-8625", "(aluminium) | anod-ii-clear"),
    ("chem film", "(aluminium) | chem-film-1a"),
    ("chem film clear class 3", "(aluminium) | chem-film-3"),
    ("chem film gold", "(aluminium) | chem-film-1a"),
    ("MIL-DTL-5541 TY I", "(aluminium) | chem-film-1a"),
    ("MIL-DTL-81706", "(aluminium) | chem-film-1a"),
    ("AMS 2473", "(aluminium) | chem-film-1a"),
    ("alodine 1200", "(aluminium) | chem-film-1a"),
    ("chem film and black anodized", "(aluminium) | anod-ii-dyed"),
    ("chem film class 2", "(aluminium) | chem-film-1a"),
]


@pytest.mark.parametrize(("text", "wanted"), TORN)
def test_an_ambiguous_reading_starts_with(text: str, wanted: str, resolver: Resolver) -> None:
    assert torn(resolver.resolve(text))[0] == wanted
