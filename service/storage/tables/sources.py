"""Where figures come from."""

from __future__ import annotations

from sqlalchemy.orm import Mapped, mapped_column

from service.storage.tables.metadata import Row


class SourceRow(Row):
    """A bibliographic entry."""

    __tablename__ = "sources"

    id: Mapped[str] = mapped_column(primary_key=True)
    kind: Mapped[str]
    title: Mapped[str]
    authors: Mapped[str]
    publisher: Mapped[str]
    year: Mapped[int | None]
    edition: Mapped[str]
    status: Mapped[str]
    doi: Mapped[str]
    url: Mapped[str]
    note: Mapped[str]
