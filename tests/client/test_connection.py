from __future__ import annotations

import httpx
import pytest

from service.client import NO_RETRIES, Client
from tests.factories.scripted import OK, scripted, scripted_async


def test_every_call_names_its_key_and_what_it_wants() -> None:
    client, script = scripted(OK)
    client.check_health()
    (request,) = script.requests
    assert request.url == "http://faying.test/healthz"
    assert request.headers["authorization"] == "Bearer fay_key"
    assert request.headers["accept"] == "application/json"
    assert request.headers["user-agent"] == "faying-client"


def test_an_address_may_have_a_path_and_a_client_of_ones_own_its_headers() -> None:
    seen: list[httpx.Request] = []

    def answer(request: httpx.Request) -> httpx.Response:
        seen.append(request)
        return OK

    http = httpx.Client(transport=httpx.MockTransport(answer), headers={"X-Programme": "tide gauge"})
    client = Client("http://faying.test/materials/", http=http)
    client.check_health()
    assert seen[0].url == "http://faying.test/materials/healthz"
    assert seen[0].headers["x-programme"] == "tide gauge"
    assert "authorization" not in seen[0].headers
    client.close()
    assert not http.is_closed


def test_the_key_is_not_shown() -> None:
    client, _ = scripted()
    assert "fay_key" not in repr(client._connection)
    assert repr(client) == "Client('http://faying.test')"


def test_another_time_out_goes_over_the_same_connections() -> None:
    client, script = scripted(OK, httpx.Response(503))
    quick = client.within(0.5, NO_RETRIES)
    quick.check_health()
    assert script.requests[0].extensions["timeout"]["read"] == 0.5
    assert quick._http is client._http
    assert client.within(1)._connection.retries == client._connection.retries


BATCH = (
    b'{"complete":true,"count":0,"failed":0,"digest":"%s","release":{"label":"a","content_hash":"b"}}\n'
    % (b"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")
)


def test_a_body_in_pieces_is_sent_without_its_length() -> None:
    client, script = scripted(httpx.Response(200, content=BATCH))
    assert list(client.judge_couples([(0, 1)], surfaces=["A4"])) == []
    assert script.requests[0].headers["transfer-encoding"] == "chunked"
    assert script.bodies == [b'{"surfaces":["A4"],"defaults":{}}\n[0,1]\n']


@pytest.mark.anyio
async def test_the_same_when_awaited() -> None:
    client, script = scripted_async(httpx.Response(200, content=BATCH))
    assert [item async for item in await client.judge_couples([(0, 1)], surfaces=["A4"])] == []
    assert script.requests[0].headers["transfer-encoding"] == "chunked"
    assert script.bodies == [b'{"surfaces":["A4"],"defaults":{}}\n[0,1]\n']
