"""From an assembly to the bytes of its report, and the answers behind it kept under their addresses."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from service.assemblies import Report, check
from service.assemblies.exports import as_csv, as_xlsx
from service.assemblies.outcomes import Outcomes, canonical_sha256, object_of
from service.assemblies.reading import ReadAssembly
from service.assemblies.standing import standing_document
from service.assemblies.substitution import Substitute, check_substitutes, document_of_substitution
from service.assemblies.waivers import Waiver
from service.catalogue.catalogue import Catalogue
from service.judgement import Answer, Inquiry, Policy
from service.web.answers import AnswerBook, KeptAnswer
from service.web.assembly_requests import Asked, pointing
from service.web.house_policies import Decider
from service.web.identity import identify
from service.web.issuing import issued
from service.web.operations import JSON
from service.web.representation import canonical
from service.web.schemas.assemblies import ReportFormat
from service.web.uploads import CSV, XLSX

MOST_KEPT = 2_000
"""Answers of one assembly that are kept under their addresses; all of them have their hash."""


@dataclass(slots=True)
class Keeper:
    """Hears the answers of an assembly and keeps the first of them, as those of couples are kept."""

    catalogue: Catalogue
    policy: Policy
    tenant_id: str
    book: AnswerBook
    addresses: dict[str, str] = field(default_factory=dict)
    _made: list[KeptAnswer] = field(default_factory=list)

    def hear(self, inquiry: Inquiry, given: Answer) -> None:
        """Take an answer up."""
        if len(self.addresses) >= MOST_KEPT:
            return
        identity = identify(inquiry, self.catalogue, self.policy)
        self.addresses[canonical_sha256(given.document())] = identity.address
        self._made.append(issued(given, identity, self.tenant_id))

    def close(self) -> Mapping[str, str]:
        """Keep what was heard; return the addresses by the hash of the answer."""
        self.book.keep_many(self._made)
        return self.addresses


@dataclass(frozen=True, slots=True)
class Checking:
    """Checks assemblies in one release, for one tenant."""

    catalogue: Catalogue
    tenant_id: str
    book: AnswerBook

    def report(
        self,
        asked: Asked,
        decider: Decider,
        waivers: tuple[Waiver, ...],
        today: dt.date,
        wanted: ReportFormat,
    ) -> tuple[bytes, str]:
        """Check an assembly and write its report.

        Returns
        -------
        bytes
            The report in the format that is wanted.
        str
            Its media type.

        Raises
        ------
        InconsistentRequestError
            If its joints and parts do not fit together.
        """
        house = decider.house
        keeper = Keeper(self.catalogue, house.bands, self.tenant_id, self.book)
        with pointing():
            outcomes = Outcomes(self.catalogue, house.bands, keeper.hear)
            report = check(asked.assembly, self.catalogue, house.bands, outcomes=outcomes)
        addresses = keeper.close()
        if wanted is ReportFormat.CSV:
            return as_csv(report.document), CSV
        if wanted is ReportFormat.XLSX:
            return as_xlsx(report.document), XLSX
        return _check_document(report, asked.read, decider, waivers, today, addresses), JSON

    def comparison(self, asked: Asked, part: str, offered: list[Substitute], decider: Decider) -> bytes:
        """Compare substitutes and write what they change.

        Raises
        ------
        InconsistentRequestError
            If the assembly has no such part, or its joints and parts do not fit together.
        """
        with pointing():
            before, results = check_substitutes(asked.assembly, part, offered, self.catalogue, decider.house)
        comparison = document_of_substitution(before, results, part, decider.house)
        return canonical(
            {
                "comparison": comparison,
                "reading": reading_document(asked.read),
                "stored_policy": decider.reference,
            }
        )


def _check_document(
    report: Report,
    read: ReadAssembly | None,
    decider: Decider,
    waivers: tuple[Waiver, ...],
    today: dt.date,
    addresses: Mapping[str, str],
) -> bytes:
    """The report with what stands beside it; its bytes are those of the report alone."""
    beside = {
        "answers": addresses,
        "reading": reading_document(read),
        "standing": standing_document(report, decider.house, waivers, today),
        "stored_policy": decider.reference,
    }
    members = {name: [canonical(value)] for name, value in beside.items()}
    return b"".join(object_of({**members, "report": [report.json]}))


def reading_document(read: ReadAssembly | None) -> dict[str, Any] | None:
    """How files were read, as plain JSON values."""
    if read is None:
        return None
    return {"tables": dict(read.mapping), "assumptions": list(read.assumptions)}
