"""Uploaded files: alone or several in a form, they stand for a JSON body that holds them."""

from __future__ import annotations

import base64
from collections.abc import Callable, Coroutine
from typing import Any

import orjson
from fastapi import Request, Response
from starlette.datastructures import UploadFile
from starlette.types import Message

from service.web.errors import UnsupportedMediaTypeError
from service.web.media_types import is_json
from service.web.operations import JSON
from service.web.routing import StrictRoute
from service.web.schemas.assemblies import MAX_FILES

CSV = "text/csv"
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
NDJSON = "application/x-ndjson"
FORM = "multipart/form-data"
SINGLE = {
    CSV: "upload.csv",
    "text/tab-separated-values": "upload.tsv",
    "text/plain": "upload.txt",
    XLSX: "upload.xlsx",
    NDJSON: "upload.ndjson",
    "application/octet-stream": "upload",
}
"""Media types of a body that is one file, with the name that messages call it by."""

ACCEPTED = (JSON, *SINGLE, FORM)


class UploadRoute(StrictRoute):
    """A route that takes files as well as JSON: it writes them into the JSON body that they stand for."""

    def get_route_handler(self) -> Callable[[Request], Coroutine[Any, Any, Response]]:
        """Turn an upload into JSON in front of the usual checks."""
        handle = super().get_route_handler()

        async def take(request: Request) -> Response:
            content_type = request.headers.get("content-type", "")
            if is_json(content_type) or not content_type:
                return await handle(request)
            files = await _files(request, content_type.partition(";")[0].strip().lower())
            return await handle(_as_json(request, {"files": files}))

        return take


async def _files(request: Request, media_type: str) -> list[dict[str, str]]:
    if media_type in SINGLE:
        return [_file(SINGLE[media_type], await request.body())]
    if media_type != FORM:
        raise UnsupportedMediaTypeError(media_type, ACCEPTED)
    files = []
    async with request.form(max_files=MAX_FILES, max_fields=MAX_FILES) as form:
        for name, value in form.multi_items():
            if isinstance(value, UploadFile):
                files.append(_file(value.filename or name, await value.read()))
            else:
                files.append(_file(name, value.encode()))
    return files


def _file(name: str, data: bytes) -> dict[str, str]:
    return {"name": name[:200] or "upload", "content": base64.b64encode(data).decode("ascii")}


def _as_json(request: Request, document: object) -> Request:
    """The same request with another body."""
    body = orjson.dumps(document)
    kept = [
        (name, value)
        for name, value in request.scope["headers"]
        if name not in {b"content-type", b"content-length", b"transfer-encoding"}
    ]
    added = [(b"content-type", JSON.encode()), (b"content-length", str(len(body)).encode())]

    async def receive() -> Message:
        return {"type": "http.request", "body": body, "more_body": False}

    return Request({**request.scope, "headers": [*kept, *added]}, receive)


def uploads_described() -> dict[str, Any]:
    """The part of an operation that describes uploads beside its JSON body, for ``openapi_extra``."""
    one = {"schema": {"type": "string", "format": "binary", "description": "One file."}}
    several = {
        "schema": {
            "type": "object",
            "description": "Files of parts and joints, under any names.",
            "additionalProperties": {"type": "string", "format": "binary"},
            "minProperties": 1,
            "maxProperties": MAX_FILES,
        }
    }
    return {"requestBody": {"content": {**dict.fromkeys(SINGLE, one), FORM: several}}}
