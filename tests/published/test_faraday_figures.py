"""Faraday conversions against published constants and worked figures.

All figures are recalled and were not checked on the page. Sources: [G102] ASTM G102-89(2015)e1,
table 2 and clause 4.7; [Jones] D. A. Jones, Principles and Prevention of Corrosion, 2nd ed. 1996,
chapter 3; [Atrens] A. Atrens et al., Adv. Eng. Mater. 17 (2015) 400 and Z. Shi, M. Liu, A. Atrens,
Corros. Sci. 52 (2010) 579, doi 10.1016/j.corsci.2009.10.016; [DNV] DNV-RP-B401 (capacities of
sacrificial anodes). The equivalent weights of table 1 are in ``test_equivalent_weights``.
"""

from __future__ import annotations

import pytest

from service.chemistry.elements import atomic_weight
from service.chemistry.faraday import equivalent_weight, mass_loss_rate, penetration_rate, per_year

UA_PER_CM2 = 0.01
"""1 uA/cm2 [A/m2]."""


def millimetres_per_year(current: float, weight: float, density: float) -> float:
    return 1e3 * float(per_year(penetration_rate(current, weight, density)))


def test_the_constants_of_the_standard_practice() -> None:
    assert millimetres_per_year(UA_PER_CM2, 1.0, 1000.0) == pytest.approx(3.27e-3, abs=0.005e-3)  # [G102] K1
    assert millimetres_per_year(1.0, 1.0, 1.0) == pytest.approx(327.2, abs=0.2)  # [G102] K1, SI
    mils = millimetres_per_year(UA_PER_CM2, 1.0, 1000.0) / 0.0254
    assert mils == pytest.approx(0.1288, abs=5e-5)  # [G102] K1, mpy
    grams_per_day = 86400e3 * float(mass_loss_rate(1.0, 1.0))
    assert grams_per_day == pytest.approx(0.8953, abs=3e-4)  # [G102] K2, g/(m2 d) for A/m2
    assert grams_per_day * UA_PER_CM2 == pytest.approx(8.95e-3, abs=0.005e-3)  # [G102] K2 for uA/cm2


def test_the_worked_stainless_steel() -> None:
    """19 % Cr(III), 9.25 % Ni(II), 71.75 % Fe(II): NEQ 0.03981, EW 25.12 [Jones]."""
    weight = equivalent_weight({"Fe": 0.7175, "Cr": 0.19, "Ni": 0.0925}, {"Fe": 2, "Cr": 3, "Ni": 2})
    assert weight == pytest.approx(25.12, abs=0.005)
    assert 1.0 / weight == pytest.approx(0.03981, abs=5e-6)


@pytest.mark.parametrize(
    ("element", "valence", "density", "published"),
    [
        ("Fe", 2, 7860.0, 0.0116),  # [Jones], 0.46 mpy
        ("Cu", 2, 8940.0, 0.0116),  # [Jones]
        ("Al", 3, 2700.0, 0.0109),  # [Jones]
        ("Zn", 2, 7130.0, 0.0150),  # [Jones]
        ("Mg", 2, 1740.0, 0.02285),  # [Atrens], 22.85 mm/y for 1 mA/cm2
    ],
)
def test_penetration_for_one_microampere_per_square_centimetre(
    element: str, valence: int, density: float, published: float
) -> None:
    weight = atomic_weight(element) / valence
    assert millimetres_per_year(UA_PER_CM2, weight, density) == pytest.approx(published, rel=5e-3)


def test_magnesium_mass_loss_to_penetration() -> None:
    """P_w[mm/y] = 2.10 dW[mg/(cm2 d)] [Atrens]."""
    weight = atomic_weight("Mg") / 2
    milligrams_per_day = 86400.0 * 1e6 * 1e-4 * float(mass_loss_rate(1.0, weight))
    assert millimetres_per_year(1.0, weight, 1740.0) / milligrams_per_day == pytest.approx(2.10, rel=2e-3)


@pytest.mark.parametrize(
    ("element", "valence", "capacity"), [("Zn", 2, 820.0), ("Al", 3, 2980.0), ("Mg", 2, 2205.0)]
)
def test_theoretical_capacity_of_anodes(element: str, valence: int, capacity: float) -> None:
    """Ampere hours per kilogram; practical values of [DNV] are 780 for zinc and 2000 for aluminium."""
    kilograms_per_hour = 3600.0 * float(mass_loss_rate(1.0, atomic_weight(element) / valence))
    assert 1.0 / kilograms_per_hour == pytest.approx(capacity, rel=2e-3)
