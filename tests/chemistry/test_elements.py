"""Atomic weights against the package periodictable."""

from __future__ import annotations

import periodictable
import pytest

from service.chemistry.elements import ATOMIC_WEIGHTS, atomic_weight
from service.chemistry.errors import ChemistryError, UnknownElementError


@pytest.mark.parametrize("element", ATOMIC_WEIGHTS)
def test_weights_are_those_of_the_commission(element: str) -> None:
    assert atomic_weight(element) == pytest.approx(getattr(periodictable, element).mass, rel=1.5e-5)


def test_an_unknown_element_is_named() -> None:
    with pytest.raises(UnknownElementError, match="Xx") as caught:
        atomic_weight("Xx")
    assert caught.value.element == "Xx"
    assert isinstance(caught.value, ChemistryError)
