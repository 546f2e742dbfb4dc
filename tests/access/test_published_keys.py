"""Keys of an issuer: read when needed, not more often than that, and only those that can be trusted."""

from __future__ import annotations

import json
from collections.abc import Iterator

import httpx
import pytest
from cryptography.hazmat.primitives.asymmetric import ec
from jwt.algorithms import ECAlgorithm, RSAAlgorithm

from service.access.errors import IssuerUnreachableError
from service.access.published_keys import PublishedKeys, fetching, read_key_set
from tests.factories.issuer import Issuer, ec_key, ed_key, public_jwk, rsa_key, serving


class Clock:
    now_s = 1000.0

    def __call__(self) -> float:
        return self.now_s


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def issuer() -> Issuer:
    return Issuer()


@pytest.fixture
def keys(issuer: Issuer, clock: Clock) -> PublishedKeys:
    def fetch() -> bytes:
        if issuer.is_down:
            issuer.looks += 1
            message = "down"
            raise httpx.ConnectError(message)
        return issuer.document()

    return PublishedKeys(fetch, fresh_s=300, grace_s=3600, pause_s=10, clock=clock)


def test_keys_are_read_once_while_they_are_fresh(issuer: Issuer, keys: PublishedKeys, clock: Clock) -> None:
    for _ in range(5):
        assert keys.find("first")
        clock.now_s += 60
    assert issuer.looks == 1


def test_a_new_key_is_found_by_its_first_token(issuer: Issuer, keys: PublishedKeys, clock: Clock) -> None:
    assert keys.find("first")
    issuer.published.append(public_jwk(rsa_key("next"), "next"))
    clock.now_s += 11
    assert keys.find("next")
    assert keys.find("first")
    assert issuer.looks == 2


def test_unknown_keys_do_not_make_it_look_more_often_than_once_in_a_while(
    issuer: Issuer, keys: PublishedKeys, clock: Clock
) -> None:
    for number in range(1000):
        assert keys.find(f"unknown {number}") is None
    assert issuer.looks == 1
    clock.now_s += 11
    for number in range(1000):
        assert keys.find(f"unknown {number}") is None
    assert issuer.looks == 2


def test_a_withdrawn_key_is_refused_after_the_stated_seconds(
    issuer: Issuer, keys: PublishedKeys, clock: Clock
) -> None:
    assert keys.find("first")
    issuer.published = [public_jwk(rsa_key("next"), "next")]
    clock.now_s += 301
    assert keys.find("first") is None


def test_the_last_keys_hold_for_a_while_when_the_issuer_is_away(
    issuer: Issuer, keys: PublishedKeys, clock: Clock
) -> None:
    assert keys.find("first")
    issuer.is_down = True
    for _ in range(11):
        clock.now_s += 310
        assert keys.find("first")
    clock.now_s += 310
    with pytest.raises(IssuerUnreachableError):
        keys.find("first")
    issuer.is_down = False
    clock.now_s += 11
    assert keys.find("first")


def test_an_issuer_that_was_never_there_is_asked_now_and_then(issuer: Issuer, keys: PublishedKeys) -> None:
    issuer.is_down = True
    for _ in range(20):
        with pytest.raises(IssuerUnreachableError):
            keys.find("first")
    assert issuer.looks == 1


@pytest.mark.parametrize(
    ("key", "algorithm"), [(rsa_key("first"), "RS256"), (ec_key("a"), "ES256"), (ed_key("a"), "EdDSA")]
)
def test_the_kind_of_key_decides_the_algorithm(key: object, algorithm: str) -> None:
    found = read_key_set(json.dumps({"keys": [public_jwk(key, "k")]}).encode())  # type: ignore[arg-type]
    assert found["k"].algorithm == algorithm


def test_keys_that_cannot_be_trusted_are_left_out() -> None:
    good = public_jwk(rsa_key("first"), "good")
    wide = ec.generate_private_key(ec.SECP384R1()).public_key()
    private = RSAAlgorithm.to_jwk(rsa_key("first"), as_dict=True)
    entries: list[object] = [
        good,
        "no key",
        {**good, "kid": "encryption", "use": "enc"},
        {**good, "kid": "signer", "key_ops": ["sign"]},
        {**good, "kid": "other algorithm", "alg": "RS512"},
        {**good, "kid": "weak hash", "alg": "HS256"},
        {**good, "kid": "not base64", "n": "§"},
        {**good, "kid": 7},
        {name: value for name, value in good.items() if name != "kid"},
        public_jwk(rsa_key("short", 1024), "short"),
        {**ECAlgorithm.to_jwk(wide, as_dict=True), "kid": "wide"},
        {**private, "kid": "private", "key_ops": ["verify"]},
        {"kty": "oct", "k": "c2VjcmV0", "kid": "password"},
    ]
    assert set(read_key_set(json.dumps({"keys": entries}).encode())) == {"good"}


@pytest.mark.parametrize("body", [b"", b"[]", b"{}", b'{"keys": 1}', b"\xff", b"<html>"])
def test_what_is_no_key_set_is_told(body: bytes) -> None:
    with pytest.raises(ValueError, match=r".*"):
        read_key_set(body)


@pytest.fixture
def site() -> Iterator[Issuer]:
    with serving(Issuer()) as started:
        yield started


def test_keys_come_over_the_network(site: Issuer) -> None:
    assert "first" in read_key_set(fetching(site.url)())


def test_an_answer_other_than_200_is_a_failure(site: Issuer) -> None:
    site.is_down = True
    with pytest.raises(ValueError, match="503"):
        fetching(site.url)()


def test_an_answer_without_end_is_cut_off(site: Issuer) -> None:
    site.published = [{"x": "y" * 300_000}]
    with pytest.raises(ValueError, match="too long"):
        fetching(site.url)()
