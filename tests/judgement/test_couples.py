from __future__ import annotations

from service.judgement.couples import NO_DUTY, Contact, Couple, Geometry
from tests.factories.couples import ALUMINIUM, COPPER


def test_a_couple_of_two_surfaces_states_nothing_else() -> None:
    couple = Couple(ALUMINIUM, COPPER)
    assert couple.contact is NO_DUTY == Contact()
    assert couple.geometry is Geometry.STRIP
    assert (couple.first_area_m2, couple.design_life_years, couple.section_allowance_um) == (None, None, None)


def test_equal_couples_are_one_couple() -> None:
    assert len({Couple(ALUMINIUM, COPPER), Couple(ALUMINIUM, COPPER), Couple(COPPER, ALUMINIUM)}) == 2
