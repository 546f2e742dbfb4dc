"""Overlays as plain values; the rest is tested over HTTP."""

from __future__ import annotations

from service.web.overlays import tag


def test_having_no_overlay_has_a_tag_too() -> None:
    assert (tag(""), tag("abc")) == ("none", "abc")
