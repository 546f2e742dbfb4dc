"""What the application holds is within reach of every request."""

from __future__ import annotations

from starlette.requests import HTTPConnection
from starlette.types import Scope

from service.access.keys import DEVELOPMENT
from service.web.state import principal, request_id, services, services_of
from tests.factories.http import Running


def test_state_is_read_from_the_scope(started: Running) -> None:
    state = {"services": started.services, "principal": DEVELOPMENT, "request_id": "r-1"}
    scope: Scope = {"type": "http", "headers": [], "state": state}
    connection = HTTPConnection(scope)
    assert services(connection) is services_of(scope) is started.services
    assert principal(connection) is DEVELOPMENT
    assert request_id(connection) == "r-1"
