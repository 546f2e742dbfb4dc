"""Read measurements that bear a figure of a kinetic record out: what a class figure rests on.

A record of kinetics is a class figure drawn from several places. Where a potential or a current
density of the same electrode, state and class of electrolyte was read and meets the record's range,
the answer cites it beside the record.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache

from service.catalogue.catalogue import Catalogue
from service.catalogue.grading import grade, is_read
from service.catalogue.records import ElectrodeState, Kinetics, Measurement
from service.chemistry.potentials import to_she

POTENTIAL = "corrosion_potential"
CURRENT = "corrosion_current_density"


@lru_cache(maxsize=16)
def backing_of(catalogue: Catalogue) -> Mapping[str, tuple[str, ...]]:
    """Measurements that bear each kinetic record out.

    Parameters
    ----------
    catalogue : Catalogue

    Returns
    -------
    mapping of str to tuple of str
        Identifiers of measurements by that of the kinetic record: the best graded potential and the
        best graded current density, of those whose range meets the record's.
    """
    return {row.id: tuple(_backing(row, catalogue)) for row in catalogue.kinetics.values()}


def _backing(record: Kinetics, catalogue: Catalogue) -> Iterator[str]:
    measured = catalogue.measurements_of.get(("electrode", record.electrode_id), ())
    for quantity in (POTENTIAL, CURRENT):
        fit = [
            (letter, row.id)
            for row in measured
            if row.quantity == quantity
            and (letter := _letter(row)) is not None
            and _is_of_state(row, record)
            and _is_of_class(row, record, catalogue)
            and _meets(row, record)
        ]
        if fit:
            yield min(fit)[1]


def _letter(row: Measurement) -> str | None:
    """Grade of a row that was read and may be used."""
    if row.quarantine_reason or not is_read(row.obtained):
        return None
    return grade(row.obtained, row.fitness, row.plausibility)


def _is_of_state(row: Measurement, record: Kinetics) -> bool:
    """A row without a state is of the metal as found, which is not ennobled."""
    if row.state:
        return row.state == record.state.value
    return record.state is not ElectrodeState.ENNOBLED


def _is_of_class(row: Measurement, record: Kinetics, catalogue: Catalogue) -> bool:
    electrolyte = catalogue.electrolytes.get(row.electrolyte_id)
    return electrolyte is not None and electrolyte.electrolyte_class is record.electrolyte_class


def _meets(row: Measurement, record: Kinetics) -> bool:
    """Whether the measured range and the record's have a figure in common."""
    ends = [figure for figure in (row.low, row.value, row.high) if figure is not None]
    if not ends:
        return False
    low, high = min(ends), max(ends)
    if row.quantity == CURRENT:
        return record.corrosion_current_low_A_per_m2 <= high and low <= record.corrosion_current_high_A_per_m2
    if not row.reference_electrode:
        return False
    low, high = (float(to_she(end, row.reference_electrode)) for end in (low, high))
    return record.corrosion_potential_low_V <= high and low <= record.corrosion_potential_high_V
