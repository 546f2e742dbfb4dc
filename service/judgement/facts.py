"""What rules may ask about a couple."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.catalogue.surfaces import Surface
from service.judgement.areas import wetted_areas_m2
from service.judgement.couples import Couple
from service.judgement.exposed import outer_electrode_id
from service.judgement.json_values import figure
from service.judgement.strength import strength_MPa

SIDE_FACTS = frozenset(
    {
        "material",
        "family",
        "electrode",
        "electrode_family",
        "finish",
        "finish_role",
        "finishes",
        "substances",
        "strength_MPa",
        "thickness_um",
        "is_conductive",
        "basis_electrode",
    }
)
ENVIRONMENT_FACTS = frozenset(
    {
        "environment",
        "exposure",
        "electrolyte_class",
        "temperature_C",
        "pH",
        "tags",
        "relative_humidity_pct",
        "isa7104_level",
        "iso9223_category",
    }
)
JOINT_FACTS = frozenset(
    {
        "functions",
        "joint_temperature_C",
        "compound",
        "geometry",
        "wear_cycles",
        "design_life_years",
        "is_isolated",
        "area_ratio",
    }
)
COMPUTED_FACTS = frozenset({"difference_V", "couple_potential_V", "anode"})


@dataclass(frozen=True, slots=True)
class Facts:
    """Facts of one couple; ``None`` means not known.

    ``computed_values`` refer to the couple as asked; :meth:`computed` turns its anode round for
    a pair that matched in reverse order.
    """

    first: Mapping[str, Any]
    second: Mapping[str, Any]
    environment: Mapping[str, Any]
    joint: Mapping[str, Any]
    computed_values: Mapping[str, Any] = field(default_factory=dict)

    def computed(self, *, is_swapped: bool) -> Mapping[str, Any]:
        """Computed facts as seen by a pair in the given order."""
        if not is_swapped:
            return self.computed_values
        turned = {"first": "second", "second": "first"}
        anode = self.computed_values.get("anode")
        return {**self.computed_values, "anode": turned.get(anode, anode) if anode else None}


def facts_of(
    couple: Couple,
    environment: Environment,
    catalogue: Catalogue,
    computed: Mapping[str, Any] | None = None,
) -> Facts:
    """Collect the facts of a couple in its environment.

    Parameters
    ----------
    couple : Couple
    environment : Environment
    catalogue : Catalogue
    computed : mapping of str to Any, optional
        Difference and potential [V] and the anode, where they are known.

    Returns
    -------
    Facts
    """
    return Facts(
        first=side_facts(couple.first, catalogue),
        second=side_facts(couple.second, catalogue),
        environment=environment_facts(environment),
        joint=joint_facts(couple, (computed or {}).get("anode")),
        computed_values=computed or {},
    )


@lru_cache(maxsize=8192)
def side_facts(surface: Surface, catalogue: Catalogue) -> Mapping[str, Any]:
    """Facts of one surface.

    Parameters
    ----------
    surface : Surface
    catalogue : Catalogue

    Returns
    -------
    mapping of str to Any
        One entry for each of ``SIDE_FACTS``; ``None`` where it is not known.
    """
    material = catalogue.materials.get(surface.material_id or "")
    electrode_id = outer_electrode_id(surface, catalogue)
    electrode = catalogue.electrodes.get(electrode_id or "")
    outer = catalogue.finishes.get(surface.layers[0].finish_id) if surface.layers else None
    finishes = [catalogue.finishes[layer.finish_id] for layer in surface.layers]
    substances = {substance for finish in finishes for substance in finish.substances}
    return {
        "material": surface.material_id,
        "family": material.family if material else surface.basis_family or None,
        "electrode": electrode_id,
        "electrode_family": electrode.family if electrode else None,
        "finish": outer.id if outer else "none-bare",
        "finish_role": outer.role.value if outer else "bare",
        "finishes": frozenset(finish.id for finish in finishes),
        "substances": frozenset(substances),
        "strength_MPa": strength_MPa(surface, material),
        "thickness_um": surface.layers[0].thickness_um if surface.layers else None,
        "is_conductive": outer.is_conductive if outer else (material.is_conductive if material else None),
        "basis_electrode": material.electrode_id if material else None,
    }


def environment_facts(environment: Environment) -> dict[str, Any]:
    """Facts of an environment.

    Parameters
    ----------
    environment : Environment

    Returns
    -------
    dict of str to Any
        One entry for each of ``ENVIRONMENT_FACTS``; ``None`` where it is not known.
    """
    return {
        "environment": environment.id,
        "exposure": environment.exposure.value,
        "electrolyte_class": environment.electrolyte_class.value,
        "temperature_C": environment.temperature_C,
        "pH": environment.pH,
        "tags": frozenset(environment.tags),
        "relative_humidity_pct": environment.relative_humidity_pct,
        "isa7104_level": environment.isa7104_level or None,
        "iso9223_category": environment.iso9223_category or None,
    }


def joint_facts(couple: Couple, anode: str | None) -> dict[str, Any]:
    """Facts of a joint.

    Parameters
    ----------
    couple : Couple
    anode : str or None
        Which side is eaten: first, second, none, or not known.

    Returns
    -------
    dict of str to Any
        One entry for each of ``JOINT_FACTS``; the area ratio is that of cathode to anode [-],
        ``None`` where there is no anode.
    """
    first, second = wetted_areas_m2(couple)
    ratio = {"first": second / first, "second": first / second}.get(anode or "")
    # 0.3 / 0.03 is a last bit above 10, and rules ask for ratios above 10.
    return {
        "functions": frozenset(function.value for function in couple.functions),
        "joint_temperature_C": couple.joint_temperature_C,
        "compound": couple.compound_id or "none",
        "geometry": couple.geometry.value,
        "wear_cycles": couple.wear_cycles,
        "design_life_years": couple.design_life_years,
        "is_isolated": couple.is_isolated,
        "area_ratio": None if ratio is None else figure(ratio),
    }
