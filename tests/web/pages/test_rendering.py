from __future__ import annotations

from pathlib import Path

import pytest
from jinja2 import UndefinedError

from service.web.pages import rendering
from service.web.pages.rendering import ASSETS, EMBEDDED_POLICY, POLICY, render

TEMPLATES = sorted((Path(rendering.__file__).parent / "templates").glob("*.html"))


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: path.name)
def test_no_template_holds_script_style_or_another_host(template: Path) -> None:
    text = template.read_text(encoding="utf-8")
    assert "style=" not in text
    assert "<style" not in text
    assert "onclick" not in text
    assert "|safe" not in text.replace(" ", "")
    assert "http://" not in text
    assert "https://" not in text


def test_assets_name_no_other_host() -> None:
    for body, _ in ASSETS.values():
        text = body.decode().replace("http://www.w3.org/2000/svg", "")
        assert "http:" not in text
        assert "https:" not in text
        assert "@import" not in text


def test_a_template_does_not_pass_over_what_is_missing() -> None:
    with pytest.raises(UndefinedError):
        render("failure.html", visitor=None, release="")


def test_text_is_escaped() -> None:
    body = render(
        "failure.html", visitor=None, release="", title="<b>", detail="<script>x</script>", suggestions=()
    )
    assert b"<script>x" not in body


def test_only_the_embedded_page_may_be_framed() -> None:
    assert POLICY.endswith("frame-ancestors 'none'")
    assert EMBEDDED_POLICY.endswith("frame-ancestors *")


def test_a_query_leaves_out_what_is_not_given() -> None:
    assert rendering._query({"a": "x y", "b": None, "c": "", "d": ["1", "2"]}) == "a=x+y&d=1&d=2"
