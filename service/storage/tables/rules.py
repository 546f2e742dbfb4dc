"""Rules that witnesses evaluate, and options that change a joint."""

from __future__ import annotations

from sqlalchemy import ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row


class RuleRow(Row):
    """A rule with its trigger."""

    __tablename__ = "rules"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    name: Mapped[str]
    trigger: Mapped[str]
    severity: Mapped[str]
    anode: Mapped[str]
    refuses: Mapped[bool]
    affects: Mapped[list[str]]
    statement: Mapped[str]
    advice: Mapped[str]
    caution: Mapped[str]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]


class MitigationRow(Row):
    """An option that changes a joint."""

    __tablename__ = "mitigations"

    id: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    rank: Mapped[int]
    transform: Mapped[str]
    parameters: Mapped[str]
    applies_when: Mapped[str]
    ends_functions: Mapped[list[str]]
    needs_opt_in: Mapped[list[str]]
    life_years_low: Mapped[float | None]
    life_years_high: Mapped[float | None]
    inspection: Mapped[str]
    done_badly: Mapped[str]
    directions: Mapped[str]
    caution: Mapped[str]
    has_sourced_efficacy: Mapped[bool]
    source_id: Mapped[str] = mapped_column(ForeignKey("sources.id"))
    locator: Mapped[str]
    obtained: Mapped[str]
    note: Mapped[str]
