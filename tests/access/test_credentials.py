"""Keys and tokens can stand in for each other where requests pass."""

from __future__ import annotations

from service.access.credentials import CredentialRing
from service.access.keys import KeyRing
from service.access.token_ring import TokenRing
from service.access.tokens import Claims


def test_both_kinds_of_ring_answer_the_same_questions() -> None:
    def read(_text: str) -> Claims:
        raise AssertionError

    rings: list[CredentialRing] = [KeyRing(lambda _prefix: None), TokenRing(read, lambda *_: True)]
    assert [ring.recall("nothing") for ring in rings] == [None, None]
