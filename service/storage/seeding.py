"""Bringing the seed package into the database, as often as one likes.

The database is the truth and curation changes it, so a later seeding must not undo that. A ledger
remembers what the package last put under each key; a row is the package's own as long as it still
holds that. The rules:

- new in the package: inserted;
- changed in the package, untouched in the database: updated;
- gone from the package, untouched in the database and named by no row that stays: deleted;
- changed or removed by curation: kept as curation left it, and reported.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from service.catalogue.tables import TABLES
from service.storage.engine import WriteSession
from service.storage.repositories.knowledge import KnowledgeRepository
from service.storage.repositories.seeded import RowName, SeededRepository
from service.storage.rows import Values, key_text, referred, row_hash

Rows = dict[RowName, Values]


@dataclass(frozen=True, slots=True)
class Seeding:
    """What one seeding did, by (table, key)."""

    inserted: tuple[RowName, ...] = ()
    updated: tuple[RowName, ...] = ()
    deleted: tuple[RowName, ...] = ()
    kept: tuple[RowName, ...] = ()

    @property
    def is_unchanged(self) -> bool:
        """Whether the database already held the package."""
        return not (self.inserted or self.updated or self.deleted)


def seed(session: WriteSession, package: Mapping[str, Sequence[Values]]) -> Seeding:
    """Bring a package, as ``read_package`` gives it, into the working state.

    All or nothing: the caller's session commits. Seeding the same package again does nothing.
    """
    ledger = SeededRepository(session)
    before = ledger.hashes()
    wanted = {(table, key_text(table, row)): row for table in TABLES for row in package[table]}
    hashes = {name: row_hash(row) for name, row in wanted.items()}
    if hashes == before:
        return Seeding()
    knowledge = KnowledgeRepository(session)
    stored = {
        (table, key_text(table, row)): row for table, rows in knowledge.all_rows().items() for row in rows
    }
    plan = _plan(wanted, hashes, stored, before)
    _apply(knowledge, plan, wanted)
    done = {
        name: content
        for name, content in hashes.items()
        if before.get(name) != content and name not in plan.kept
    }
    ledger.record(done)
    ledger.forget([name for name in before if name not in wanted and name not in plan.kept])
    return plan


def _plan(
    wanted: Rows, hashes: Mapping[RowName, str], stored: Rows, before: Mapping[RowName, str]
) -> Seeding:
    inserted, updated, kept = [], [], []
    for name, content in hashes.items():
        if before.get(name) == content:
            continue
        found = row_hash(stored[name]) if name in stored else None
        if found == content:
            continue
        if found != before.get(name):
            kept.append(name)
        elif found is None:
            inserted.append(name)
        else:
            updated.append(name)
    vanished = [name for name in before if name not in wanted and name in stored]
    deleted = {name for name in vanished if row_hash(stored[name]) == before[name]}
    final = stored | {name: wanted[name] for name in (*inserted, *updated)}
    _spare_named_rows(final, deleted)
    kept += [name for name in vanished if name not in deleted]
    return Seeding(
        tuple(inserted), tuple(updated), tuple(name for name in vanished if name in deleted), tuple(kept)
    )


def _spare_named_rows(final: Rows, deleted: set[RowName]) -> None:
    """Take off ``deleted`` what a staying row names, and in turn what those name."""
    staying = [name for name in final if name not in deleted]
    while staying:
        table, key = staying.pop()
        for _, target, identifier in referred(table, final[table, key]):
            name = (target, identifier)
            if name in deleted:
                deleted.remove(name)
                staying.append(name)


def _apply(knowledge: KnowledgeRepository, plan: Seeding, wanted: Rows) -> None:
    for table in TABLES:
        knowledge.insert(table, [wanted[name] for name in plan.inserted if name[0] == table])
    for table in TABLES:
        knowledge.update(table, [wanted[name] for name in plan.updated if name[0] == table])
    for table in reversed(tuple(TABLES)):
        knowledge.delete(table, [key for name, key in plan.deleted if name == table])
