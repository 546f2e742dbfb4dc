"""Questions of the past are put to the present."""

from __future__ import annotations

import orjson
import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Contact, Function, Geometry, Inquiry, Side
from service.web.identity import identify
from service.web.today import inquiry_from
from tests.seed_catalogue import seed_catalogue


def catalogue() -> Catalogue:
    return seed_catalogue()


@pytest.mark.parametrize(
    "inquiry",
    [
        Inquiry(
            Side(text="A4-80"), Side(material="S235JR", finish="Fe//Zn8//C"), "marine-atmosphere-0-100-m"
        ),
        Inquiry(
            Side(surface=Surface("al-6082-t6", (Layer("anodic-sulfuric", 15.0, 25.0),))),
            Side(text="x", thickness_um=3.0),
            catalogue().environments["marine-atmosphere-0-100-m"],
            first_area_m2=1.0,
            geometry=Geometry.FASTENER,
            functions=(Function.RF, Function.SEAL),
            contact=Contact(current_A=32.0, receive_bands_MHz=((156.0, 163.0),)),
            find_tipping_point=True,
        ),
    ],
)
def test_a_canonical_request_reads_back_to_its_question(inquiry: Inquiry) -> None:
    request = identify(inquiry, catalogue(), DEFAULT_POLICY).request
    again = inquiry_from(request)
    assert again == inquiry
    assert orjson.dumps(again, option=orjson.OPT_SORT_KEYS) == request
