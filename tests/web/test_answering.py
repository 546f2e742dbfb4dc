"""Entity tags of the views of an answer."""

from __future__ import annotations

from service.web.answering import etag_of
from service.web.schemas.couples import View


def test_views_are_told_apart() -> None:
    assert etag_of("d", View.FULL) == '"d"'
    assert etag_of("d", View.DECISION) == '"d-decision"'
