"""Secrets are taken out of lines, and nothing else is."""

from __future__ import annotations

import json

import pytest

from service.access.secrets import new_key_text
from service.jobs.signatures import new_secret
from service.telemetry.redaction import REDACTED, Redaction
from tests.factories.issuer import Issuer

PEPPER = 'grains "of" paradise'


def test_a_key_keeps_its_prefix_which_names_it() -> None:
    key = new_key_text()
    line = Redaction()(f'{{"path":"/v1/{key}","and":"{key}"}}')
    assert line == f'{{"path":"/v1/fay_{key.prefix}_{REDACTED}","and":"fay_{key.prefix}_{REDACTED}"}}'


def test_tokens_and_secrets_of_webhooks_go() -> None:
    token, secret = Issuer().token(), new_secret()
    line = Redaction()(f"Bearer {token}, {secret}!")
    assert line == f"Bearer {REDACTED}, whsec_{REDACTED}!"


def test_a_token_without_signature_goes_too() -> None:
    header, claims, _ = Issuer().token().split(".")
    assert Redaction()(f"{header}.{claims}.") == REDACTED


def test_a_password_in_an_address_goes() -> None:
    line = Redaction()('cannot reach "postgresql+psycopg://faying:hunter2@db:5432/faying"')
    assert line == f'cannot reach "postgresql+psycopg://faying:{REDACTED}@db:5432/faying"'


def test_what_it_was_told_goes_also_where_json_has_escaped_it() -> None:
    line = json.dumps({"traceback": f"ValueError: {PEPPER}"})
    assert Redaction([PEPPER])(line) == f'{{"traceback": "ValueError: {REDACTED}"}}'
    assert Redaction([PEPPER])(PEPPER) == REDACTED


@pytest.mark.parametrize(
    "line",
    [
        '{"path":"/v1/materials/en-aw-6082","status":200,"key_id":"key_06611a59af0baedd4f991258d729c0"}',
        '{"url":"https://plm.skerrivoe.example/hook"}',
        "fay_ is how keys begin",
        "they say eyJafjallajökull",
        "",
    ],
)
def test_everything_else_stays(line: str) -> None:
    assert Redaction(["", "short"])(line) == line
