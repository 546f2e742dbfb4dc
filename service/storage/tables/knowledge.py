"""Which model holds which table of the knowledge base."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from service.storage.tables.compounds import CompoundRow
from service.storage.tables.electrodes import ElectrodeRow, KineticsRow
from service.storage.tables.environments import ElectrolyteRow, EnvironmentRow
from service.storage.tables.finishes import FinishRow, FinishSubstrateRow
from service.storage.tables.materials import DesignationRow, MaterialRow
from service.storage.tables.measurements import MeasurementRow
from service.storage.tables.metadata import Row
from service.storage.tables.rules import MitigationRow, RuleRow
from service.storage.tables.scales import LimitRow, ScaleRow
from service.storage.tables.sources import SourceRow

KNOWLEDGE: Mapping[str, type[Row]] = MappingProxyType(
    {
        "sources": SourceRow,
        "electrodes": ElectrodeRow,
        "materials": MaterialRow,
        "designations": DesignationRow,
        "finishes": FinishRow,
        "finish_substrates": FinishSubstrateRow,
        "compounds": CompoundRow,
        "electrolytes": ElectrolyteRow,
        "environments": EnvironmentRow,
        "scales": ScaleRow,
        "limits": LimitRow,
        "measurements": MeasurementRow,
        "kinetics": KineticsRow,
        "rules": RuleRow,
        "mitigations": MitigationRow,
    }
)
"""In the order of ``catalogue.TABLES``, which respects references."""
