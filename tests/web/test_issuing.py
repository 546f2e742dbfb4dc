"""From a judgement to the bytes of its answer."""

from __future__ import annotations

from dataclasses import replace

import orjson

from service.judgement import DEFAULT_POLICY, Inquiry, Side, answer
from service.web.answers import KeptAnswer
from service.web.identity import Identity, identify
from service.web.issuing import issued
from service.web.representation import canonical
from service.web.schemas.answers import Answer, Decision
from tests.seed_catalogue import seed_catalogue

INQUIRY = Inquiry(Side(text="S235JR"), Side(text="A2-70"), "urban-atmosphere")


def made(identity: Identity, tenant_id: str) -> KeptAnswer:
    (judged,) = answer([INQUIRY], seed_catalogue(), DEFAULT_POLICY)
    return issued(judged, identity, tenant_id)


def test_an_answer_is_canonical_fits_its_schema_and_names_itself() -> None:
    identity = identify(INQUIRY, seed_catalogue(), DEFAULT_POLICY)
    kept = made(identity, "harbour")
    document = orjson.loads(kept.body)
    assert canonical(document) == kept.body
    assert Answer.model_validate(document).address == identity.address
    assert Decision.model_validate_json(kept.decision).address == identity.address
    assert (kept.digest, kept.request, kept.tenant_id) == (identity.digest, identity.request, None)
    assert made(identity, "quay") == kept


def test_an_answer_with_an_overlay_belongs_to_its_tenant() -> None:
    identity = replace(identify(INQUIRY, seed_catalogue(), DEFAULT_POLICY), overlay_hash="own")
    assert made(identity, "harbour").tenant_id == "harbour"
