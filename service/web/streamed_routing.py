"""Routes that read their body themselves, because it is large or no JSON document."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from fastapi import Request
from pydantic import BaseModel

from service.web.operations import Operation
from service.web.routing import StrictRoute

REFERENCE = "#/components/schemas/{model}"


class StreamedRoute(StrictRoute):
    """A route that is checked like others but for its body, which it takes apart itself."""

    def _operation_for(self, request: Request) -> Operation:
        return replace(super()._operation_for(request), body=None)


def body_in(model: type[BaseModel], *media_types: str, is_required: bool = True) -> dict[str, Any]:
    """Describe a body that comes in several formats, for ``openapi_extra``; the last is JSON itself."""
    schema = model.model_json_schema(ref_template=REFERENCE)
    schema.pop("$defs", None)
    *others, json = media_types
    text = {"type": "string", "description": f"The same as {model.__name__}, in lines."}
    content = {media_type: {"schema": text} for media_type in others} | {json: {"schema": schema}}
    return {"requestBody": {"required": is_required, "content": content}}
