from __future__ import annotations

from service.assemblies.network import Member, solve_network
from service.assemblies.network_findings import Effect, PartFinding, part_findings
from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Function, Severity


def findings(
    catalogue: Catalogue, *members: Member, place: str = "seawater-quiescent"
) -> dict[str, PartFinding]:
    network = solve_network(members, catalogue.environments[place], catalogue)
    return {finding.part: finding for finding in part_findings(network, catalogue, DEFAULT_POLICY)}


def test_who_is_attacked_who_is_protected_and_by_whom(catalogue: Catalogue) -> None:
    found = findings(
        catalogue,
        Member("anode", Surface("zn-pure"), 0.3),
        Member("hull", Surface("steel-s355"), 0.5),
        Member("screen", Surface("cu-etp"), 0.1),
    )
    assert found["anode"].effect is Effect.ATTACKED
    assert found["anode"].severity is Severity.SEVERE
    assert {name for name, _ in found["anode"].partners} == {"hull", "screen"}
    assert found["hull"].effect is Effect.PROTECTED
    assert found["hull"].partners == (("anode", 1.0),)
    assert found["hull"].rate_um_per_year.high == 0.0
    assert found["hull"].dissolution.median < 0.9
    assert found["screen"].severity is Severity.NONE


def test_like_metals_leave_each_other_alone(catalogue: Catalogue) -> None:
    found = findings(
        catalogue, *(Member(name, Surface("cu-etp"), 0.1) for name in "ABC"), place="sodium-chloride-3-5"
    )
    assert {finding.effect for finding in found.values()} == {Effect.UNCHANGED}
    assert {finding.severity for finding in found.values()} == {Severity.NONE}


def test_each_part_is_told_under_its_worst_states(catalogue: Catalogue) -> None:
    found = findings(
        catalogue,
        Member("plate", Surface("al-5083-h116"), 0.1),
        Member("pin", Surface("ss-316l"), 0.1),
        Member("bolt", Surface("ss-duplex-2205"), 0.1),
    )
    assert found["plate"].solution == "with biofilm"


def test_a_seal_counts_the_deepest_point(catalogue: Catalogue) -> None:
    def loss(function: Function) -> float:
        return findings(
            catalogue,
            Member("face", Surface("steel-s355"), 0.1, (function,)),
            Member("pipe", Surface("cu-etp"), 0.1),
        )["face"].loss_um.high

    assert loss(Function.SEAL) > loss(Function.STRUCTURAL)


def test_a_coat_is_spent_and_no_more(catalogue: Catalogue) -> None:
    coated = Surface("steel-s355", (Layer("zn-hdg", 85.0),))
    found = findings(catalogue, Member("coated", coated, 0.1), Member("tube", Surface("cu-etp"), 1.0))[
        "coated"
    ]
    assert found.allowance_basis == "thickness of the coat"
    assert found.allowance_um == 85.0
    assert found.severity is Severity.MODERATE


def test_stated_lives_and_allowances_hold(catalogue: Catalogue) -> None:
    def found(**more: float) -> PartFinding:
        steel = Member("steel", Surface("steel-s355"), 0.1, **more)  # type: ignore[arg-type]
        return findings(catalogue, steel, Member("tube", Surface("cu-etp"), 0.1))["steel"]

    assert found(design_life_years=20.0).loss_um.median > found(design_life_years=2.0).loss_um.median
    assert found(section_allowance_um=77.0).allowance_um == 77.0


def test_a_network_that_abstains_finds_nothing(catalogue: Catalogue) -> None:
    assert findings(catalogue, Member("a", Surface("cu-etp"), 0.1), place="clean-room") == {}
