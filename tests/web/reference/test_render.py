"""Pages show text as text."""

from __future__ import annotations

from dataclasses import replace

from markupsafe import escape

from service.web.api import assemble
from service.web.problems import KINDS
from service.web.reference import STYLES, render_problem, render_problems, render_reference


def test_markup_in_a_description_is_shown_and_not_obeyed() -> None:
    kind = replace(KINDS[0], remedy="Use `<b>` & <script>alert(1)</script>")
    page = render_problem(kind).decode()
    assert "<code>&lt;b&gt;</code> &amp; &lt;script&gt;" in page
    assert "<script>" not in page


def test_every_operation_has_a_page() -> None:
    pages = render_reference(assemble().openapi())
    assert set(pages) > {"", "judge_couple", "list_materials", "check_health"}
    assert b"couples:judge" in pages["judge_couple"]
    assert b"POST /v1/couples" in pages[""]


def test_every_kind_of_problem_is_listed() -> None:
    page = render_problems().decode()
    assert all(escape(kind.title) in page for kind in KINDS)


def test_styles_follow_the_reader() -> None:
    assert b"prefers-color-scheme: dark" in STYLES
    assert b"url(" not in STYLES
