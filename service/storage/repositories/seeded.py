"""The ledger of what the seed package has put into the knowledge base."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sqlalchemy import bindparam, delete, insert, select
from sqlalchemy.orm import Session

from service.storage.tables import SeededRow

RowName = tuple[str, str]
"""Table and key text."""


class SeededRepository:
    """Hash of the last seeded content of each row."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def hashes(self) -> dict[RowName, str]:
        """Return the whole ledger."""
        columns = select(SeededRow.table_name, SeededRow.row_key, SeededRow.row_hash)
        return {(table, key): content for table, key, content in self._session.execute(columns)}

    def record(self, hashes: Mapping[RowName, str]) -> None:
        """Enter rows, or their new content."""
        self.forget(hashes)
        if hashes:
            self._session.execute(
                insert(SeededRow.__table__),  # type: ignore[arg-type]
                [
                    {"table_name": table, "row_key": key, "row_hash": content}
                    for (table, key), content in hashes.items()
                ],
            )

    def forget(self, names: Iterable[RowName]) -> None:
        """Take rows off the ledger."""
        parameters = [{"name_of_table": table, "key_of_row": key} for table, key in names]
        if parameters:
            self._session.connection().execute(
                delete(SeededRow).where(
                    SeededRow.table_name == bindparam("name_of_table"),
                    SeededRow.row_key == bindparam("key_of_row"),
                ),
                parameters,
            )
