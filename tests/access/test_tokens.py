"""A token is believed only if every part of it is right, and nobody learns which part was wrong."""

from __future__ import annotations

import base64
import time
from typing import Any

import pytest

from service.access import Scope
from service.access.errors import InvalidCredentialsError
from service.access.published_keys import PublishedKeys
from service.access.tokens import LONGEST_TOKEN, TokenReader, Trust
from tests.factories.issuer import (
    AUDIENCE,
    ISSUER,
    Issuer,
    ec_key,
    ed_key,
    rsa_key,
    signed_with_public_key,
    unsigned,
)

NOW = int(time.time())


@pytest.fixture
def issuer() -> Issuer:
    return Issuer({"first": rsa_key("first"), "ec": ec_key("a"), "ed": ed_key("a")})


@pytest.fixture
def reader(issuer: Issuer) -> TokenReader:
    return TokenReader(PublishedKeys(issuer.document).find, Trust(ISSUER, AUDIENCE))


@pytest.mark.parametrize("key_id", ["first", "ec", "ed"])
def test_a_token_of_each_kind_of_key_names_client_tenant_and_scopes(
    issuer: Issuer, reader: TokenReader, key_id: str
) -> None:
    claims = reader.read(issuer.token(key_id=key_id, exp=NOW + 3600))
    assert (claims.client_id, claims.tenant_id) == ("plm", "harbour")
    assert claims.scopes == {Scope.READ, Scope.JUDGE}
    assert claims.expires_at_s == NOW + 3600 + 30


FLAWS: dict[str, dict[str, Any]] = {
    "of another issuer": {"iss": "https://elsewhere.test"},
    "without issuer": {"iss": None},
    "for another service": {"aud": "https://elsewhere.test"},
    "for nobody": {"aud": None},
    "expired": {"iat": NOW - 700, "exp": NOW - 100},
    "without end": {"exp": None},
    "without beginning": {"iat": None},
    "of tomorrow": {"iat": NOW + 86_400, "exp": NOW + 90_000},
    "not valid yet": {"nbf": NOW + 86_400, "exp": NOW + 90_000},
    "valid for years": {"exp": NOW + 10 * 86_400},
    "of no tenant": {"tenant": None},
    "of a tenant that is a number": {"tenant": 7},
    "of a tenant with a line break": {"tenant": "harbour\nquay"},
    "of no client": {"client_id": None, "sub": None},
    "of a client with a long name": {"client_id": "x" * 201},
    "with an end that is a text": {"exp": "soon"},
    "with endless life": {"exp": 1e400},
    "with an end beyond all figures": {"exp": 10**400},
    "of an unknown key": {"headers": {"kid": "second"}},
    "of no key": {"headers": {"kid": None}},
    "signed by somebody else": {"key": rsa_key("stranger")},
    "signed with another kind of key": {"key": ec_key("a"), "headers": {"kid": "first"}},
    "of another type": {"headers": {"typ": "dpop+jwt"}},
    "with a critical extension": {"headers": {"crit": ["http://example.test/x"], "http://example.test/x": 1}},
}


@pytest.mark.parametrize("flaw", FLAWS.values(), ids=FLAWS.keys())
def test_a_token_with_one_flaw_is_refused(issuer: Issuer, reader: TokenReader, flaw: dict[str, Any]) -> None:
    reader.read(issuer.token())
    with pytest.raises(InvalidCredentialsError):
        reader.read(issuer.token(**flaw))


def test_an_unsigned_token_is_refused(issuer: Issuer, reader: TokenReader) -> None:
    for algorithm in ("none", "None", "NONE"):
        with pytest.raises(InvalidCredentialsError):
            reader.read(unsigned(issuer.token(), algorithm))


def test_a_token_signed_with_the_public_key_as_a_password_is_refused(
    issuer: Issuer, reader: TokenReader
) -> None:
    with pytest.raises(InvalidCredentialsError):
        reader.read(signed_with_public_key(issuer.token(), rsa_key("first")))


def test_a_key_that_a_token_brings_along_is_not_used(issuer: Issuer, reader: TokenReader) -> None:
    stranger = Issuer({"first": rsa_key("stranger")})
    brought = {"jwk": stranger.published[0], "jku": "http://127.0.0.1:1/keys"}
    with pytest.raises(InvalidCredentialsError):
        reader.read(stranger.token(headers=brought))


@pytest.mark.parametrize(
    "text", ["", "eyJ", "a.b.c", "eyJ.eyJ.x", "ey\N{SNOWMAN}.a.b", "x" * (LONGEST_TOKEN + 1)]
)
def test_what_is_no_token_is_refused(reader: TokenReader, text: str) -> None:
    with pytest.raises(InvalidCredentialsError):
        reader.read(text)


@pytest.mark.parametrize(
    "part", [b'{"kid":' + b"[" * 4000, b'{"kid":"first","alg":"RS256","x":' + b"[" * 4000]
)
def test_a_header_nested_without_end_is_refused(reader: TokenReader, part: bytes) -> None:
    header = base64.urlsafe_b64encode(part).rstrip(b"=").decode()
    with pytest.raises(InvalidCredentialsError):
        reader.read(f"{header}.e30.c2ln")


def test_every_changed_part_breaks_the_signature(issuer: Issuer, reader: TokenReader) -> None:
    header, claims, signature = issuer.token().split(".")
    _, other_claims, _ = issuer.token(scope="releases:publish").split(".")
    for text in (f"{header}.{other_claims}.{signature}", f"{header}.{claims}.", f"{header}.{claims}"):
        with pytest.raises(InvalidCredentialsError):
            reader.read(text)


def test_clocks_may_differ_by_the_leeway(issuer: Issuer, reader: TokenReader) -> None:
    now = int(time.time())
    cases: list[dict[str, Any]] = [
        {"iat": now + 20, "nbf": now + 20, "exp": now + 600},
        {"iat": now - 600, "exp": now - 20},
    ]
    for case in cases:
        assert reader.read(issuer.token(**case)).client_id == "plm"
    with pytest.raises(InvalidCredentialsError):
        reader.read(issuer.token(iat=now + 40, exp=now + 600))


def test_scopes_of_other_services_are_left_out(issuer: Issuer, reader: TokenReader) -> None:
    assert reader.read(issuer.token(scope="openid tenant:manage")).scopes == {Scope.TENANT}
    assert reader.read(issuer.token(scope=None)).scopes == frozenset()


def test_the_claim_of_the_tenant_and_the_client_can_be_named_otherwise(issuer: Issuer) -> None:
    trust = Trust(ISSUER, AUDIENCE, tenant_claim="org")
    claims = TokenReader(PublishedKeys(issuer.document).find, trust).read(
        issuer.token(org="quay", client_id=None, azp="portal")
    )
    assert (claims.tenant_id, claims.client_id) == ("quay", "portal")


def test_a_refusal_keeps_the_token_out_of_its_reasons(issuer: Issuer, reader: TokenReader) -> None:
    token = issuer.token(aud="https://elsewhere.test")
    with pytest.raises(InvalidCredentialsError) as caught:
        reader.read(token)
    reason: BaseException | None = caught.value
    while reason is not None:
        assert token.split(".")[1] not in str(reason) + repr(reason)
        reason = reason.__cause__
