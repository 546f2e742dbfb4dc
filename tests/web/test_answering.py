"""From an inquiry to the bytes of its answer."""

from __future__ import annotations

from dataclasses import replace

import orjson

from service.judgement import DEFAULT_POLICY, Inquiry, Side
from service.web.answering import compute, etag_of
from service.web.identity import identify
from service.web.representation import canonical
from service.web.schemas.answers import Answer, Decision
from service.web.schemas.couples import View
from tests.seed_catalogue import seed_catalogue

INQUIRY = Inquiry(Side(text="S235JR"), Side(text="A2-70"), "urban-atmosphere")


def test_an_answer_is_canonical_fits_its_schema_and_names_itself() -> None:
    catalogue = seed_catalogue()
    identity = identify(INQUIRY, catalogue, DEFAULT_POLICY)
    kept = compute(INQUIRY, identity, catalogue, DEFAULT_POLICY, "harbour")
    document = orjson.loads(kept.body)
    assert canonical(document) == kept.body
    assert Answer.model_validate(document).address == identity.address
    assert Decision.model_validate_json(kept.decision).address == identity.address
    assert (kept.digest, kept.request, kept.tenant_id) == (identity.digest, identity.request, None)
    assert compute(INQUIRY, identity, catalogue, DEFAULT_POLICY, "quay") == kept


def test_an_answer_with_an_overlay_belongs_to_its_tenant() -> None:
    catalogue = seed_catalogue()
    identity = replace(identify(INQUIRY, catalogue, DEFAULT_POLICY), overlay_hash="own")
    assert compute(INQUIRY, identity, catalogue, DEFAULT_POLICY, "harbour").tenant_id == "harbour"


def test_views_are_told_apart() -> None:
    assert etag_of("d", View.FULL) == '"d"'
    assert etag_of("d", View.DECISION) == '"d-decision"'
