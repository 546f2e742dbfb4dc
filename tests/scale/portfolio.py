"""Assemblies in any number, no two of their joints alike: invented, and never the same question twice."""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

PLACE = "marine-atmosphere-0-100-m"
JOINTS_PER_ASSEMBLY = 50
TEXTS = (
    "EN AW-6082-T6", "EN AW-5754-H22", "A4-80", "A2-70", "1.4404", "S235JR", "S355J2+N, HDG ISO 1461",
    "8.8 Fe//Zn8//C", "CW024A", "CW614N", "CuSn8", "Ti-6Al-4V", "EN AW-6082-T6, anodized 15 µm",
    "CW024A, tin plated 5 µm",
)  # fmt: skip


def assemblies(joints: int) -> Iterator[tuple[str, dict[str, Any]]]:
    """Give names and bodies of assemblies with so many joints in all."""
    chance = random.Random(20261125)  # noqa: S311 - a repeatable mixture
    for start in range(0, joints, JOINTS_PER_ASSEMBLY):
        count = min(JOINTS_PER_ASSEMBLY, joints - start)
        yield f"assembly-{start // JOINTS_PER_ASSEMBLY:06d}", assembly(count, chance)


def assembly(joints: int, chance: random.Random) -> dict[str, Any]:
    """Write an assembly: a frame and what is fastened to it, each joint of its own size."""
    parts = [{"part_number": "frame", "surface": chance.choice(TEXTS)}]
    parts += [{"part_number": f"P{number}", "surface": chance.choice(TEXTS)} for number in range(joints)]
    return {
        "programme": {"environment": PLACE, "design_life_years": 15},
        "parts": parts,
        "joints": [
            {
                "id": f"J{number}",
                "first": "frame",
                "second": f"P{number}",
                "geometry": chance.choice(["strip", "fastener"]),
                "first_area_cm2": round(chance.uniform(10, 2000), 2),
                "second_area_cm2": round(chance.uniform(1, 500), 2),
                "fastener_radius_mm": round(chance.uniform(2, 20), 2),
            }
            for number in range(joints)
        ],
    }
