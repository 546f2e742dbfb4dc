from __future__ import annotations

from service.remedies.reasons import CONSTRAINT_OF, Reason


def test_every_reason_belongs_to_a_constraint() -> None:
    assert set(CONSTRAINT_OF) == set(Reason)
    assert len(set(CONSTRAINT_OF.values())) == len(Reason)
