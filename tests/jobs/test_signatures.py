"""Signatures that the library of the specification accepts."""

from __future__ import annotations

import base64
import time

import pytest
from standardwebhooks.webhooks import Webhook, WebhookVerificationError

from service.jobs.signatures import SECRET_BYTES, new_secret, signature, signed_headers

BODY = '{"type":"verdicts.corrected","data":{"name":"Gezeitenpegel Übersee"}}'.encode()


def test_a_message_is_accepted_by_the_library() -> None:
    secret = new_secret()
    headers = signed_headers(secret, "delivery_1", int(time.time()), BODY)
    assert Webhook(secret).verify(BODY, headers)["type"] == "verdicts.corrected"


@pytest.mark.parametrize("changed", ["body", "id", "secret", "age"])
def test_a_message_that_was_changed_is_not(changed: str) -> None:
    secret = new_secret()
    made_s = int(time.time()) - (3600 if changed == "age" else 0)
    headers = signed_headers(secret, "delivery_1", made_s, BODY)
    if changed == "id":
        headers["webhook-id"] = "delivery_2"
    body = BODY + b" " if changed == "body" else BODY
    with pytest.raises(WebhookVerificationError):
        Webhook(new_secret() if changed == "secret" else secret).verify(body, headers)


def test_the_scheme_is_that_of_the_specification() -> None:
    # Worked example of standardwebhooks.com, specification, "Symmetric": HMAC-SHA256 of "id.timestamp.body".
    secret = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw"  # noqa: S105 - the published example
    found = signature(secret, "msg_p5jXN8AQM9LWM0D4loKWxJek", 1614265330, b'{"test": 2432232314}')
    assert found == "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE="


def test_secrets_are_long_and_never_the_same() -> None:
    made = {new_secret() for _ in range(20)}
    assert len(made) == 20
    assert all(len(base64.b64decode(secret.removeprefix("whsec_"))) == SECRET_BYTES for secret in made)
