"""The route class of the API: it refuses what its OpenAPI document does not offer."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from typing import Any

import orjson
from fastapi import Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.routing import APIRoute
from pydantic import BaseModel, ValidationError

from service.web.errors import (
    Fault,
    InvalidRequestError,
    NotAcceptableError,
    UnsupportedMediaTypeError,
)
from service.web.media_types import is_acceptable, is_json
from service.web.nearness import nearest
from service.web.nesting import check_nesting
from service.web.operations import JSON, Operation
from service.web.state import principal, services

Handler = Callable[[Request], Coroutine[Any, Any, Response]]


class JsonRequest(Request):
    """A request whose body is read by the strict parser and may not be nested too deeply."""

    async def json(self) -> Any:
        """Return the body as JSON values.

        Raises
        ------
        orjson.JSONDecodeError
            If it is no JSON document in UTF-8; NaN, infinities and half surrogate pairs are none.
        InvalidRequestError
            If it is nested too deeply.
        """
        value = orjson.loads(await self.body())
        check_nesting(value, services(self).settings.max_json_depth)
        return value


class StrictRoute(APIRoute):
    """A route that checks scopes, query names, media types and nesting before anything else."""

    _operation: Operation | None = None

    def get_route_handler(self) -> Handler:
        """Put the checks in front of the usual handler, or of a quicker one."""
        handle = self._handler_of_a_query() or super().get_route_handler()

        async def check_and_handle(request: Request) -> Response:
            operation = self._operation_for(request)
            for scope in operation.scopes:
                principal(request).require(scope)
            _check_query(request, operation)
            _check_accept(request, operation)
            if operation.body is None:
                return await handle(request)
            _check_content_type(request)
            return await handle(JsonRequest(request.scope, request.receive))

        return check_and_handle

    def _handler_of_a_query(self) -> Handler | None:
        """Return a handler for a route that takes a query and nothing else.

        The usual one looks at the type of each field anew for each request, which takes longer than all else
        that the router does. Unknown and repeated names have been refused by the time this one is asked.
        """
        wanted = self.dependant
        others = (wanted.path_params, wanted.header_params, wanted.cookie_params, wanted.dependencies)
        if self.body_field or any(others) or len(wanted.query_params) != 1:
            return None
        (field,) = wanted.query_params
        model = field.field_info.annotation
        if not isinstance(model, type) or not issubclass(model, BaseModel):
            return None

        async def handle(request: Request) -> Response:
            arguments: dict[str, Any] = {field.name: self._read(model, request)}
            if wanted.request_param_name:
                arguments[wanted.request_param_name] = request
            response: Response = await self.endpoint(**arguments)
            return response

        return handle

    def _read(self, model: type[BaseModel], request: Request) -> BaseModel:
        params, operation = request.query_params, self._operation_for(request)
        given = {
            name: params.getlist(name) if operation.is_repeatable(name) else params[name] for name in params
        }
        try:
            return model.model_validate(given)
        except ValidationError as error:
            entries = [{**each, "loc": ("query", *each["loc"])} for each in error.errors(include_url=False)]
            raise RequestValidationError(entries) from error

    def _operation_for(self, request: Request) -> Operation:
        if self._operation is None:
            self._operation = Operation.of(request.app, self.path_format, request.method)
        return self._operation


def _check_query(request: Request, operation: Operation) -> None:
    if not request.scope["query_string"]:
        return
    seen: set[str] = set()
    faults = []
    for name, _ in request.query_params.multi_items():
        if name not in operation.query:
            near = nearest(name, operation.query)
            faults.append(Fault("query", f"/{name}", "unknown", "This parameter does not exist here.", near))
        elif name in seen and not operation.is_repeatable(name):
            faults.append(Fault("query", f"/{name}", "repeated", "This parameter may come once only."))
        seen.add(name)
    if faults:
        raise InvalidRequestError(*faults)


def _check_accept(request: Request, operation: Operation) -> None:
    accept = request.headers.get("accept")
    if accept and not is_acceptable(accept, operation.produces):
        raise NotAcceptableError(operation.produces)


def _check_content_type(request: Request) -> None:
    if request.headers.get("content-length") == "0":
        return  # a missing body is told as such, whatever it would have been
    content_type = request.headers.get("content-type", "")
    if not is_json(content_type):
        raise UnsupportedMediaTypeError(content_type, (JSON,))
