from __future__ import annotations

from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.judgement import Inquiry, Side, answer
from tests.factories.couples import ALUMINIUM, COAST, COPPER


def test_the_leading_judgement_is_the_first(catalogue: Catalogue) -> None:
    (given,) = answer([Inquiry(Side(surface=ALUMINIUM), Side(surface=COPPER), COAST)], catalogue)
    assert given.judgement is given.judgements[0]
    assert replace(given, judgements=()).judgement is None
