"""Operations one after another, each fed with what the one before has answered."""

from __future__ import annotations

from typing import Any

import orjson
import schemathesis
from hypothesis import HealthCheck, settings
from schemathesis import Case

from tests.contract.test_document import COMMITTED, CONFIG, HEADERS
from tests.thoroughness import THOROUGH, examples

KEPT = [
    "/v1/assemblies/stored", "/v1/assemblies/stored/{name}", "/v1/jobs", "/v1/jobs/{job_id}",
    "/v1/jobs/{job_id}/results", "/v1/webhooks", "/v1/webhooks/{webhook_id}", "/v1/changes", "/v1/policies",
    "/v1/policies/{name}", "/v1/releases",
    "/v1/answers/{digest}", "/v1/couples", "/v1/materials", "/v1/materials/{id}",
]  # fmt: skip
"""What is stored by one call and named by another."""


def test_what_one_operation_gives_another_takes(seed_server_url: str) -> None:
    schema = schemathesis.openapi.from_dict(orjson.loads(COMMITTED.read_bytes()), config=CONFIG)
    schema.config.update(base_url=seed_server_url)
    machine: Any = schema.include(path=KEPT).as_state_machine()

    class Caller(machine):  # type: ignore[misc]  # made by schemathesis from the document
        def get_call_kwargs(self, case: Case[Any]) -> dict[str, Any]:
            del case
            return {"headers": HEADERS}

    Caller.run(
        settings=settings(
            max_examples=examples(6),
            stateful_step_count=8,
            deadline=None,
            derandomize=not THOROUGH,
            suppress_health_check=list(HealthCheck),
        )
    )
