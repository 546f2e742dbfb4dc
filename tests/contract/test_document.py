"""The service does what its OpenAPI document says, for requests nobody thought of."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import orjson
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis import Case, SerializationContext
from schemathesis.config import SchemathesisConfig

from service.settings import LOCAL_DEVELOPMENT_KEY

COMMITTED = Path(__file__).parents[2] / "openapi" / "openapi.json"
HEADERS = {"Authorization": f"Bearer {LOCAL_DEVELOPMENT_KEY}"}

ACCEPTABLE = ["2xx", "3xx", "404", "409", "412", "415", "422", "429"]

CONFIG = SchemathesisConfig.from_dict(
    {
        "seed": 20261125,
        # Each of several hundred variations of a couple would be judged in full: that is for the long runs.
        "operations": [
            {"include-path": path, "phases": {"coverage": {"enabled": False}, "examples": {"enabled": False}}}
            for path in (
                "/v1/couples",
                "/v1/couples/batch",
                "/v1/resolve",
                "/v1/assemblies/check",
                "/v1/substitutions/check",
            )
        ]
        + [
            # What a schema cannot say: an address has to be public, a body has to be of the kind that the
            # query names, an entity tag has to be that of the present version, a record has to fit its table.
            {"include-path": path, "checks": {"positive_data_acceptance": {"expected-statuses": ACCEPTABLE}}}
            for path in (
                "/v1/webhooks",
                "/v1/jobs",
                "/v1/assemblies/stored/{name}",
                "/v1/proposals",
                "/v1/proposals/{proposal_id}/review",
                "/v1/withdrawals",
            )
        ]
        # Lines of a batch are text to a schema, and what is wrong with one is told in its own result.
        + [{"include-path": "/v1/jobs", "checks": {"negative_data_rejection": {"enabled": False}}}],
    }
)
SEARCHES = ["/v1/alternatives", "/v1/mitigations", "/v1/envelopes"]
"""Each request judges thousands of couples: their routes have tests of their own instead."""


@schemathesis.serializer(
    "application/x-ndjson", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
)
def as_it_is(_context: SerializationContext, value: object) -> bytes:
    """A body that is a file is sent as it is, whatever the file holds."""
    content = getattr(value, "data", value)
    return content if isinstance(content, bytes) else str(content).encode("utf-8", "replace")


schema = schemathesis.openapi.from_dict(orjson.loads(COMMITTED.read_bytes()), config=CONFIG).exclude(
    path=SEARCHES
)


@schema.parametrize()
@settings(
    max_examples=12,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
def test_every_operation_keeps_the_contract(case: Case[Any], seed_server_url: str) -> None:
    case.call_and_validate(base_url=seed_server_url, headers=HEADERS)
