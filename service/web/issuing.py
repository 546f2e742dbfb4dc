"""From a judgement to the bytes that are sent and kept under its address."""

from __future__ import annotations

from service.judgement import Answer
from service.web.answers import KeptAnswer
from service.web.decision import decision_of
from service.web.identity import Identity
from service.web.representation import canonical


def issued(judged: Answer, identity: Identity, tenant_id: str) -> KeptAnswer:
    """Write an answer under its address; it is the tenant's own if its overlay has a part in it."""
    document = {**judged.document(), "address": identity.address, "digest": identity.digest}
    return KeptAnswer(
        digest=identity.digest,
        release_label=identity.release_label,
        engine=identity.engine,
        tenant_id=tenant_id if identity.overlay_hash else None,
        overlay_hash=identity.overlay_hash,
        policy_hash=identity.policy_hash,
        request=identity.request,
        body=canonical(document),
        decision=canonical(decision_of(document)),
    )
