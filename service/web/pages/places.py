"""Environments as a form offers them, and couples of the demonstration to begin with."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeVar

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Compound, Environment, Exposure

Named = TypeVar("Named", Compound, Environment)

_HEADINGS = {
    Exposure.ATMOSPHERE: "Open air",
    Exposure.SPLASH: "Splash and spray",
    Exposure.IMMERSED: "Immersed",
    Exposure.ENCLOSURE: "Enclosure",
    Exposure.INDOOR: "Indoors",
    Exposure.SOIL: "Soil",
    Exposure.CONCRETE: "Concrete",
}


@dataclass(frozen=True, slots=True)
class Example:
    """A couple of the demonstration station."""

    title: str
    fields: dict[str, str]


def _example(title: str, first: str, second: str, environment: str, function: str = "") -> Example:
    fields = {"first": first, "second": second, "environment": environment}
    return Example(title, fields | ({"functions": function} if function else {}))


EXAMPLES = (
    _example("Screw in the mast foot", "EN AW-6082-T6, anodized 15 µm", "A4-80", "marine-atmosphere-0-100-m"),
    _example("Sensor in its clamp", "Ti-6Al-4V AMS4928", "CuAl10Ni5Fe4", "seawater-quiescent"),
    _example(
        "Earth busbar on its stud",
        "Cu-ETP R250, verzinnt 5-8 µm",
        "CuZn39Pb3",
        "gasketed-enclosure-marine",
        "protective earth",
    ),
    _example("Solar feed in its terminal", "EN AW-1350 H19", "CuZn37, Ni 5 µm", "cabinet-with-condensation"),
    _example(
        "Wind sensor arm in its clamp",
        "CFRP",
        "EN AW-7075 T6, hard anodized 50 µm",
        "marine-atmosphere-0-100-m",
    ),
    _example(
        "Antenna flange and connector",
        "EN AW-6061-T6, chem film MIL-DTL-5541 Class 3",
        "CuZn39Pb3, white bronze 2 µm",
        "marine-atmosphere-0-100-m",
        "rf",
    ),
)
"""Joints of ``seed_data/demo``; port, station and parts are invented."""

DEMO_SURFACES = (
    "EN AW-6082-T6, anodized 15 µm",
    "S355J2+N, HDG per ISO 1461",
    "8.8 tZn",
    "A4-70",
    "X2CrNiMo17-12-2, 1.4404",
    "CuZn39Pb3",
    "Cu-ETP, tinned 5 µm",
    "CuAl10Ni5Fe4",
    "Ti-6Al-4V",
)
"""Surfaces of ``seed_data/demo`` that meet on its mast and well."""

DEFAULT_PLACE = "marine-atmosphere-0-100-m"


def by_name(records: Mapping[str, Named]) -> list[Named]:
    """Records in the order of their names."""
    return sorted(records.values(), key=lambda each: each.name)


def places(catalogue: Catalogue) -> list[tuple[str, list[Environment]]]:
    """Environments by exposure, each group in the order of names."""
    grouped = defaultdict(list)
    for environment in by_name(catalogue.environments):
        grouped[environment.exposure].append(environment)
    return [(heading, grouped[exposure]) for exposure, heading in _HEADINGS.items() if grouped[exposure]]
