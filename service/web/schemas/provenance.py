"""Where a record comes from; the last fields of every record that holds figures."""

from __future__ import annotations

from service.catalogue.records import Obtained
from service.web.schemas.fields import Schema, described


class Provenance(Schema):
    """Source, place and way of obtaining of a record's figures."""

    source_id: str = described("Source of the figures, a key of `/v1/sources`.", "astm-b633")
    locator: str = described("Where in the source: table, clause or page; empty if the whole.", "Table 1")
    obtained: Obtained = described("How the figures were obtained from the source.", "read")
    note: str = described("Remark of the editors; empty if none.", "Thickness classes 5, 8, 12, 25 µm.")
