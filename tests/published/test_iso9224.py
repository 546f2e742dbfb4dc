"""Long-term factors against ISO 9224:2012 Table 3.

Read in a copy of the table in an open research repository (Institute-of-Surface-Science/CorWiz,
data/tables/din-en-iso-92232012-05_tables_9224_table_3.csv). Beyond 20 years that table goes on with the power
law, whereas the rule for longer times is the tangent: it gives a little more.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from service.chemistry.atmosphere import LONG_TERM_EXPONENTS, StandardMetal, cumulative_loss

DATA = Path(__file__).parent / "data" / "iso9224_table3.csv"


@pytest.mark.parametrize("metal", list(StandardMetal))
@pytest.mark.parametrize("which", [0, 1])
def test_table_3_to_its_last_digit(metal: StandardMetal, which: int) -> None:
    with DATA.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert len(rows) == 20
    for row in rows:
        loss = cumulative_loss(1.0, LONG_TERM_EXPONENTS[metal][which], float(row["years"]))
        assert float(loss) == pytest.approx(float(row[f"{metal}_B{which + 1}"]), abs=5.1e-4)


@pytest.mark.parametrize(
    # the same table at 50 years, power law
    ("metal", "power_law"),
    [
        (StandardMetal.CARBON_STEEL, 7.737),
        (StandardMetal.ZINC, 24.058),
        (StandardMetal.COPPER, 13.590),
        (StandardMetal.ALUMINIUM, 17.252),
    ],
)
def test_the_tangent_lies_above_the_power_law_after_fifty_years(
    metal: StandardMetal, power_law: float
) -> None:
    loss = float(cumulative_loss(1.0, LONG_TERM_EXPONENTS[metal][0], 50.0))
    assert 1.0 < loss / power_law < 1.12
