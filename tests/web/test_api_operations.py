"""Workers know the fields of a couple as requests do."""

from __future__ import annotations

from service.web.api_operations import couple_operation


def test_the_operation_knows_its_fields() -> None:
    assert "design_life_years" in couple_operation().members_at("body", ("desing_life_years",))
    assert couple_operation() is couple_operation()
