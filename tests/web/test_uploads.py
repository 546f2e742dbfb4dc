from __future__ import annotations

import base64

import httpx
import pytest

from service.web.uploads import ACCEPTED, SINGLE, uploads_described
from tests.factories.http import Running, problem

pytestmark = pytest.mark.anyio

PATH = "/v1/assemblies/check?environment=clean-room"
TABLE = b"part,material\nA,S355\nB,A4-80\n"


async def test_a_file_is_short_for_the_body_that_holds_it(client: httpx.AsyncClient) -> None:
    uploaded = await client.post(PATH, content=TABLE, headers={"Content-Type": "text/csv; charset=utf-8"})
    body = {"files": [{"name": "upload.csv", "content": base64.b64encode(TABLE).decode()}]}
    assert uploaded.status_code == 200, uploaded.text
    assert uploaded.content == (await client.post(PATH, json=body)).content


@pytest.mark.parametrize("media_type", list(SINGLE))
async def test_the_content_counts_not_its_name(client: httpx.AsyncClient, media_type: str) -> None:
    response = await client.post(PATH, content=TABLE, headers={"Content-Type": media_type})
    assert response.status_code == 200, response.text
    assert list(response.json()["reading"]["tables"]) == [SINGLE[media_type]]


async def test_several_files_come_in_a_form(client: httpx.AsyncClient) -> None:
    files = {"parts": ("p.csv", TABLE), "joints": ("j.csv", b"joint,first,second\nJ,A,B\n")}
    response = await client.post(PATH, files=files)
    assert response.status_code == 200, response.text
    assert [joint["joint"] for joint in response.json()["report"]["joints"]] == ["J"]
    assert set(response.json()["reading"]["tables"]) == {"p.csv", "j.csv"}


async def test_a_field_of_a_form_is_a_file_as_well(client: httpx.AsyncClient) -> None:
    response = await client.post(
        PATH, files={"parts": ("p.csv", TABLE)}, data={"joints": "joint,first,second\nJ,A,B\n"}
    )
    assert [joint["joint"] for joint in response.json()["report"]["joints"]] == ["J"]
    assert set(response.json()["reading"]["tables"]) == {"p.csv", "joints"}


async def test_a_broken_form_is_malformed(client: httpx.AsyncClient) -> None:
    response = await client.post(PATH, content=b"xx", headers={"Content-Type": "multipart/form-data"})
    problem(response, 400, "malformed-body")


async def test_other_media_types_are_refused_with_those_that_are_read(client: httpx.AsyncClient) -> None:
    response = await client.post(PATH, content=b"x", headers={"Content-Type": "image/png"})
    problem(response, 415, "unsupported-media-type")
    assert response.headers["accept-post"] == ", ".join(ACCEPTED)


async def test_a_missing_body_is_told(client: httpx.AsyncClient) -> None:
    problem(await client.post(PATH), 422, "invalid-request")


async def test_the_rest_of_the_request_stays(started: Running) -> None:
    response = await started.client.post(
        PATH, content=TABLE, headers={"Content-Type": "text/csv", "Accept": "image/png"}
    )
    problem(response, 406, "not-acceptable")


def test_uploads_are_described_beside_json() -> None:
    content = uploads_described()["requestBody"]["content"]
    assert set(content) == set(ACCEPTED) - {"application/json"}
