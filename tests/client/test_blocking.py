"""The blocking client against a service in a process of its own."""

from __future__ import annotations

import httpx
import pytest

from service.client import Client, FayingError, InvalidRequestError, NotFoundError, UnreachableError
from tests.factories.scripted import OK, scripted

PLACE = "marine-atmosphere-0-100-m"


def test_a_question_is_answered_and_found_again(client: Client) -> None:
    answer = client.judge_couple(first="EN AW-6082-T6, anodized 15 µm", second="A4-80", environment=PLACE)
    decision = client.decide_couple(first="EN AW-6082-T6, anodized 15 µm", second="A4-80", environment=PLACE)
    assert answer.verdict == decision.verdict == "conditional"
    assert answer.loss is not None
    assert answer.loss["reach_mm"]["median"] > 0
    assert [condition.code for condition in answer.conditions] == list(decision.conditions)
    assert client.get_answer(answer.digest) == answer
    assert client.get_decision(answer.digest) == decision
    assert client.answer_today(answer.digest).is_same


def test_what_is_wrong_with_a_question_is_told(client: Client) -> None:
    with pytest.raises(InvalidRequestError) as caught:
        client.judge_couple(first="A4-80", second="CW024A", environment=PLACE, design_life_years=-1)
    assert caught.value.pointer == "/design_life_years"
    with pytest.raises(NotFoundError, match="nowhere"):
        client.judge_couple(first="A4-80", second="CW024A", environment="nowhere")


def test_a_listing_is_gone_through_to_its_end(client: Client) -> None:
    in_pages = [material.id for material in client.list_materials(page_size=50)]
    assert len(in_pages) > 50
    assert in_pages == sorted(set(in_pages))
    assert client.get_material(in_pages[0]).id == in_pages[0]


def test_remedies_come_with_their_verdicts(client: Client) -> None:
    found = client.find_mitigations(first="EN AW-6082-T6", second="A4-80", environment=PLACE)
    assert found.mitigations
    assert found.release.label


def test_texts_are_read(client: Client) -> None:
    read = client.resolve_texts(texts=["CW024A", {"text": "A4-80", "ref": "bolt"}])
    assert [(reading.ref, reading.match) for reading in read.readings] == [("", "exact"), ("bolt", "exact")]


def test_a_wrong_key_is_refused(service_address: str) -> None:
    with httpx.Client(trust_env=False) as http, pytest.raises(FayingError, match="401"):
        Client(service_address, "fay_wrong", http=http).get_limits()


def test_a_service_that_is_not_there_is_told_by_its_address() -> None:
    client, script = scripted(*[httpx.ConnectError("refused") for _ in range(4)])
    with pytest.raises(UnreachableError, match=r"http://faying.test/healthz: refused"):
        client.check_health()
    assert len(script.requests) == 4


def test_a_call_is_tried_until_it_is_answered() -> None:
    client, script = scripted(httpx.ReadError("lost"), httpx.Response(503), OK)
    assert client.check_health().status == "alive"
    assert len(script.requests) == 3


def test_a_write_keeps_its_key_from_attempt_to_attempt() -> None:
    hook = {
        "id": "w", "url": "https://x.example", "events": ["*"], "after": 0, "failures": 0, "secret": "whsec_",
        "created_at": "2026-11-25T09:00:00Z", "disabled_at": None,
    }  # fmt: skip
    client, script = scripted(
        httpx.ReadError("lost"), httpx.Response(201, json=hook), httpx.Response(201, json=hook)
    )
    client.create_webhook(url="https://x.example", events=["*"])
    client.create_webhook(url="https://x.example", events=["*"], idempotency_key="mine")
    first, second, third = [request.headers["idempotency-key"] for request in script.requests]
    assert first == second
    assert third == "mine"


def test_connections_of_its_own_are_given_up() -> None:
    with Client("http://faying.test") as client:
        http = client._http
        assert not http.is_closed
    assert http.is_closed
