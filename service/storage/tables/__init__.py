"""The tables of the database, one module per noun."""

from service.storage.tables.access import ApiKeyRow, BlockedClientRow, IdempotencyKeyRow, TenantRow
from service.storage.tables.answers import AnswerRow
from service.storage.tables.assemblies import AssemblyRow
from service.storage.tables.audit import AuditRow
from service.storage.tables.compounds import CompoundRow
from service.storage.tables.curation import CommentRow, OverlayRow, OverlayVersionRow, ProposalRow, ReviewRow
from service.storage.tables.electrodes import ElectrodeRow, KineticsRow
from service.storage.tables.environments import ElectrolyteRow, EnvironmentRow
from service.storage.tables.finishes import FinishRow, FinishSubstrateRow
from service.storage.tables.jobs import JobChunkRow, JobInputRow, JobRow
from service.storage.tables.knowledge import KNOWLEDGE
from service.storage.tables.materials import DesignationRow, MaterialRow
from service.storage.tables.measurements import MeasurementRow
from service.storage.tables.metadata import Row, new_id, utc_now
from service.storage.tables.policies import PolicyRow
from service.storage.tables.releases import ChangeRow, ReleaseRow, SeededRow
from service.storage.tables.rules import MitigationRow, RuleRow
from service.storage.tables.scales import LimitRow, ScaleRow
from service.storage.tables.sources import SourceRow
from service.storage.tables.webhooks import DeliveryRow, WebhookRow

__all__ = [
    "KNOWLEDGE",
    "AnswerRow",
    "ApiKeyRow",
    "AssemblyRow",
    "AuditRow",
    "BlockedClientRow",
    "ChangeRow",
    "CommentRow",
    "CompoundRow",
    "DeliveryRow",
    "DesignationRow",
    "ElectrodeRow",
    "ElectrolyteRow",
    "EnvironmentRow",
    "FinishRow",
    "FinishSubstrateRow",
    "IdempotencyKeyRow",
    "JobChunkRow",
    "JobInputRow",
    "JobRow",
    "KineticsRow",
    "LimitRow",
    "MaterialRow",
    "MeasurementRow",
    "MitigationRow",
    "OverlayRow",
    "OverlayVersionRow",
    "PolicyRow",
    "ProposalRow",
    "ReleaseRow",
    "ReviewRow",
    "Row",
    "RuleRow",
    "ScaleRow",
    "SeededRow",
    "SourceRow",
    "TenantRow",
    "WebhookRow",
    "new_id",
    "utc_now",
]
