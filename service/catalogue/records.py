"""The immutable records of the knowledge base.

One dataclass per table of ``seed_data/``: the column names of the CSV file, the columns of
the database table and the fields here are the same, so there is one vocabulary to learn.
Empty cells are ``None`` (numbers, booleans) or ``""`` (text); list-valued cells are separated
by ``;`` in CSV. Units are in the field names.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Obtained(StrEnum):
    """How a figure was obtained; the access half of its grade."""

    READ = "read"
    READ_IN_REPRODUCTION = "read in a reproduction"
    COMPUTED = "computed"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice"


class Fitness(StrEnum):
    """How well the conditions of a figure match what it is used for."""

    EXACT = "exact"
    CLOSE = "close"
    CLASS_DEFAULT = "class default"
    UNFIT = "unfit"


class Plausibility(StrEnum):
    """Outcome of the plausibility gate: does the figure agree with what is known of its class."""

    PASSED = "passed"
    DOUBTFUL = "doubtful"
    FAILED = "failed"


class SourceStatus(StrEnum):
    """Standing of a publication on the day it was entered."""

    ACTIVE = "active"
    SUPERSEDED = "superseded"
    WITHDRAWN = "withdrawn"
    GUIDANCE = "guidance"
    UNKNOWN = "unknown"


class ElectrodeState(StrEnum):
    """Surface state in which an electrode is judged; each has its own monotone branches."""

    ACTIVE = "active"
    PASSIVE = "passive"
    PITTING = "pitting"
    ENNOBLED = "ennobled"


class ElectrolyteClass(StrEnum):
    """Family of electrolytes within which kinetic parameters may be carried over."""

    CHLORIDE = "chloride"
    FRESH = "fresh"
    ALKALINE = "alkaline"
    ACID = "acid"
    COMPLEXING = "complexing"
    NONE = "none"


class Exposure(StrEnum):
    """How the electrolyte meets the joint."""

    IMMERSED = "immersed"
    ATMOSPHERE = "atmosphere"
    SPLASH = "splash"
    INDOOR = "indoor"
    ENCLOSURE = "enclosure"
    SOIL = "soil"
    CONCRETE = "concrete"


class FinishRole(StrEnum):
    """What a finish does to the surface that the electrolyte sees."""

    BARE = "bare"
    METALLIC = "metallic"
    CONVERSION = "conversion"
    PASSIVATION = "passivation"
    ANODIC = "anodic"
    ORGANIC = "organic"


class RuleKind(StrEnum):
    """Which witness evaluates a rule."""

    MANDATORY = "mandatory"
    REVERSAL = "reversal"
    EXPERIENCE = "experience"
    HAZARD = "hazard"
    CREVICE = "crevice"
    CATHODE_DAMAGE = "cathode damage"


@dataclass(frozen=True, slots=True)
class Source:
    """A bibliographic entry.

    ``kind`` is standard, specification, paper, handbook, report, web, dataset, practice (common
    practice, nothing published) or memory.
    """

    id: str
    kind: str
    title: str
    authors: str
    publisher: str
    year: int | None
    edition: str
    status: SourceStatus
    doi: str
    url: str
    note: str


@dataclass(frozen=True, slots=True)
class Electrode:
    """What an electrolyte sees: a metal or alloy class that shares potentials and kinetics.

    ``iso9223_metal`` names the standard metal whose atmospheric rate it follows (``carbon_steel``,
    ``zinc``, ``copper``, ``aluminium`` or empty) and ``iso9223_factor`` the multiplier on it.
    ``dissolution`` gives the valences, such as ``Al:3;Mg:2``. ``pitting_factor`` is the ratio of the
    deepest to the mean attack. ``decay_exponent`` is m in i(t) = i_1 t**-m.
    """

    id: str
    name: str
    family: str
    representative_material_id: str
    dissolution: str
    iso9223_metal: str
    iso9223_factor: float | None
    pitting_factor_low: float | None
    pitting_factor_high: float | None
    decay_exponent_low: float | None
    decay_exponent_high: float | None
    is_inert: bool
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Material:
    """A base metal, alloy or conductive non-metal in one temper.

    ``composition`` is nominal, in per cent by mass: ``Al 97.3;Mg 0.9;Si 1.0``. ``strength_MPa`` is
    the tensile strength used by embrittlement rules.
    """

    id: str
    name: str
    family: str
    electrode_id: str
    composition: str
    temper: str
    strength_MPa: float | None
    is_conductive: bool
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Designation:
    """A name under which a drawing may call a material.

    ``system`` is UNS, EN number, EN name, ISO, JIS, ASTM, DIN or common.
    """

    material_id: str
    system: str
    text: str
    note: str


@dataclass(frozen=True, slots=True)
class Finish:
    """A plating, conversion coating, passivation, anodic film or organic coat.

    ``outer_electrode_id`` is the electrode that the electrolyte sees (empty where the substrate
    shows through or the film insulates). ``is_looked_through`` tells whether a published rule
    judges the metal beneath. ``pore_free_above_um`` is the thickness from which a noble layer is
    taken as closed. ``substances`` lists regulated substances by symbol: ``Cd``, ``CrVI``, ``Pb``,
    ``Be``, ``Ni``, ``PFAS``.
    """

    id: str
    name: str
    process: str
    role: FinishRole
    outer_electrode_id: str
    is_conductive: bool
    is_looked_through: bool
    thickness_min_um: float | None
    thickness_typical_um: float | None
    thickness_max_um: float | None
    pore_free_above_um: float | None
    underplate_id: str
    contact_grade: bool
    solderable: str
    max_temperature_C: float | None
    wear_class: str
    whisker_risk: str
    embrittlement_risk: str
    rohs: str
    reach: str
    substances: tuple[str, ...]
    specifications: tuple[str, ...]
    cost_tier: int | None
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class FinishSubstrate:
    """Whether a finish can be put on a family of substrates.

    ``suitability`` is good, conditional or no; ``polarity`` (anodic, cathodic, neutral, insulating)
    is the finish against the substrate.
    """

    finish_id: str
    substrate_family: str
    suitability: str
    polarity: str
    underplate_id: str
    failure_mode: str
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Compound:
    """A generic joint compound, sealant, grease, preventive, gasket, locker or contaminant."""

    id: str
    name: str
    kind: str
    composition: str
    is_conductive: bool
    temperature_min_C: float | None
    temperature_max_C: float | None
    blocks_electrolyte: bool
    inhibits: str
    reapplication: str
    attacks: tuple[str, ...]
    helps: tuple[str, ...]
    specifications: tuple[str, ...]
    directions: str
    caution: str
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Electrolyte:
    """A solution with known figures, named by measurements and environments."""

    id: str
    name: str
    electrolyte_class: ElectrolyteClass
    conductivity_S_per_m: float | None
    pH: float | None
    chloride_mg_per_L: float | None
    oxygen_mg_per_L: float | None
    temperature_C: float | None
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Environment:
    """A named exposure.

    ``*_low``/``*_high`` bound the central figure; ``tags`` are facts that rules may ask for
    (``sulfide``, ``ammonia``, ``drinking_water``, ``deaerated``, ``condensing``, ``hot_water``,
    ``road_salt``, ``biofilm``, ``sulfur_dioxide``, ``vibration``, ``uv``...). ``screening_class``
    (harsh, normal, controlled) picks a permissible difference.
    """

    id: str
    name: str
    exposure: Exposure
    electrolyte_class: ElectrolyteClass
    screening_class: str
    temperature_C: float | None
    temperature_low_C: float | None
    temperature_high_C: float | None
    relative_humidity_pct: float | None
    wetness_h_per_year: float | None
    so2_mg_per_m2_d: float | None
    chloride_mg_per_m2_d: float | None
    salt_load_g_per_m2: float | None
    is_sheltered: bool
    conductivity_S_per_m: float | None
    conductivity_low_S_per_m: float | None
    conductivity_high_S_per_m: float | None
    pH: float | None
    pH_low: float | None
    pH_high: float | None
    oxygen_mg_per_L: float | None
    film_thickness_um: float | None
    film_thickness_low_um: float | None
    film_thickness_high_um: float | None
    hours_rain_per_year: float | None
    hours_deliquesced_per_year: float | None
    hours_drying_per_year: float | None
    flow_m_per_s: float | None
    iso9223_category: str
    iso11844_category: str
    isa7104_level: str
    tags: tuple[str, ...]
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Scale:
    """A published series of metals.

    ``kind`` is ``potential``, ``index`` (positive towards the active end) or ``rank`` (1 = most
    active). ``electrolyte_class`` says where it may be used.
    """

    id: str
    name: str
    kind: str
    electrolyte_class: ElectrolyteClass
    reference_electrode: str
    source_id: str
    note: str


@dataclass(frozen=True, slots=True)
class Limit:
    """A published or customary permissible difference on a scale.

    ``screening_class`` is the severity of service to which it applies.
    """

    id: str
    scale_id: str
    screening_class: str
    limit_V: float
    rule: str
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Measurement:
    """One figure with its conditions and source.

    ``subject_kind`` is material, electrode, finish, compound or electrolyte. ``quantity`` is a
    term such as corrosion_potential, anodic_index, activity_rank, density, resistivity, hardness,
    thermal_expansion, tensile_strength, corrosion_rate. ``low``/``high`` give a published range.
    A row with a ``quarantine_reason`` is kept and shown, never used.
    """

    id: str
    subject_kind: str
    subject_id: str
    quantity: str
    state: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    reference_electrode: str
    scale_id: str
    electrolyte_id: str
    temperature_C: float | None
    conditions: str
    source_id: str
    locator: str
    obtained: Obtained
    fitness: Fitness
    plausibility: Plausibility
    quarantine_reason: str
    note: str


@dataclass(frozen=True, slots=True)
class Kinetics:
    """Parameters of one electrode state in one class of electrolyte, sampled together.

    Potentials in V vs SHE at 25 degC, current densities in A/m2, slopes in V per decade.
    ``oxygen_efficiency`` is the share of the oxygen transport limit that the surface can use.
    ``breakdown_*`` bound the pitting or crevice potential of a passive state.
    ``water_reduction_A_per_m2`` is the current density of water reduction at -1.0 V vs SHE.
    """

    id: str
    electrode_id: str
    state: ElectrodeState
    electrolyte_class: ElectrolyteClass
    corrosion_potential_V: float
    corrosion_potential_low_V: float
    corrosion_potential_high_V: float
    corrosion_current_A_per_m2: float
    corrosion_current_low_A_per_m2: float
    corrosion_current_high_A_per_m2: float
    anodic_slope_V: float | None
    cathodic_slope_V: float
    oxygen_efficiency: float
    oxygen_efficiency_low: float
    oxygen_efficiency_high: float
    passive_current_A_per_m2: float | None
    breakdown_potential_V: float | None
    breakdown_potential_low_V: float | None
    breakdown_potential_high_V: float | None
    water_reduction_A_per_m2: float | None
    source_id: str
    locator: str
    obtained: Obtained
    fitness: Fitness
    plausibility: Plausibility
    quarantine_reason: str
    note: str


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule with a trigger in the small language of ``judgement.rules`` (JSON).

    ``severity`` is none, slight, moderate or severe. ``anode`` is ``first`` or ``second`` of the
    trigger's pair, or empty. ``refuses`` on a mandatory rule makes the couple unsuitable.
    """

    id: str
    kind: RuleKind
    name: str
    trigger: str
    severity: str
    anode: str
    refuses: bool
    affects: tuple[str, ...]
    statement: str
    advice: str
    caution: str
    source_id: str
    locator: str
    obtained: Obtained
    note: str


@dataclass(frozen=True, slots=True)
class Mitigation:
    """An option that changes a joint.

    ``transform`` names the change that ``remedies`` applies and ``parameters`` (JSON) its figures.
    ``ends_functions`` are joint functions that it takes away.
    """

    id: str
    name: str
    rank: int
    transform: str
    parameters: str
    applies_when: str
    ends_functions: tuple[str, ...]
    needs_opt_in: tuple[str, ...]
    life_years_low: float | None
    life_years_high: float | None
    inspection: str
    done_badly: str
    directions: str
    caution: str
    has_sourced_efficacy: bool
    source_id: str
    locator: str
    obtained: Obtained
    note: str
