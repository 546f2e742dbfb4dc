from __future__ import annotations

from typing import Any

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Surface
from service.chemistry.contact import constriction_resistance_ohm
from service.judgement.couples import Contact, Couple, Function
from service.judgement.findings import Finding
from service.judgement.function_witness import WIRING_CAUTION, function_findings
from service.judgement.measured import figure_of
from tests.factories.couples import COAST, COPPER, DRY, STEEL, coated

POWER = (Function.POWER_CONTACT,)
RADIO = (Function.RF,)


def reported(catalogue: Catalogue, couple: Couple, environment_id: str = DRY) -> Finding:
    return function_findings(couple, catalogue.environments[environment_id], catalogue)


def contact(functions: tuple[Function, ...] = POWER, **duty: Any) -> Couple:
    return Couple(COPPER, COPPER, functions=functions, contact=Contact(**duty))


def test_a_joint_without_electrical_function_is_none_of_its_business(catalogue: Catalogue) -> None:
    assert not reported(catalogue, Couple(COPPER, COPPER)).applies


def test_resistance_follows_the_force(catalogue: Catalogue) -> None:
    weak, firm = (reported(catalogue, contact(force_N=force)) for force in (10.0, 1000.0))
    assert weak.figures["contact_resistance_mOhm"] == pytest.approx(
        10.0 * firm.figures["contact_resistance_mOhm"], rel=0.01
    )
    assert {table for table, _ in weak.evidence} == {"measurements"}


def test_resistance_is_that_of_holm(catalogue: Catalogue) -> None:
    finding = reported(catalogue, contact(force_N=100.0))
    rho, hardness = (figure_of(catalogue.measurements[record]) for _, record in finding.evidence)
    assert rho is not None
    assert hardness is not None
    expected = constriction_resistance_ohm(rho, rho, hardness * 9.80665e6, 100.0)
    assert finding.figures["contact_resistance_mOhm"] == pytest.approx(float(expected) * 1e3, rel=0.005)


def test_a_current_drops_voltage_and_heats(catalogue: Catalogue) -> None:
    duty = contact(force_N=100.0, current_A=100.0, voltage_budget_V=0.02)
    figures = reported(catalogue, duty).figures
    ohm = figures["contact_resistance_mOhm"] * 1e-3
    assert figures["voltage_drop_mV"] == pytest.approx(100.0 * ohm * 1e3)
    assert figures["heat_W"] == pytest.approx(1e4 * ohm)
    assert figures["hottest_spot_C"] > 20.0
    assert figures["voltage_budget_left_pct"] == pytest.approx(100.0 * (1.0 - 100.0 * ohm / 0.02))


def test_a_hot_spot_says_how_far_it_is_from_softening(catalogue: Catalogue) -> None:
    cool, hot = (reported(catalogue, contact(force_N=force, current_A=300.0)) for force in (500.0, 0.5))
    assert cool.figures["softening_temperature_C"] == pytest.approx(
        190.0, rel=0.1
    )  # copper, Holm, from memory
    assert cool.figures["softening_margin_K"] > 0.0 > hot.figures["softening_margin_K"]
    codes = [{condition.code for condition in finding.conditions} for finding in (cool, hot)]
    assert "spread-the-contact" in codes[1] - codes[0]
    assert ("measurements", "softening-cu-etp") in cool.evidence


def test_a_metal_without_a_softening_voltage_has_no_margin(catalogue: Catalogue) -> None:
    duty = Contact(force_N=500.0, current_A=300.0)
    finding = reported(catalogue, Couple(STEEL, STEEL, functions=POWER, contact=duty))
    assert finding.figures["hottest_spot_C"] > 20.0
    assert "softening_margin_K" not in finding.figures


def test_a_warm_joint_has_a_warmer_spot(catalogue: Catalogue) -> None:
    duty = Contact(force_N=50.0, current_A=200.0)
    cool, warm = (
        reported(
            catalogue,
            Couple(COPPER, COPPER, functions=POWER, contact=duty, joint_temperature_C=temperature),
        ).figures["hottest_spot_C"]
        for temperature in (20.0, 80.0)
    )
    assert warm > cool + 50.0


@pytest.mark.parametrize(("limit_ohm", "is_met"), [(1e-6, False), (1.0, True)])
def test_a_bond_limit_is_met_or_not_and_the_force_for_it_is_given(
    limit_ohm: float, *, is_met: bool, catalogue: Catalogue
) -> None:
    figures = reported(
        catalogue, contact((Function.ELECTRICAL_BOND,), force_N=50.0, bond_limit_ohm=limit_ohm)
    ).figures
    assert figures["meets_bond_limit"] is is_met
    assert (figures["minimum_force_N"] <= 50.0) is is_met
    assert all(entry["is_met"] in {True, False} for entry in figures["bond_classes"])


def test_without_force_or_figures_it_says_what_is_missing(catalogue: Catalogue) -> None:
    assert "contact force" in reported(catalogue, contact()).missing[0]
    unknown = Couple(COPPER, Surface(None), functions=POWER, contact=Contact(force_N=10.0))
    assert "hardness" in reported(catalogue, unknown).missing[0]


def test_the_coat_is_the_contact_metal(catalogue: Catalogue) -> None:
    bare, tinned = (
        reported(catalogue, Couple(COPPER, side, functions=POWER, contact=Contact(force_N=10.0)))
        for side in (COPPER, coated("cu-etp", "sn-matte", 5.0))
    )
    tin = catalogue.electrodes["tin"].representative_material_id
    used = {catalogue.measurements[record].subject_id for _, record in tinned.evidence}
    assert used == {"cu-etp", tin}
    assert tinned.figures["contact_resistance_mOhm"] != bare.figures["contact_resistance_mOhm"]


def test_a_coat_on_an_open_basis_without_metal_is_missing(catalogue: Catalogue) -> None:
    painted = Surface(None, coated("cu-etp", "powder-coat").layers)
    couple = Couple(COPPER, painted, functions=POWER, contact=Contact(force_N=10.0))
    assert any("hardness" in entry for entry in reported(catalogue, couple).missing)


def test_an_insulating_finish_must_be_kept_off_the_contact_face(catalogue: Catalogue) -> None:
    painted = coated("al-6082-t6", "powder-coat")
    finding = reported(catalogue, Couple(painted, COPPER, functions=(Function.PROTECTIVE_EARTH,)))
    assert [condition.code for condition in finding.conditions] == ["bare-contact-face"]
    assert "first side" in finding.conditions[0].action


def test_power_and_earth_come_with_the_caution_on_wiring(catalogue: Catalogue) -> None:
    assert reported(catalogue, contact()).cautions == (WIRING_CAUTION,)
    assert reported(catalogue, contact((Function.SIGNAL_CONTACT,))).cautions == ()


def test_products_of_the_carriers_in_the_receive_bands_are_listed(catalogue: Catalogue) -> None:
    # 2 x 935 - 960 = 910 MHz is the third-order product of the two carriers
    couple = contact(RADIO, carriers_MHz=(935.0, 960.0), receive_bands_MHz=((905.0, 915.0),))
    finding = reported(catalogue, couple, COAST)
    assert {"order": 3, "frequency_MHz": 910.0} in finding.figures["intermodulation_products"]
    assert "lowest of order 3" in finding.statement


def test_a_band_that_no_product_meets_is_said_so(catalogue: Catalogue) -> None:
    couple = contact(RADIO, carriers_MHz=(935.0, 960.0), receive_bands_MHz=((10.0, 11.0),))
    assert "No product" in reported(catalogue, couple).statement


@pytest.mark.parametrize(
    "duty",
    [
        {},
        {"carriers_MHz": (935.0,), "receive_bands_MHz": ((905.0, 915.0),)},
        {"carriers_MHz": (935.0, 960.0)},
        {"carriers_MHz": (935.0, -1.0), "receive_bands_MHz": ((905.0, 915.0),)},
    ],
    ids=str,
)
def test_without_usable_carriers_and_bands_it_says_so(duty: dict[str, Any], catalogue: Catalogue) -> None:
    assert any("carriers" in entry for entry in reported(catalogue, contact(RADIO, **duty)).missing)
