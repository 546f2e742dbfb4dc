from __future__ import annotations

from service.catalogue.surfaces import Condition, Layer, Surface


def test_a_surface_says_nothing_that_it_was_not_told() -> None:
    bare = Surface("s235")
    assert (bare.layers, bare.condition, bare.basis_family) == ((), Condition.INTACT, "")
    assert Layer("zinc-plate").thickness_um is None


def test_equal_surfaces_are_one_key() -> None:
    first, second = (Surface("s235", (Layer("zinc-plate", 8.0),)) for _ in range(2))
    assert {first: "known"}[second] == "known"
    assert first != Surface("s235", (Layer("zinc-plate", 12.0),))
