"""Pages read as a browser and a screen reader would."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from itertools import pairwise

Attributes = dict[str, str]
VOID = {"meta", "link", "input", "img", "br"}


@dataclass
class Element:
    """One element with its attributes and all text inside."""

    tag: str
    attributes: Attributes
    text: str = ""


@dataclass
class Page(HTMLParser):
    """A parsed page: its elements in order."""

    elements: list[Element] = field(default_factory=list)
    stack: list[Element] = field(default_factory=list)

    @classmethod
    def of(cls, html: str) -> Page:
        page = cls()
        HTMLParser.__init__(page)
        page.feed(html)
        page.close()
        return page

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        element = Element(tag, {name: value or "" for name, value in attrs})
        self.elements.append(element)
        if tag not in VOID:
            self.stack.append(element)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append(Element(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        while self.stack and self.stack.pop().tag != tag:
            continue

    def handle_data(self, data: str) -> None:
        for element in self.stack:
            element.text += data

    def all(self, tag: str, **wanted: str) -> list[Element]:
        return [
            element
            for element in self.elements
            if element.tag == tag
            and all(element.attributes.get(name.strip("_")) == value for name, value in wanted.items())
        ]

    @property
    def links(self) -> list[str]:
        return [element.attributes["href"] for element in self.all("a")]

    @property
    def unlabelled(self) -> list[Attributes]:
        labelled = {element.attributes.get("for") for element in self.all("label")}
        return [
            element.attributes
            for tag in ("input", "select", "textarea")
            for element in self.all(tag)
            if element.attributes.get("type") not in {"hidden", "checkbox"}
            and element.attributes.get("id") not in labelled
        ]


def check_page(html: str) -> Page:
    """Check what holds for every page, and return it parsed."""
    page = Page.of(html)
    assert page.elements[0].tag == "html"
    assert page.elements[0].attributes["lang"] == "en"
    assert len(page.all("h1")) == 1
    assert len(page.all("main")) == 1
    assert page.all("title")[0].text.strip()
    levels = [int(element.tag[1]) for element in page.elements if element.tag in {"h1", "h2", "h3"}]
    assert all(after - before <= 1 for before, after in pairwise(levels)), levels
    assert page.unlabelled == []
    assert [each for each in page.elements if "style" in each.attributes or each.tag == "style"] == []
    assert [each for each in page.all("script") if "src" not in each.attributes] == []
    assert [each for each in page.elements if any(name.startswith("on") for name in each.attributes)] == []
    ids = [element.attributes["id"] for element in page.elements if "id" in element.attributes]
    assert len(ids) == len(set(ids)), "an id stands twice"
    for element in page.elements:
        for name in ("src", "href", "action"):
            if element.attributes.get(name, "").startswith(("http:", "https:", "//")):
                assert element.tag == "a", "only a link that is followed may lead elsewhere"
                assert "noreferrer" in element.attributes.get("rel", "").split()
    for image in page.all("svg"):
        assert image.attributes.get("aria-hidden") == "true" or image.attributes.get("role") == "img"
    return page
