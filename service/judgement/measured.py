"""The best measured figure of a material, where the knowledge base holds several."""

from __future__ import annotations

from collections.abc import Collection
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade
from service.catalogue.records import Measurement


@lru_cache(maxsize=4096)
def best_measurement(
    material_id: str, quantity: str, catalogue: Catalogue, units: Collection[str] = ()
) -> Measurement | None:
    """Best graded usable measurement of a material.

    Parameters
    ----------
    material_id : str
    quantity : str
        Term of the knowledge base, such as density or hardness.
    catalogue : Catalogue
    units : frozenset of str
        Units that can be used; any where empty.

    Returns
    -------
    Measurement or None
        ``None`` where there is none with a figure; quarantined and unfit rows are never used.
    """
    usable = [
        (letter, row.id, row)
        for row in catalogue.measurements_of.get(("material", material_id), ())
        if row.quantity == quantity
        and not row.quarantine_reason
        and figure_of(row) is not None
        and (not units or row.unit in units)
        and (letter := grade(row.obtained, row.fitness, row.plausibility)) is not None
    ]
    return min(usable, default=(None, None, None))[2]


def figure_of(row: Measurement) -> float | None:
    """Central figure of a measurement.

    Parameters
    ----------
    row : Measurement

    Returns
    -------
    float or None
        The value, else the middle of the range, else its one end [unit of the row].
    """
    if row.value is not None:
        return row.value
    ends = [end for end in (row.low, row.high) if end is not None]
    return sum(ends) / len(ends) if ends else None
