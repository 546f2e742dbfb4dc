"""Reference electrodes against two tables.

[paper] Reference Electrodes in Metal Corrosion, International Journal of Corrosion 2010, 756950, doi
10.1155/2010/756950, table 2 (read): V vs SHE and V vs SCE at 25 degC. [G3] ASTM G3, table of
reference potentials (from memory): V vs SHE, thermal coefficient in mV/K with SHE held at 25 degC.
"""

from __future__ import annotations

import pytest

from service.chemistry.potentials import from_she, reference_electrode, to_she

PAPER = {
    "SHE": (0.0, -0.241),
    "Cu/CuSO4 (sat.)": (0.316, 0.075),
    "SCE": (0.241, 0.0),
    "calomel (1 M KCl)": (0.2801, 0.039),
    "calomel (0.1 M KCl)": (0.3337, 0.093),
    "Ag/AgCl (sat. KCl)": (0.197, -0.044),
    "Ag/AgCl (1 M KCl)": (0.236, -0.005),
    "Ag/AgCl (0.1 M KCl)": (0.2895, 0.048),
    "Hg/HgO (0.1 M NaOH)": (0.165, -0.076),
    "Hg/Hg2SO4 (1 M H2SO4)": (0.6739, 0.433),
}
G3 = {
    "Ag/AgCl (1 M KCl)": (0.235, 0.25),
    "Ag/AgCl (0.1 M KCl)": (0.288, 0.22),
    "SCE": (0.241, 0.22),
    "calomel (1 M KCl)": (0.280, 0.59),
    "calomel (0.1 M KCl)": (0.334, 0.79),
    "Cu/CuSO4 (sat.)": (0.300, 0.90),
}


@pytest.mark.parametrize("name", PAPER)
def test_the_paper(name: str) -> None:
    against_hydrogen, against_calomel = PAPER[name]
    assert to_she(0.0, name) == pytest.approx(against_hydrogen, abs=1e-9)
    assert from_she(to_she(0.0, name), "SCE") == pytest.approx(against_calomel, abs=6e-4)


@pytest.mark.parametrize("name", G3)
def test_the_standard(name: str) -> None:
    potential, thermal = G3[name]
    electrode = reference_electrode(name)
    assert electrode.low_V - 1e-9 <= potential <= electrode.high_V + 1e-3
    isothermal = to_she(0.0, name, 26.0) - to_she(0.0, name, 25.0)
    assert 1e3 * isothermal + 0.87 == pytest.approx(thermal, abs=1e-6)


def test_isothermal_coefficients_of_textbooks() -> None:
    """SCE -0.65 mV/K, Ag/AgCl in saturated KCl -1.01 mV/K (textbooks, from memory)."""
    for name, coefficient in (("SCE", -0.65), ("Ag/AgCl (sat. KCl)", -1.01)):
        assert 1e3 * (to_she(0.0, name, 35.0) - to_she(0.0, name)) == pytest.approx(
            10.0 * coefficient, abs=0.01
        )
