"""Drawing on the server: SVG elements, axes and the picture that a page shows with its table."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from markupsafe import Markup, escape

Cell = str | float | int | None
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture with what stands for it where it cannot be seen: a caption and a table of its figures."""

    id: str
    title: str
    caption: str
    svg: Markup
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Axis:
    """A figure's way to its place between two edges; logarithmic where ``is_log``."""

    low: float
    high: float
    start: float
    end: float
    is_log: bool = False

    def at(self, value: float) -> float:
        """Place of a value, held between the edges."""
        low, high, here = (self._plain(each) for each in (self.low, self.high, value))
        share = 0.5 if high == low else (here - low) / (high - low)
        return self.start + min(max(share, 0.0), 1.0) * (self.end - self.start)

    def ticks(self, most: int = 6) -> list[float]:
        """Round values to mark, at most about ``most``."""
        if self.is_log:
            first, last = math.ceil(math.log10(self.low) - 1e-9), math.floor(math.log10(self.high) + 1e-9)
            stride = max(1, math.ceil((last - first + 1) / most))
            return [10.0**power for power in range(first, last + 1, stride)]
        step = _round_step((self.high - self.low) / most)
        start = math.ceil(self.low / step - 1e-9)
        return [count * step for count in range(start, math.floor(self.high / step + 1e-9) + 1)]

    def _plain(self, value: float) -> float:
        return math.log10(max(value, 1e-300)) if self.is_log else value


def _round_step(rough: float) -> float:
    if rough <= 0.0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(rough))
    return next((factor * power for factor in (1.0, 2.0, 5.0) if factor * power >= rough), 10.0 * power)


def around(values: Iterable[float], margin: float = 0.08) -> tuple[float, float]:
    """Bounds of an axis that holds values with room on both sides."""
    held = list(values)
    room = (max(held) - min(held)) * margin or 1.0
    return min(held) - room, max(held) + room


@dataclass(slots=True)
class Drawing:
    """An SVG under construction. Looks come from the style sheet through class names."""

    width: float
    height: float
    _parts: list[Markup] = field(default_factory=list)

    def line(self, start: Point, end: Point, look: str) -> None:
        """Draw a straight line."""
        self._add("line", look, x1=start[0], y1=start[1], x2=end[0], y2=end[1])

    def box(self, corner: Point, width: float, height: float, look: str) -> None:
        """Draw a rectangle; one thinner than a hair is drawn as wide as a hair."""
        self._add(
            "rect", look, x=corner[0], y=corner[1], width=max(width, 1.5), height=max(height, 1.5), rx=1.5
        )

    def dot(self, centre: Point, radius: float, look: str) -> None:
        """Draw a filled circle."""
        self._add("circle", look, cx=centre[0], cy=centre[1], r=radius)

    def shape(self, path: str, look: str, *, at: Point = (0.0, 0.0), scale: float = 1.0) -> None:
        """Draw path data, moved and scaled."""
        self._add("path", look, d=path, transform=f"translate({_n(at[0])} {_n(at[1])}) scale({_n(scale)})")

    def curve(self, points: Sequence[Point], look: str) -> None:
        """Join points."""
        steps = " L".join(f"{_n(x)} {_n(y)}" for x, y in points)
        self._add("path", look, d=f"M{steps}")

    def area(self, points: Sequence[Point], look: str) -> None:
        """Fill what points enclose."""
        self._add("polygon", look, points=" ".join(f"{_n(x)},{_n(y)}" for x, y in points))

    def text(
        self, at: Point, words: str, look: str = "label", anchor: str = "start", *, turn: float = 0.0
    ) -> None:
        """Write words; ``anchor`` is start, middle or end, ``turn`` degrees clockwise about ``at``."""
        attributes = f'class="{look}" x="{_n(at[0])}" y="{_n(at[1])}" text-anchor="{anchor}"'
        if turn:
            attributes += (
                f' transform="rotate({_n(turn)} {_n(at[0])} {_n(at[1])})" dominant-baseline="central"'
            )
        self._parts.append(Markup(f"<text {attributes}>{escape(words)}</text>"))  # noqa: S704 - escaped here

    def scale_below(self, axis: Axis, y: float, label: str, write: Callable[[float], str]) -> None:
        """Draw a horizontal axis with ticks at height ``y`` and its label below."""
        self.line((axis.start, y), (axis.end, y), "axis")
        for tick in axis.ticks():
            self.line((axis.at(tick), y), (axis.at(tick), y + 5), "axis")
            self.text((axis.at(tick), y + 18), write(tick), "tick", "middle")
        self.text(((axis.start + axis.end) / 2, y + 36), label, "label", "middle")

    def scale_left(self, axis: Axis, x: float, label: str, write: Callable[[float], str]) -> None:
        """Draw a vertical axis with ticks at ``x`` and its label above."""
        self.line((x, axis.start), (x, axis.end), "axis")
        for tick in axis.ticks():
            self.line((x - 5, axis.at(tick)), (x, axis.at(tick)), "axis")
            self.text((x - 8, axis.at(tick) + 4), write(tick), "tick", "end")
        self.text((max(x - 68, 4), min(axis.start, axis.end) - 12), label, "label")

    def finish(self, name: str, title: str, description: str) -> Markup:
        """Return the SVG with its title and description for those who cannot see it."""
        body = Markup("").join(self._parts)
        return Markup(
            '<svg xmlns="http://www.w3.org/2000/svg" class="picture" role="img" '
            'viewBox="0 0 {} {}" aria-labelledby="{}-title {}-text">'
            '<title id="{}-title">{}</title><desc id="{}-text">{}</desc>{}</svg>'
        ).format(_n(self.width), _n(self.height), name, name, name, title, name, description, body)

    def _add(self, element: str, look: str, **attributes: float | str) -> None:
        written = " ".join(f'{name}="{_n(value)}"' for name, value in attributes.items())
        self._parts.append(Markup(f'<{element} class="{look}" {written}/>'))  # noqa: S704 - figures and our own names


def standalone(svg: Markup, more_looks: str = "") -> str:
    """Return a picture that carries its looks with it, for use outside our pages; always on white."""
    head, end, rest = str(svg).partition(">")
    return f"{head}{end}<style>{_LOOKS}{more_looks}</style>{rest}"


_LOOKS = (
    "svg{background:#fff}text{fill:#1c2024;font:13px sans-serif}.tick{fill:#565d66;font-size:12px}"
    ".axis,.guide{stroke:#565d66}.guide{stroke-dasharray:4 4}.limit{stroke:#1c2024;stroke-width:2}"
    ".allowed,.band{fill:#e4e1d6}.side-first,.under-first{fill:#1f5f99}.side-second,.under-second{fill:#a8650c}"
    ".line-first{stroke:#1f5f99}.line-second{stroke:#a8650c;stroke-dasharray:9 4}"
    ".node{fill:#fff;stroke:#565d66;stroke-width:1.5}.link{fill:none;stroke-width:2;opacity:.8}"
    ".link.verdict-suitable{stroke:#246b3c}.link.verdict-conditional{stroke:#8a5a00;stroke-dasharray:8 3}"
    ".link.verdict-unsuitable{stroke:#a12a22;stroke-width:3.5}"
    ".link.verdict-undetermined{stroke:#565d66;stroke-dasharray:2 4}"
    ".whisker{stroke-width:5;stroke-dasharray:none}.curve{fill:none;stroke-width:2.5}.under{opacity:.25}"
)


def _n(value: float | str) -> str:
    return value if isinstance(value, str) else f"{value:.2f}".rstrip("0").rstrip(".")
