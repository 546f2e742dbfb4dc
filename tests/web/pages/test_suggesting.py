from __future__ import annotations

from service.callouts import Resolver
from service.web.pages.suggesting import MOST, suggestions
from tests.seed_catalogue import seed_catalogue


def test_a_material_comes_first() -> None:
    names = suggestions("EN AW-608", seed_catalogue())
    assert "6082" in names[0]
    assert len(names) <= MOST


def test_after_a_comma_finishes_continue_the_text_and_can_be_read() -> None:
    catalogue = seed_catalogue()
    names = suggestions("EN AW-6082-T6, anod", catalogue)
    assert names
    assert all(name.startswith("EN AW-6082-T6, ") for name in names)
    assert "anodise" in names[0].lower()
    reading = Resolver.of(catalogue).resolve(names[0])
    assert reading.candidates[0].surface.layers


def test_a_finish_is_found_by_any_of_its_words() -> None:
    assert "Hot-dip galvanized zinc, batch" in suggestions("galvanized", seed_catalogue())


def test_nothing_is_offered_for_nothing() -> None:
    assert suggestions("", seed_catalogue()) == []
    assert suggestions("EN AW-6082-T6,", seed_catalogue()) != []


def test_finishes_that_do_not_go_on_a_material_are_not_offered() -> None:
    names = suggestions("EN AW-6082-T6, anodised", seed_catalogue())
    assert not any("titanium" in name for name in names)
    assert any("titanium" in name for name in suggestions("Ti-6Al-4V, anodised", seed_catalogue()))
