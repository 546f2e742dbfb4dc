"""The service does what its OpenAPI document says, for requests nobody thought of."""

from __future__ import annotations

from pathlib import Path
from typing import Any
from zlib import crc32

import orjson
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis import Case, SerializationContext
from schemathesis.config import SchemathesisConfig
from schemathesis.generation.meta import TestPhase

from service.settings import LOCAL_DEVELOPMENT_KEY
from tests.thoroughness import THOROUGH, examples

COMMITTED = Path(__file__).parents[2] / "openapi" / "openapi.json"
HEADERS = {"Authorization": f"Bearer {LOCAL_DEVELOPMENT_KEY}"}

ACCEPTABLE = ["2xx", "3xx", "404", "409", "412", "415", "422", "429"]

SEARCHES = {"/v1/alternatives", "/v1/mitigations", "/v1/envelopes"}
"""Asked for on a release with few finishes, because each judges all that a release holds."""

MANIFOLD = sorted(SEARCHES | {"/v1/assemblies/check", "/v1/substitutions/check"})
"""Bodies with more than a thousand systematic variations: all of them are for the long runs."""

CONFIG = SchemathesisConfig.from_dict(
    {
        "seed": 20261125,
        "operations": [
            {"include-path": path, "phases": {"coverage": {"enabled": THOROUGH}}} for path in MANIFOLD
        ]
        + [
            # What a schema cannot say: an address has to be public, a body has to be of the kind that the
            # query names, an entity tag has to be that of the present version, a record has to fit its table,
            # an Idempotency-Key has to be new.
            {"include-path": path, "checks": {"positive_data_acceptance": {"expected-statuses": ACCEPTABLE}}}
            for path in (
                "/v1/webhooks",
                "/v1/jobs",
                "/v1/assemblies/stored/{name}",
                "/v1/policies/{name}",
                "/v1/releases",
                "/v1/proposals",
                "/v1/proposals/{proposal_id}/comments",
                "/v1/proposals/{proposal_id}/retraction",
                "/v1/proposals/{proposal_id}/review",
                "/v1/withdrawals",
                "/v1/overlay",
                "/v1/overlay/changes",
            )
        ]
        # Lines of a batch are text to a schema, and what is wrong with one is told in its own result.
        + [
            {"include-path": path, "checks": {"negative_data_rejection": {"enabled": False}}}
            for path in ("/v1/jobs", "/v1/couples/batch")
        ],
    }
)
ONE_IN = 1 if THOROUGH else 8
"""Of the systematic variations of a couple, each of which is judged in full, so many are sent."""


@schemathesis.serializer(
    "application/x-ndjson", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
)
def as_it_is(_context: SerializationContext, value: object) -> bytes:
    """A body that is a file is sent as it is, whatever the file holds."""
    content = getattr(value, "data", value)
    return content if isinstance(content, bytes) else str(content).encode("utf-8", "replace")


schema = schemathesis.openapi.from_dict(orjson.loads(COMMITTED.read_bytes()), config=CONFIG)


@schema.parametrize()
@settings(
    max_examples=examples(12),
    deadline=None,
    derandomize=not THOROUGH,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
def test_every_operation_keeps_the_contract(
    case: Case[Any], seed_server_url: str, narrow_server_url: str
) -> None:
    if is_spared(case):
        return
    address = narrow_server_url if case.operation.path in SEARCHES else seed_server_url
    case.call_and_validate(base_url=address, headers=HEADERS)


def is_spared(case: Case[Any]) -> bool:
    """Leave out most of the variations of a couple, always the same ones."""
    is_variation = case.meta is not None and case.meta.phase.name is TestPhase.COVERAGE
    if not is_variation or case.operation.path != "/v1/couples":
        return False
    return crc32(repr((case.body, case.query)).encode()) % ONE_IN != 0
