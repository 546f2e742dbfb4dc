"""The address of an answer: a digest of everything that it depends on, known before it is computed."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from dataclasses import dataclass

import orjson

from service.catalogue.catalogue import Catalogue
from service.judgement import ENGINE_VERSION, Inquiry, Policy

PREFIX = "/v1/answers/"


@dataclass(frozen=True, slots=True)
class Identity:
    """What an answer depends on. ``request`` is the canonical request as JSON."""

    engine: str
    release_label: str
    content_hash: str
    overlay_hash: str
    policy_hash: str
    request: bytes
    digest: str

    @property
    def address(self) -> str:
        """Where the answer can be had as long as this database lives."""
        return PREFIX + self.digest


def identify(inquiry: Inquiry, catalogue: Catalogue, policy: Policy) -> Identity:
    """Name the answer to an inquiry without computing it.

    The request is canonical because it is written from the inquiry: defaults filled in, figures in SI,
    functions in the order given. The label of the release is no part of the digest, its content is.
    """
    request = orjson.dumps(inquiry, option=orjson.OPT_SORT_KEYS)
    policy_hash = digest_of(policy)
    parts = (
        ENGINE_VERSION.encode(),
        catalogue.content_hash.encode(),
        catalogue.overlay_hash.encode(),
        policy_hash.encode(),
        request,
    )
    return Identity(
        engine=ENGINE_VERSION,
        release_label=catalogue.label,
        content_hash=catalogue.content_hash,
        overlay_hash=catalogue.overlay_hash,
        policy_hash=policy_hash,
        request=request,
        digest=hashlib.sha256(b"\n".join(parts)).hexdigest(),
    )


_KNOWN_POLICIES: OrderedDict[int, tuple[Policy, str]] = OrderedDict()
_MOST_POLICIES = 256


def digest_of(policy: Policy) -> str:
    """Digest of a policy, computed once: the same few policies serve all questions.

    They are told apart by their place in memory, which no other can take while they are held here.
    """
    if known := _KNOWN_POLICIES.get(id(policy)):
        return known[1]
    digest = policy.digest()
    _KNOWN_POLICIES[id(policy)] = (policy, digest)
    if len(_KNOWN_POLICIES) > _MOST_POLICIES:
        _KNOWN_POLICIES.popitem(last=False)
    return digest
