from __future__ import annotations

import pytest
from fastapi import Request
from markupsafe import Markup

from service.web.errors import NoSuchPathError
from service.web.pages.drawing import Picture
from service.web.pages.picture_files import picture_file, table_of

PICTURE = Picture("id", "title", "caption", Markup("<svg></svg>"), ("a, b", "c"), (("x", 1.5), ("y", None)))
REQUEST = Request({"type": "http", "method": "GET", "path": "/x", "headers": [], "server": ("host", 80)})


def test_figures_are_written_as_csv() -> None:
    assert table_of(PICTURE) == '"a, b",c\nx,1.5\ny,\n'


@pytest.mark.parametrize(("kind", "media_type"), [("csv", "text/csv"), ("svg", "image/svg+xml")])
def test_a_picture_comes_in_two_forms(kind: str, media_type: str) -> None:
    response = picture_file(REQUEST, PICTURE, kind)
    assert response.media_type == media_type
    assert f'filename="id.{kind}"' in response.headers["content-disposition"]


def test_there_is_no_third_form() -> None:
    with pytest.raises(NoSuchPathError):
        picture_file(REQUEST, PICTURE, "exe")
