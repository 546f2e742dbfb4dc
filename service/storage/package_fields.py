"""What the columns of the seed package mean, for readers who have only the package."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

SHARED: Mapping[str, str] = MappingProxyType(
    {
        "id": "Stable identifier.",
        "name": "Name in plain English.",
        "note": "Remark, conflict or limit of use.",
        "source_id": "Source of the figures of the row.",
        "locator": "Page, table or clause read, and the copy through which it was read.",
        "obtained": "How the figures were obtained.",
        "fitness": "How well the conditions match the use.",
        "plausibility": "Outcome of the plausibility gate.",
        "quarantine_reason": "Why the row is kept but never used; empty for a row in use.",
        "family": "Family of materials, the vocabulary of substrate families.",
        "electrode_id": "Electrode that an electrolyte sees.",
        "electrolyte_class": "Family of electrolytes to which the row belongs.",
        "state": "Surface state.",
        "is_conductive": "Whether it conducts electricity.",
        "specifications": "Specifications that name it.",
        "temperature_C": "Temperature.",
        "reference_electrode": "Reference electrode of the potentials.",
        "conductivity_S_per_m": "Conductivity of the solution.",
        "oxygen_mg_per_L": "Dissolved oxygen.",
        "pH": "Acidity.",
        "scale_id": "Published scale to which it belongs.",
        "screening_class": "Severity of service: harsh, normal or controlled.",
        "directions": "How to apply it.",
        "caution": "What can hurt people or parts.",
        "kind": "Kind of the row within its table.",
        "composition": "What it consists of.",
        "finish_id": "Finish.",
        "material_id": "Material.",
        "underplate_id": "Finish that belongs beneath.",
        "severity": "Severity that the rule gives: none, slight, moderate or severe.",
    }
)
"""Columns that mean the same wherever they stand."""

OWN: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "sources": {
            "kind": "Kind of publication; practice has no document, memory has no page.",
            "title": "Title.",
            "authors": "Authors, separated by semicolons.",
            "publisher": "Publisher, journal or issuing body.",
            "year": "Year of publication.",
            "edition": "Edition or revision letter.",
            "status": "Standing of the publication.",
            "doi": "Digital object identifier.",
            "url": "Address at which it was read.",
        },
        "electrodes": {
            "representative_material_id": "Material whose density and composition stand for the class.",
            "dissolution": "Valences of dissolution, as Al:3;Mg:2.",
            "iso9223_metal": "Standard metal of ISO 9223 whose rate in air it follows; empty for none.",
            "iso9223_factor": "Multiplier on the rate of that metal.",
            "pitting_factor_low": "Least ratio of the deepest to the mean attack.",
            "pitting_factor_high": "Greatest ratio of the deepest to the mean attack.",
            "decay_exponent_low": "Least m in i(t) = i_1 t^-m.",
            "decay_exponent_high": "Greatest m in i(t) = i_1 t^-m.",
            "is_inert": "Whether it does not dissolve at the potentials of a couple.",
        },
        "materials": {
            "composition": "Nominal composition in per cent by mass, as Al 97.3;Mg 0.9.",
            "temper": "Temper or condition of heat treatment.",
            "strength_MPa": "Tensile strength used by embrittlement rules.",
        },
        "designations": {
            "system": "System of names: UNS, EN number, EN name, ISO, JIS, ASTM, DIN or common.",
            "text": "The name as a drawing gives it.",
        },
        "finishes": {
            "process": "How it is put on.",
            "role": "What it does to the surface that the electrolyte sees.",
            "outer_electrode_id": "Electrode that the electrolyte sees; empty where the substrate shows.",
            "is_looked_through": "Whether a published rule judges the metal beneath.",
            "thickness_min_um": "Usual least thickness.",
            "thickness_typical_um": "Usual thickness.",
            "thickness_max_um": "Usual greatest thickness.",
            "pore_free_above_um": "Thickness from which a noble layer is taken as closed.",
            "contact_grade": "Whether it is a contact finish.",
            "solderable": "Solderability.",
            "max_temperature_C": "Highest service temperature.",
            "wear_class": "Resistance to wear.",
            "whisker_risk": "Risk of whiskers.",
            "embrittlement_risk": "Risk of hydrogen embrittlement from the process.",
            "rohs": "Standing under RoHS.",
            "reach": "Standing under REACH.",
            "substances": "Regulated substances by symbol.",
            "cost_tier": "Relative cost, 0 to 5.",
        },
        "finish_substrates": {
            "substrate_family": "Family of the substrate.",
            "suitability": "Whether the finish can be put on it: good, conditional or no.",
            "polarity": "Finish against substrate: anodic, cathodic, neutral or insulating.",
            "failure_mode": "What happens where the finish is porous or gone.",
        },
        "compounds": {
            "temperature_min_C": "Lowest service temperature.",
            "temperature_max_C": "Highest service temperature.",
            "blocks_electrolyte": "Whether it keeps the electrolyte out of the joint.",
            "inhibits": "What it inhibits and how.",
            "reapplication": "When it must be renewed.",
            "attacks": "What it harms.",
            "helps": "What it is good for.",
        },
        "electrolytes": {
            "chloride_mg_per_L": "Chloride.",
        },
        "environments": {
            "exposure": "How the electrolyte meets the joint.",
            "temperature_low_C": "Lower bound of the temperature.",
            "temperature_high_C": "Upper bound of the temperature.",
            "relative_humidity_pct": "Relative humidity, year mean.",
            "wetness_h_per_year": "Time of wetness.",
            "so2_mg_per_m2_d": "Deposition of sulfur dioxide.",
            "chloride_mg_per_m2_d": "Deposition of chloride.",
            "salt_load_g_per_m2": "Salt lying on the surface.",
            "is_sheltered": "Whether rain does not wash it.",
            "conductivity_low_S_per_m": "Lower bound of the conductivity.",
            "conductivity_high_S_per_m": "Upper bound of the conductivity.",
            "pH_low": "Lower bound of the acidity.",
            "pH_high": "Upper bound of the acidity.",
            "film_thickness_um": "Thickness of the electrolyte film.",
            "film_thickness_low_um": "Lower bound of the film thickness.",
            "film_thickness_high_um": "Upper bound of the film thickness.",
            "hours_rain_per_year": "Hours under rain.",
            "hours_deliquesced_per_year": "Hours under a film of deliquesced salt.",
            "hours_drying_per_year": "Hours of drying.",
            "flow_m_per_s": "Speed of the water.",
            "iso9223_category": "Corrosivity category of ISO 9223.",
            "iso11844_category": "Indoor category of ISO 11844.",
            "isa7104_level": "Severity level of ISA-71.04.",
            "tags": "Facts that rules ask for.",
        },
        "scales": {
            "kind": "potential, index (positive towards the active end) or rank (1 is the most active).",
        },
        "limits": {
            "limit_V": "Greatest permissible difference.",
            "rule": "The rule in words.",
        },
        "measurements": {
            "subject_kind": "Table of the subject: material, electrode, finish, compound or electrolyte.",
            "subject_id": "What was measured.",
            "quantity": "Quantity measured.",
            "value": "Figure, in the unit of the row.",
            "low": "Lower end of a published range.",
            "high": "Upper end of a published range.",
            "unit": "Unit of the figures.",
            "electrolyte_id": "Solution in which it was measured.",
            "conditions": "Conditions of the measurement.",
        },
        "kinetics": {
            "corrosion_potential_V": "Corrosion potential against SHE at 25 degC.",
            "corrosion_potential_low_V": "Lower bound of the corrosion potential.",
            "corrosion_potential_high_V": "Upper bound of the corrosion potential.",
            "corrosion_current_A_per_m2": "Corrosion current density.",
            "corrosion_current_low_A_per_m2": "Lower bound of the corrosion current density.",
            "corrosion_current_high_A_per_m2": "Upper bound of the corrosion current density.",
            "anodic_slope_V": "Anodic slope per decade.",
            "cathodic_slope_V": "Cathodic slope per decade.",
            "oxygen_efficiency": "Share of the oxygen transport limit that the surface can use.",
            "oxygen_efficiency_low": "Lower bound of that share.",
            "oxygen_efficiency_high": "Upper bound of that share.",
            "passive_current_A_per_m2": "Passive current density.",
            "breakdown_potential_V": "Pitting or crevice potential of a passive state.",
            "breakdown_potential_low_V": "Lower bound of the breakdown potential.",
            "breakdown_potential_high_V": "Upper bound of the breakdown potential.",
            "water_reduction_A_per_m2": "Current density of water reduction at -1.0 V against SHE.",
        },
        "rules": {
            "kind": "Which witness evaluates the rule.",
            "trigger": "When the rule speaks, in the small language of rules (JSON).",
            "anode": "Side that the rule takes as the anode: first, second or empty.",
            "refuses": "Whether a mandatory rule makes the couple unsuitable.",
            "affects": "Joint functions that suffer.",
            "statement": "What the rule says.",
            "advice": "What to do.",
        },
        "mitigations": {
            "rank": "Order of preference.",
            "transform": "Change of the joint that is applied.",
            "parameters": "Figures of that change (JSON).",
            "applies_when": "When it can be used.",
            "ends_functions": "Joint functions that it takes away.",
            "needs_opt_in": "Consents without which it is not offered.",
            "life_years_low": "Lower bound of its life.",
            "life_years_high": "Upper bound of its life.",
            "inspection": "How and when to inspect it.",
            "done_badly": "What happens when it is done badly.",
            "has_sourced_efficacy": "Whether a source backs its effect.",
        },
    }
)
"""Columns that belong to one table, or mean something special there."""


def description(table: str, column: str) -> str:
    """Return what a column means.

    Raises
    ------
    KeyError
        If nobody has said it yet.
    """
    own = OWN.get(table, {})
    return own[column] if column in own else SHARED[column]
