"""What goes in and out as it is: bills of materials, reports as tables, answers and releases."""

from __future__ import annotations

import base64
import hashlib
from pathlib import Path
from typing import Literal, Unpack

from service.client.document.bodies import AssemblyRequest, FileRequest
from service.client.errors import UnexpectedReplyError
from service.client.flows import Flow, ask_bytes, send
from service.client.requests import Request, address

_MEDIA_TYPES = {
    "csv": "text/csv",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
_RELEASE_TYPES = {"file": "application/gzip", "package": "application/zip"}
TableFormat = Literal["csv", "xlsx"]


def attach(path: str | Path, name: str = "") -> FileRequest:
    """Read a table from disk for ``files=`` of an assembly: CSV, XLSX, JSON or NDJSON."""
    file = Path(path)
    return {"name": name or file.name, "content": base64.b64encode(file.read_bytes()).decode()}


def export_assembly(table_format: TableFormat, **body: Unpack[AssemblyRequest]) -> Flow[bytes]:
    """Check a bill of materials and return the joints as a table, worst first."""
    return ask_bytes(
        Request(
            "POST",
            "/v1/assemblies/check",
            query={"format": table_format},
            body=body,
            may_repeat=True,
            accept=_MEDIA_TYPES[table_format],
        )
    )


def get_answer_bytes(digest: str) -> Flow[bytes]:
    """Return an issued answer in the bytes that it was issued in, for an archive.

    Raises
    ------
    UnexpectedReplyError
        If they are not those that ``Repr-Digest`` (RFC 9530) promises.
    """
    request = Request("GET", address("/v1/answers/{digest}", digest=digest), accept="*/*")
    response = yield from send(request)
    promised = response.headers.get("repr-digest", "")
    found = base64.b64encode(hashlib.sha256(response.content).digest()).decode()
    if promised != f"sha-256=:{found}:":
        message = f"the bytes of answer {digest} are not those that were promised"
        raise UnexpectedReplyError(message)
    return response.content


def get_assembly_template(
    table_format: TableFormat = "csv", table: Literal["parts", "joints"] | None = None
) -> Flow[bytes]:
    """Return a table with our headings and an example, to be filled in."""
    query = {"format": table_format, "table": table}
    return ask_bytes(
        Request("GET", "/v1/assemblies/template", query=query, accept=_MEDIA_TYPES[table_format])
    )


def export_release(label: str, form: Literal["file", "package"] = "file") -> Flow[bytes]:
    """Return a release for another server: as one file, or as a data package in an archive."""
    path = address("/v1/releases/{label}/export", label=label)
    return ask_bytes(Request("GET", path, query={"form": form}, accept=_RELEASE_TYPES[form]))
