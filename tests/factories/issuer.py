"""An issuer of access tokens on this machine: its keys, and the address at which it publishes them."""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

import jwt
from cryptography.hazmat.primitives.asymmetric import ec, ed25519, rsa
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from jwt.algorithms import ECAlgorithm, OKPAlgorithm, RSAAlgorithm

ISSUER = "https://issuer.skerrivoe.test"
AUDIENCE = "https://faying.test"
PrivateKey = rsa.RSAPrivateKey | ec.EllipticCurvePrivateKey | ed25519.Ed25519PrivateKey


@cache
def rsa_key(name: str, bits: int = 2048) -> rsa.RSAPrivateKey:
    """Make a key once for each name."""
    return rsa.generate_private_key(65537, bits)


@cache
def ec_key(name: str) -> ec.EllipticCurvePrivateKey:
    """Make a key on P-256 once for each name."""
    return ec.generate_private_key(ec.SECP256R1())


@cache
def ed_key(name: str) -> ed25519.Ed25519PrivateKey:
    """Make a key on Ed25519 once for each name."""
    return ed25519.Ed25519PrivateKey.generate()


def public_jwk(key: PrivateKey, key_id: str, **more: object) -> dict[str, Any]:
    """Write the public half of a key as an issuer publishes it."""
    if isinstance(key, rsa.RSAPrivateKey):
        written = RSAAlgorithm.to_jwk(key.public_key(), as_dict=True)
    elif isinstance(key, ec.EllipticCurvePrivateKey):
        written = ECAlgorithm.to_jwk(key.public_key(), as_dict=True)
    else:
        written = OKPAlgorithm.to_jwk(key.public_key(), as_dict=True)
    members = {name: value for name, value in written.items() if name != "key_ops"}
    return {**members, "kid": key_id, "use": "sig", **more}


def algorithm_of(key: PrivateKey) -> str:
    """Name the algorithm that a key signs with."""
    if isinstance(key, rsa.RSAPrivateKey):
        return "RS256"
    return "ES256" if isinstance(key, ec.EllipticCurvePrivateKey) else "EdDSA"


@dataclass
class Issuer:
    """Keys by identifier; those in ``published`` are what it shows."""

    keys: dict[str, PrivateKey] = field(default_factory=lambda: {"first": rsa_key("first")})
    published: list[dict[str, Any]] = field(default_factory=list)
    looks: int = 0
    is_down: bool = False
    url: str = ""

    def __post_init__(self) -> None:
        self.published = [public_jwk(key, key_id) for key_id, key in self.keys.items()]

    def document(self) -> bytes:
        """Write the JWK set, and count that somebody looked."""
        self.looks += 1
        return json.dumps({"keys": self.published}).encode()

    def token(
        self,
        *,
        key_id: str = "first",
        key: PrivateKey | None = None,
        headers: dict[str, Any] | None = None,
        **claims: object,
    ) -> str:
        """Sign a token; a claim of ``None`` is left out."""
        now = int(time.time())
        said: dict[str, object] = {
            "iss": ISSUER,
            "aud": AUDIENCE,
            "sub": "plm",
            "client_id": "plm",
            "tenant": "harbour",
            "scope": "catalogue:read couples:judge",
            "iat": now,
            "exp": now + 600,
            **claims,
        }
        signing = key or self.keys[key_id]
        written = {"kid": key_id, "typ": "at+jwt", **(headers or {})}
        return jwt.encode(
            {name: value for name, value in said.items() if value is not None},
            signing,
            algorithm_of(signing),
            headers={name: value for name, value in written.items() if value is not None},
        )


def unsigned(token: str, algorithm: str = "none") -> str:
    """Take the signature off a token; what it says stays."""
    claims = jwt.decode(token, options={"verify_signature": False})
    header = {"alg": algorithm, "kid": "first", "typ": "at+jwt"}
    return f"{_encoded(header)}.{_encoded(claims)}."


def signed_with_public_key(token: str, key: rsa.RSAPrivateKey) -> str:
    """Sign a token by HS256, with the public key that everybody knows as the password."""
    public = key.public_key().public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo)
    text = unsigned(token, "HS256").removesuffix(".")
    mac = hmac.digest(public, text.encode(), hashlib.sha256)
    return f"{text}.{base64.urlsafe_b64encode(mac).rstrip(b'=').decode()}"


def _encoded(part: dict[str, Any]) -> str:
    return base64.urlsafe_b64encode(json.dumps(part).encode()).rstrip(b"=").decode()


@contextmanager
def serving(issuer: Issuer) -> Iterator[Issuer]:
    """Publish the keys of an issuer at an address of this machine."""

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            body = issuer.document()
            self.send_response(503 if issuer.is_down else 200)
            self.send_header("Content-Type", "application/jwk-set+json")
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None:
            """Say nothing."""

    with ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        thread = threading.Thread(target=server.serve_forever, daemon=True)
        thread.start()
        issuer.url = f"http://127.0.0.1:{server.server_address[1]}/keys"
        yield issuer
        server.shutdown()
        thread.join()


def token_settings(issuer: Issuer, **more: Any) -> dict[str, Any]:
    """Return the settings of a service that trusts an issuer."""
    return {
        "token_issuer": ISSUER,
        "token_audience": AUDIENCE,
        "token_keys_url": issuer.url,
        **more,
    }
