"""Records as the API shows them."""

from __future__ import annotations

from service.web.representation import canonical, documents
from tests.factories.knowledge import catalogue_of, small_package

CATALOGUE = catalogue_of(small_package())


def test_canonical_json_does_not_depend_on_the_order_of_members() -> None:
    assert canonical({"b": 1.0, "a": "ü"}) == canonical({"a": "ü", "b": 1.0}) == '{"a":"ü","b":1.0}'.encode()


def test_documents_come_in_the_order_of_their_keys() -> None:
    assert list(documents(CATALOGUE, "materials")) == ["s235", "zinc-sheet"]


def test_parts_lie_in_their_wholes() -> None:
    steel = documents(CATALOGUE, "materials")["s235"]
    assert [each["system"] for each in steel["designations"]] == ["EN name", "EN number"]
    assert all("material_id" not in each for each in steel["designations"])
    finishes = documents(CATALOGUE, "finishes")
    assert [each["suitability"] for each in finishes["gold-plate"]["substrates"]] == ["good"]
    assert finishes["nickel-plate"]["substrates"] == []


def test_json_inside_records_is_shown_as_json() -> None:
    assert documents(CATALOGUE, "rules")["earth"]["trigger"] == {"environment": {"tags": {"has": "sulfide"}}}
    assert documents(CATALOGUE, "mitigations")["paint-both"]["parameters"] is None
