"""Every operation refuses every bad key and token, in the same words whatever lies behind the address."""

from __future__ import annotations

import re
import shutil
from collections.abc import AsyncIterator, Iterator
from pathlib import Path

import httpx
import pytest

from service.access import EVERYTHING, Scope
from service.settings import Settings
from service.web.api import assemble
from tests.contract.bad_credentials import Credentials, prepare
from tests.contract.walk import OPERATIONS, unknown, write_table
from tests.factories.http import Running, bearer, problem, publish_package, running
from tests.factories.issuer import Issuer, serving, token_settings

pytestmark = pytest.mark.anyio

GENEROUS = 1_000_000
NOTHING: frozenset[Scope] = frozenset()
JUST = {operation.name: frozenset(map(Scope, operation.scopes)) for operation in OPERATIONS}
ALL_BUT = {scope: EVERYTHING - {scope} for scope in Scope}
SETS = {NOTHING, EVERYTHING, *JUST.values(), *ALL_BUT.values()}
REQUEST_ID = re.compile(rb"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")


@pytest.fixture
def anyio_backend() -> str:
    return "asyncio"


@pytest.fixture(scope="module")
def issuer() -> Iterator[Issuer]:
    with serving(Issuer()) as started:
        yield started


@pytest.fixture(scope="module")
def url(sqlite_template: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    address = f"sqlite:///{shutil.copy(sqlite_template, tmp_path_factory.mktemp('refusals') / 'f.sqlite3')}"
    publish_package(address)
    return address


@pytest.fixture(scope="module")
def credentials(url: str, issuer: Issuer) -> Credentials:
    return prepare(url, issuer, SETS)


@pytest.fixture
async def application(url: str, issuer: Issuer, anyio_backend: str) -> AsyncIterator[Running]:
    generous = {
        "requests_per_minute": GENEROUS,
        "request_burst": GENEROUS,
        "refusals_per_minute": GENEROUS,
        "log_level": "WARNING",
    }
    settings = Settings.model_validate({"database_url": url, **generous, **token_settings(issuer)})
    async with running(settings, key=None) as started:
        yield started


def test_the_walk_knows_every_operation() -> None:
    assert unknown() == []


async def test_every_operation_refuses_bad_credentials(
    application: Running, credentials: Credentials
) -> None:
    """The rows of the security table; all of them are written before any of them is judged."""
    send, outcomes, bodies = application.client.request, {}, set()
    for operation in OPERATIONS:
        address = operation.address()
        row = {"none": await send(operation.method, address)}
        for name, value in credentials.bad.items():
            row[name] = await send(operation.method, address, headers={"Authorization": value})
            bodies.add(REQUEST_ID.sub(b"", row[name].content))
        for kind, held in (("key", credentials.keys), ("token", credentials.tokens)):
            lacking = [ALL_BUT[Scope(scope)] for scope in operation.scopes]
            for name, scopes in (("no scope", NOTHING), *(("all other scopes", each) for each in lacking)):
                row[f"{kind}, {name}"] = await send(operation.method, address, headers=bearer(held[scopes]))
            row[f"{kind}, just enough"] = await send(
                operation.method, address, headers=bearer(held[JUST[operation.name]])
            )
        outcomes[operation.name] = row
    names = list(outcomes[OPERATIONS[0].name])
    rows = [(name, *(str(row[each].status_code) for each in names)) for name, row in outcomes.items()]
    write_table("refusals.md", "Operations and credentials", ("operation", *names), rows)
    wrong = [
        f"{operation}, {name}: {row[name].status_code}"
        for operation, row in outcomes.items()
        for name in names
        if not is_right(name, row[name])
    ]
    assert wrong == []
    assert len(bodies) == 1, "bad credentials are told apart by the answer"


def is_right(name: str, response: httpx.Response) -> bool:
    """Whether an operation answered as it must."""
    if name.endswith("just enough"):
        return response.status_code not in {401, 403}
    slug, status = "invalid-credentials", 401
    if name == "none":
        slug = "missing-credentials"
    elif name.startswith(("key,", "token,")):
        slug, status = "insufficient-scope", 403
    is_told = response.status_code == status and response.json()["type"] == f"/problems/{slug}"
    return is_told and "www-authenticate" in response.headers


async def test_nothing_is_given_away_about_addresses_that_do_not_exist(application: Running) -> None:
    for path in ("/v1/nothing", "/v1/materials/none", "/v1/materials/s235", "/v1/"):
        problem(await application.client.get(path), 401, "missing-credentials")


async def test_an_answer_that_is_at_hand_is_refused_to_who_lacks_the_scope(
    application: Running, credentials: Credentials
) -> None:
    """The shortcut for repeated questions knows scopes too."""
    get, path = application.client.get, "/v1/couples?first=zinc&second=S235JR&environment=harbour"
    for _ in range(2):
        allowed = await get(path, headers=bearer(credentials.keys[EVERYTHING]))
        assert allowed.status_code == 200, allowed.text
    for held in (credentials.keys, credentials.tokens):
        refused = await get(path, headers=bearer(held[ALL_BUT[Scope.JUDGE]]))
        problem(refused, 403, "insufficient-scope")


OPEN_PAGES = {
    "/.well-known/oauth-protected-resource",
    "/assets/{name}",
    "/docs",
    "/docs/reference.css",
    "/docs/{operation_id}",
    "/guide",
    "/healthz",
    "/problems",
    "/problems/{slug}",
    "/readyz",
    "/sign-in",
    "/sign-out",
    "/v1/openapi.json",
}
"""What anybody may ask for: words about the service and the files that pages load."""


async def test_only_the_listed_pages_are_open(url: str) -> None:
    settings = Settings.model_validate({"database_url": url, "development_key": "", "log_level": "WARNING"})
    closed, open_pages = [], set()
    async with running(settings, key=None) as started:
        for route in assemble().routes:
            path = getattr(route, "path", "")
            for method in sorted(getattr(route, "methods", None) or ()):
                address = re.sub(r"\{[^}]+\}", "none", path)
                response = await started.client.request(method, address)
                is_closed = response.status_code == 401 or response.headers.get("location", "").startswith(
                    "/sign-in?"
                )
                if is_closed:
                    closed.append(path)
                else:
                    open_pages.add(path)
    assert open_pages == OPEN_PAGES
    assert len(closed) > 50


UNSCOPED_PAGES = {"/", "/ask", "/bom/template.xlsx"}
"""Forms and a file without anything in them; what they are sent to asks for its scope."""


async def test_every_page_asks_for_its_scope_before_anything_else(url: str, credentials: Credentials) -> None:
    settings = Settings.model_validate({"database_url": url, "development_key": "", "log_level": "WARNING"})
    statuses = {}
    async with running(settings, key=None) as started:
        key = credentials.keys[NOTHING]
        assert (await started.client.post("/sign-in", data={"key": key})).status_code == 303
        for route in assemble().routes:
            path = getattr(route, "path", "")
            if path in OPEN_PAGES | UNSCOPED_PAGES or path.startswith("/v1/"):
                continue
            for method in sorted(getattr(route, "methods", None) or ()):
                response = await started.client.request(method, re.sub(r"\{[^}]+\}", "none", path))
                statuses[f"{method} {path}"] = response.status_code
    assert len(statuses) > 15
    assert {name: status for name, status in statuses.items() if status != 403} == {}
