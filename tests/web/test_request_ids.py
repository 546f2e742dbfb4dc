"""Identifiers of requests are the caller's own, or random."""

from __future__ import annotations

from uuid import RFC_4122, UUID

import pytest

from service.web.request_ids import request_id

CHOSEN = "0b5d7c4e-3a53-4a3b-9a55-3f0c2f8f8d11"


@pytest.mark.parametrize("written", [CHOSEN, CHOSEN.upper(), CHOSEN.replace("-", "")])
def test_the_id_of_the_caller_is_taken_in_one_form(written: str) -> None:
    assert request_id(written.encode()) == CHOSEN


@pytest.mark.parametrize("written", [None, b"", b"<script>", b"\xff"])
def test_what_is_no_id_is_replaced(written: bytes | None) -> None:
    made = UUID(request_id(written))
    assert (made.version, made.variant) == (4, RFC_4122)


def test_no_two_are_the_same() -> None:
    assert len({request_id(None) for _ in range(2_000)}) == 2_000
