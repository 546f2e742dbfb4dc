"""Our own colour scale: from light yellow to deep blue in even steps of what the eye sees.

The steps are a straight line in Oklab (B. Ottosson, "A perceptual color space for image processing",
2020), so each looks as far from the next as any other. Only lightness and the axis from blue to yellow
change, which the common kinds of colour blindness keep, and the text on each step is black or white,
whichever stands out more. Darker means more loss.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import Any

import numpy as np
from numpy.typing import NDArray

STEPS = 9
_LIGHT = np.array([0.95, -0.015, 0.075])
_DARK = np.array([0.31, -0.010, -0.095])
"""Both ends as lightness, green to red, blue to yellow; chosen by us."""

_TO_LMS = np.array(
    [
        [1.0, 0.3963377774, 0.2158037573],
        [1.0, -0.1055613458, -0.0638541728],
        [1.0, -0.0894841775, -1.2914855480],
    ]
)
_TO_RGB = np.array(
    [
        [4.0767416621, -3.3077115913, 0.2309699292],
        [-1.2684380046, 2.6097574011, -0.3413193965],
        [-0.0041960863, -0.7034186147, 1.7076147010],
    ]
)
"""Both matrices as published there."""

EDGES = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0)
"""Loss over allowance at which one step ends and the next begins, about half a decade each; 1 is one."""


def step_of(ratio: float) -> int:
    """Place of a loss over its allowance on the scale; 0 is the least."""
    return bisect_left(EDGES, ratio)


def bounds_of(step: int) -> tuple[float, float]:
    """Loss over allowance from and to which a step stands."""
    edges = (0.0, *EDGES, math.inf)
    return edges[step], edges[step + 1]


def colours() -> list[str]:
    """The steps as hexadecimal sRGB, the least first."""
    return ["#" + "".join(f"{part:02x}" for part in _bytes(rgb)) for rgb in _linear()]


def inks() -> list[str]:
    """Black or white for text on each step."""
    return ["#000" if luminance > 0.1791 else "#fff" for luminance in _luminances()]  # noqa: PLR2004 - equal contrast


def contrasts() -> list[float]:
    """Contrast of text on each step as WCAG 2 defines it."""
    pairs = zip(_luminances(), inks(), strict=True)
    return [(lum + 0.05) / 0.05 if ink == "#000" else 1.05 / (lum + 0.05) for lum, ink in pairs]


def style_rules() -> str:
    """Class names of the steps for the style sheet."""
    return "\n".join(
        f".ramp-{step} {{ background: {colour}; fill: {colour}; color: {ink}; }}"
        for step, (colour, ink) in enumerate(zip(colours(), inks(), strict=True))
    )


def oklab() -> NDArray[np.float64]:
    """The steps in Oklab, shape ``(STEPS, 3)``."""
    shares = np.linspace(0.0, 1.0, STEPS)[:, None]
    return np.asarray(_LIGHT + shares * (_DARK - _LIGHT))


def _linear() -> NDArray[np.float64]:
    return np.asarray(np.clip(((oklab() @ _TO_LMS.T) ** 3) @ _TO_RGB.T, 0.0, 1.0))


def _luminances() -> list[float]:
    weights = np.array([0.2126, 0.7152, 0.0722])
    luminances: list[float] = (_linear() @ weights).tolist()
    return luminances


def _bytes(linear: NDArray[Any]) -> list[int]:
    curved = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)  # noqa: PLR2004 - IEC 61966-2-1
    rounded: list[int] = np.round(curved * 255).astype(int).tolist()
    return rounded
