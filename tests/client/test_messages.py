from __future__ import annotations

import time

import pytest

from service.client import ForgedMessageError, open_message
from service.jobs.signatures import new_secret, signed_headers

SECRET = new_secret()
BODY = (
    b'{"type":"verdicts.corrected","timestamp":"2026-11-25T09:00:00+00:00",'
    b'"data":{"serial":7,"subject":"tide-gauge","detail":{"joints":[]}}}'
)


def headers(age_s: float = 0.0, body: bytes = BODY, secret: str = SECRET) -> dict[str, str]:
    return signed_headers(secret, "msg_1", int(time.time() - age_s), body)


def test_a_message_that_the_service_has_signed_is_read() -> None:
    message = open_message(SECRET, headers(), BODY)
    assert (message.type, message.data.serial, message.data.subject) == (
        "verdicts.corrected",
        7,
        "tide-gauge",
    )
    assert message.timestamp.year == 2026


def test_names_of_headers_may_be_written_anyhow_and_one_signature_of_several_will_do() -> None:
    found = {name.title(): value for name, value in headers().items()}
    found["Webhook-Signature"] = f"v1,AAAA {found['Webhook-Signature']}"
    assert open_message(SECRET, found, BODY).data.serial == 7


def test_what_was_not_signed_with_the_secret_is_forged() -> None:
    for found in (
        headers(secret=new_secret()),
        headers(body=b"{}"),
        {**headers(), "webhook-id": "msg_2"},
        {**headers(), "webhook-signature": ""},
        {name: value for name, value in headers().items() if name != "webhook-signature"},
    ):
        with pytest.raises(ForgedMessageError, match="signature"):
            open_message(SECRET, found, BODY)


def test_what_is_too_old_or_not_dated_is_forged() -> None:
    for found in (headers(age_s=600), headers(age_s=-600), {}):
        with pytest.raises(ForgedMessageError, match="too old"):
            open_message(SECRET, found, BODY)
