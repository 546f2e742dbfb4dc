"""The tables of the knowledge base, one per record."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "knowledge_tables"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Create the tables in the order of their references."""
    op.create_table(
        "sources",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("authors", sa.Text(), nullable=False),
        sa.Column("publisher", sa.Text(), nullable=False),
        sa.Column("year", sa.Integer()),
        sa.Column("edition", sa.Text(), nullable=False),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("doi", sa.Text(), nullable=False),
        sa.Column("url", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_sources"),
    )
    op.create_table(
        "electrodes",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("family", sa.Text(), nullable=False),
        sa.Column("representative_material_id", sa.Text()),
        sa.Column("dissolution", sa.Text(), nullable=False),
        sa.Column("iso9223_metal", sa.Text(), nullable=False),
        sa.Column("iso9223_factor", sa.Double()),
        sa.Column("pitting_factor_low", sa.Double()),
        sa.Column("pitting_factor_high", sa.Double()),
        sa.Column("decay_exponent_low", sa.Double()),
        sa.Column("decay_exponent_high", sa.Double()),
        sa.Column("is_inert", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_electrodes_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_electrodes"),
    )
    op.create_table(
        "materials",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("family", sa.Text(), nullable=False),
        sa.Column("electrode_id", sa.Text()),
        sa.Column("composition", sa.Text(), nullable=False),
        sa.Column("temper", sa.Text(), nullable=False),
        sa.Column("strength_MPa", sa.Double()),
        sa.Column("is_conductive", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["electrode_id"], ["electrodes.id"], name="fk_materials_electrode_id_electrodes"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_materials_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_materials"),
    )
    op.create_table(
        "designations",
        sa.Column("material_id", sa.Text(), nullable=False),
        sa.Column("system", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["material_id"], ["materials.id"], name="fk_designations_material_id_materials"
        ),
        sa.PrimaryKeyConstraint("material_id", "system", "text", name="pk_designations"),
    )
    op.create_table(
        "finishes",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("process", sa.Text(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("outer_electrode_id", sa.Text()),
        sa.Column("is_conductive", sa.Boolean(), nullable=False),
        sa.Column("is_looked_through", sa.Boolean(), nullable=False),
        sa.Column("thickness_min_um", sa.Double()),
        sa.Column("thickness_typical_um", sa.Double()),
        sa.Column("thickness_max_um", sa.Double()),
        sa.Column("pore_free_above_um", sa.Double()),
        sa.Column("underplate_id", sa.Text()),
        sa.Column("contact_grade", sa.Boolean(), nullable=False),
        sa.Column("solderable", sa.Text(), nullable=False),
        sa.Column("max_temperature_C", sa.Double()),
        sa.Column("wear_class", sa.Text(), nullable=False),
        sa.Column("whisker_risk", sa.Text(), nullable=False),
        sa.Column("embrittlement_risk", sa.Text(), nullable=False),
        sa.Column("rohs", sa.Text(), nullable=False),
        sa.Column("reach", sa.Text(), nullable=False),
        sa.Column("substances", sa.JSON(), nullable=False),
        sa.Column("specifications", sa.JSON(), nullable=False),
        sa.Column("cost_tier", sa.Integer()),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["outer_electrode_id"], ["electrodes.id"], name="fk_finishes_outer_electrode_id_electrodes"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_finishes_source_id_sources"),
        sa.ForeignKeyConstraint(
            ["underplate_id"],
            ["finishes.id"],
            name="fk_finishes_underplate_id_finishes",
            initially="DEFERRED",
            deferrable=True,
        ),
        sa.PrimaryKeyConstraint("id", name="pk_finishes"),
    )
    op.create_table(
        "finish_substrates",
        sa.Column("finish_id", sa.Text(), nullable=False),
        sa.Column("substrate_family", sa.Text(), nullable=False),
        sa.Column("suitability", sa.Text(), nullable=False),
        sa.Column("polarity", sa.Text(), nullable=False),
        sa.Column("underplate_id", sa.Text()),
        sa.Column("failure_mode", sa.Text(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["finish_id"], ["finishes.id"], name="fk_finish_substrates_finish_id_finishes"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_finish_substrates_source_id_sources"),
        sa.ForeignKeyConstraint(
            ["underplate_id"], ["finishes.id"], name="fk_finish_substrates_underplate_id_finishes"
        ),
        sa.PrimaryKeyConstraint("finish_id", "substrate_family", name="pk_finish_substrates"),
    )
    op.create_table(
        "compounds",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("composition", sa.Text(), nullable=False),
        sa.Column("is_conductive", sa.Boolean(), nullable=False),
        sa.Column("temperature_min_C", sa.Double()),
        sa.Column("temperature_max_C", sa.Double()),
        sa.Column("blocks_electrolyte", sa.Boolean(), nullable=False),
        sa.Column("inhibits", sa.Text(), nullable=False),
        sa.Column("reapplication", sa.Text(), nullable=False),
        sa.Column("attacks", sa.JSON(), nullable=False),
        sa.Column("helps", sa.JSON(), nullable=False),
        sa.Column("specifications", sa.JSON(), nullable=False),
        sa.Column("directions", sa.Text(), nullable=False),
        sa.Column("caution", sa.Text(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_compounds_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_compounds"),
    )
    op.create_table(
        "electrolytes",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("electrolyte_class", sa.Text(), nullable=False),
        sa.Column("conductivity_S_per_m", sa.Double()),
        sa.Column("pH", sa.Double()),
        sa.Column("chloride_mg_per_L", sa.Double()),
        sa.Column("oxygen_mg_per_L", sa.Double()),
        sa.Column("temperature_C", sa.Double()),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_electrolytes_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_electrolytes"),
    )
    op.create_table(
        "environments",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("exposure", sa.Text(), nullable=False),
        sa.Column("electrolyte_class", sa.Text(), nullable=False),
        sa.Column("screening_class", sa.Text(), nullable=False),
        sa.Column("temperature_C", sa.Double()),
        sa.Column("temperature_low_C", sa.Double()),
        sa.Column("temperature_high_C", sa.Double()),
        sa.Column("relative_humidity_pct", sa.Double()),
        sa.Column("wetness_h_per_year", sa.Double()),
        sa.Column("so2_mg_per_m2_d", sa.Double()),
        sa.Column("chloride_mg_per_m2_d", sa.Double()),
        sa.Column("salt_load_g_per_m2", sa.Double()),
        sa.Column("is_sheltered", sa.Boolean(), nullable=False),
        sa.Column("conductivity_S_per_m", sa.Double()),
        sa.Column("conductivity_low_S_per_m", sa.Double()),
        sa.Column("conductivity_high_S_per_m", sa.Double()),
        sa.Column("pH", sa.Double()),
        sa.Column("pH_low", sa.Double()),
        sa.Column("pH_high", sa.Double()),
        sa.Column("oxygen_mg_per_L", sa.Double()),
        sa.Column("film_thickness_um", sa.Double()),
        sa.Column("film_thickness_low_um", sa.Double()),
        sa.Column("film_thickness_high_um", sa.Double()),
        sa.Column("hours_rain_per_year", sa.Double()),
        sa.Column("hours_deliquesced_per_year", sa.Double()),
        sa.Column("hours_drying_per_year", sa.Double()),
        sa.Column("flow_m_per_s", sa.Double()),
        sa.Column("iso9223_category", sa.Text(), nullable=False),
        sa.Column("iso11844_category", sa.Text(), nullable=False),
        sa.Column("isa7104_level", sa.Text(), nullable=False),
        sa.Column("tags", sa.JSON(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_environments_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_environments"),
    )
    op.create_table(
        "scales",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("electrolyte_class", sa.Text(), nullable=False),
        sa.Column("reference_electrode", sa.Text(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_scales_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_scales"),
    )
    op.create_table(
        "limits",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("scale_id", sa.Text(), nullable=False),
        sa.Column("screening_class", sa.Text(), nullable=False),
        sa.Column("limit_V", sa.Double(), nullable=False),
        sa.Column("rule", sa.Text(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["scale_id"], ["scales.id"], name="fk_limits_scale_id_scales"),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_limits_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_limits"),
    )
    op.create_table(
        "measurements",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("subject_kind", sa.Text(), nullable=False),
        sa.Column("subject_id", sa.Text(), nullable=False),
        sa.Column("quantity", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("value", sa.Double()),
        sa.Column("low", sa.Double()),
        sa.Column("high", sa.Double()),
        sa.Column("unit", sa.Text(), nullable=False),
        sa.Column("reference_electrode", sa.Text(), nullable=False),
        sa.Column("scale_id", sa.Text()),
        sa.Column("electrolyte_id", sa.Text()),
        sa.Column("temperature_C", sa.Double()),
        sa.Column("conditions", sa.Text(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("fitness", sa.Text(), nullable=False),
        sa.Column("plausibility", sa.Text(), nullable=False),
        sa.Column("quarantine_reason", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["electrolyte_id"], ["electrolytes.id"], name="fk_measurements_electrolyte_id_electrolytes"
        ),
        sa.ForeignKeyConstraint(["scale_id"], ["scales.id"], name="fk_measurements_scale_id_scales"),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_measurements_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_measurements"),
    )
    op.create_table(
        "kinetics",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("electrode_id", sa.Text(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("electrolyte_class", sa.Text(), nullable=False),
        sa.Column("corrosion_potential_V", sa.Double(), nullable=False),
        sa.Column("corrosion_potential_low_V", sa.Double(), nullable=False),
        sa.Column("corrosion_potential_high_V", sa.Double(), nullable=False),
        sa.Column("corrosion_current_A_per_m2", sa.Double(), nullable=False),
        sa.Column("corrosion_current_low_A_per_m2", sa.Double(), nullable=False),
        sa.Column("corrosion_current_high_A_per_m2", sa.Double(), nullable=False),
        sa.Column("anodic_slope_V", sa.Double()),
        sa.Column("cathodic_slope_V", sa.Double(), nullable=False),
        sa.Column("oxygen_efficiency", sa.Double(), nullable=False),
        sa.Column("oxygen_efficiency_low", sa.Double(), nullable=False),
        sa.Column("oxygen_efficiency_high", sa.Double(), nullable=False),
        sa.Column("passive_current_A_per_m2", sa.Double()),
        sa.Column("breakdown_potential_V", sa.Double()),
        sa.Column("breakdown_potential_low_V", sa.Double()),
        sa.Column("breakdown_potential_high_V", sa.Double()),
        sa.Column("water_reduction_A_per_m2", sa.Double()),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("fitness", sa.Text(), nullable=False),
        sa.Column("plausibility", sa.Text(), nullable=False),
        sa.Column("quarantine_reason", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["electrode_id"], ["electrodes.id"], name="fk_kinetics_electrode_id_electrodes"
        ),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_kinetics_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_kinetics"),
    )
    op.create_table(
        "rules",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("trigger", sa.Text(), nullable=False),
        sa.Column("severity", sa.Text(), nullable=False),
        sa.Column("anode", sa.Text(), nullable=False),
        sa.Column("refuses", sa.Boolean(), nullable=False),
        sa.Column("affects", sa.JSON(), nullable=False),
        sa.Column("statement", sa.Text(), nullable=False),
        sa.Column("advice", sa.Text(), nullable=False),
        sa.Column("caution", sa.Text(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_rules_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_rules"),
    )
    op.create_table(
        "mitigations",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.Column("transform", sa.Text(), nullable=False),
        sa.Column("parameters", sa.Text(), nullable=False),
        sa.Column("applies_when", sa.Text(), nullable=False),
        sa.Column("ends_functions", sa.JSON(), nullable=False),
        sa.Column("needs_opt_in", sa.JSON(), nullable=False),
        sa.Column("life_years_low", sa.Double()),
        sa.Column("life_years_high", sa.Double()),
        sa.Column("inspection", sa.Text(), nullable=False),
        sa.Column("done_badly", sa.Text(), nullable=False),
        sa.Column("directions", sa.Text(), nullable=False),
        sa.Column("caution", sa.Text(), nullable=False),
        sa.Column("has_sourced_efficacy", sa.Boolean(), nullable=False),
        sa.Column("source_id", sa.Text(), nullable=False),
        sa.Column("locator", sa.Text(), nullable=False),
        sa.Column("obtained", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["source_id"], ["sources.id"], name="fk_mitigations_source_id_sources"),
        sa.PrimaryKeyConstraint("id", name="pk_mitigations"),
    )
    with op.batch_alter_table("electrodes") as electrodes:  # closes the ring electrode - material
        electrodes.create_foreign_key(
            "fk_electrodes_representative_material_id_materials",
            "materials",
            ["representative_material_id"],
            ["id"],
            deferrable=True,
            initially="DEFERRED",
        )


def downgrade() -> None:
    """Drop them in the opposite order."""
    with op.batch_alter_table("electrodes") as electrodes:
        electrodes.drop_constraint("fk_electrodes_representative_material_id_materials", type_="foreignkey")
    op.drop_table("mitigations")
    op.drop_table("rules")
    op.drop_table("kinetics")
    op.drop_table("measurements")
    op.drop_table("limits")
    op.drop_table("scales")
    op.drop_table("environments")
    op.drop_table("electrolytes")
    op.drop_table("compounds")
    op.drop_table("finish_substrates")
    op.drop_table("finishes")
    op.drop_table("designations")
    op.drop_table("materials")
    op.drop_table("electrodes")
    op.drop_table("sources")
