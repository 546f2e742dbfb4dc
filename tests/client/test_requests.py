from __future__ import annotations

import pytest

from service.client.requests import Request, address, new_key


def test_parameters_leave_out_what_is_not_given_and_repeat_what_is_several() -> None:
    request = Request("GET", "/", query={"a": None, "b": True, "c": ("x", "y"), "d": 1.5})
    assert request.parameters() == [("b", "true"), ("c", "x"), ("c", "y"), ("d", "1.5")]


@pytest.mark.parametrize(
    ("request_", "is_repeatable"),
    [
        (Request("GET", "/"), True),
        (Request("DELETE", "/"), True),
        (Request("POST", "/"), False),
        (Request("POST", "/", may_repeat=True), True),
        (Request("POST", "/", key=new_key()), True),
    ],
)
def test_only_what_does_no_harm_may_be_repeated(request_: Request, is_repeatable: bool) -> None:  # noqa: FBT001
    assert request_.is_repeatable is is_repeatable


def test_headers_say_what_is_sent_and_what_is_wanted() -> None:
    request = Request("PUT", "/", body={}, headers={"if-match": None, "x": "y"}, key="k")
    assert request.sent_headers() == {
        "x": "y",
        "Accept": "application/json",
        "Content-Type": "application/json",
        "Idempotency-Key": "k",
    }
    assert "Content-Type" not in Request("GET", "/").sent_headers()


def test_a_body_is_written_each_time_anew() -> None:
    assert Request("POST", "/", body={"a": (1, "µ")}).content() == '{"a":[1,"µ"]}'.encode()
    assert Request("POST", "/", body=b"raw").content() == b"raw"
    assert Request("GET", "/").content() is None
    in_pieces = Request("POST", "/", body=lambda: iter([b"a", b"b"]))
    for _ in range(2):
        content = in_pieces.content()
        assert content is not None
        assert list(content) == [b"a", b"b"]


def test_names_are_quoted_in_a_path() -> None:
    assert address("/v1/assemblies/stored/{name}", name="a/b ?") == "/v1/assemblies/stored/a%2Fb%20%3F"


def test_keys_differ() -> None:
    assert new_key() != new_key()
