"""Electrodes and their kinetics."""

from __future__ import annotations

from service.catalogue.records import ElectrodeState, ElectrolyteClass, Fitness, Plausibility
from service.web.schemas.fields import described, nested
from service.web.schemas.pages import Page
from service.web.schemas.provenance import Provenance


class Electrode(Provenance):
    """What an electrolyte sees: a metal or alloy class that shares potentials and kinetics."""

    id: str = described("Identifier of the electrode.", "aluminium-6xxx")
    name: str = described("Name for people.", "Aluminium-magnesium-silicon wrought alloys (6xxx)")
    family: str = described("Family of the metals that it stands for.", "wrought aluminium")
    representative_material_id: str = described("Material whose composition it uses.", "al-6082-t6")
    dissolution: str = described("Valences in which its elements dissolve.", "Al:3;Mg:2")
    iso9223_metal: str = described("Standard metal whose rate in air it follows; empty if none.", "aluminium")
    iso9223_factor: float | None = described("Multiplier on the rate of that metal.", 1.0)
    pitting_factor_low: float | None = described("Least ratio of the deepest to the mean attack.", 5.0)
    pitting_factor_high: float | None = described("Greatest ratio of the deepest to the mean attack.", 50.0)
    decay_exponent_low: float | None = described("Least exponent m of the decay i(t) = i₁·t⁻ᵐ.", 0.0)
    decay_exponent_high: float | None = described("Greatest exponent of the decay.", 0.27)
    is_inert: bool = described("Whether it does not dissolve at all.", example=False)


class ElectrodePage(Page):
    """One page of electrodes."""

    items: tuple[Electrode, ...] = nested("Electrodes in the order of their identifiers.")


class Kinetics(Provenance):
    """Parameters of one electrode state in one class of electrolyte; potentials against SHE at 25 °C."""

    id: str = described("Identifier of the parameter set.", "aluminium-6xxx-pitting-chloride")
    electrode_id: str = described("Electrode that it describes.", "aluminium-6xxx")
    state: ElectrodeState = described("State of the surface.", "pitting")
    electrolyte_class: ElectrolyteClass = described("Electrolytes for which it holds.", "chloride")
    corrosion_potential_V: float = described("Corrosion potential.", -0.5)
    corrosion_potential_low_V: float = described("Lower bound of the corrosion potential.", -0.57)
    corrosion_potential_high_V: float = described("Upper bound of the corrosion potential.", -0.45)
    corrosion_current_A_per_m2: float = described("Corrosion current density.", 0.003)
    corrosion_current_low_A_per_m2: float = described("Lower bound of the corrosion current.", 0.001)
    corrosion_current_high_A_per_m2: float = described("Upper bound of the corrosion current.", 0.009)
    anodic_slope_V: float | None = described("Anodic slope for each decade of current.", 0.015)
    cathodic_slope_V: float = described("Cathodic slope for each decade of current.", 0.2)
    oxygen_efficiency: float = described("Share of the oxygen supply that the surface can use.", 0.03)
    oxygen_efficiency_low: float = described("Lower bound of that share.", 0.015)
    oxygen_efficiency_high: float = described("Upper bound of that share.", 0.07)
    passive_current_A_per_m2: float | None = described("Current density in the passive state.", 0.0005)
    breakdown_potential_V: float | None = described("Pitting or crevice potential.", None)
    breakdown_potential_low_V: float | None = described("Lower bound of the breakdown potential.", None)
    breakdown_potential_high_V: float | None = described("Upper bound of the breakdown potential.", None)
    water_reduction_A_per_m2: float | None = described("Water reduction at -1.0 V against SHE.", 0.01)
    fitness: Fitness = described("How well the conditions of the figures match their use.", "class default")
    plausibility: Plausibility = described("Outcome of the plausibility gate.", "passed")
    quarantine_reason: str = described("Why it is shown and never used; empty if it is used.", "")


class KineticsPage(Page):
    """One page of kinetic parameters."""

    items: tuple[Kinetics, ...] = nested("Parameter sets in the order of their identifiers.")
