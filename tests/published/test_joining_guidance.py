"""Published and customary guidance on joints, against what the remedies offer.

Each test names its source: a standard with its paragraph as the knowledge base cites it (read in a
reproduction), or "common practice, no source".
"""

from __future__ import annotations

from functools import cache

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Couple, Function, Geometry, Judgement, Verdict, judge
from service.judgement.evidence import citation
from service.judgement.findings import Witness
from service.remedies import Change, Constraints, Mitigations, find_alternatives, find_mitigations
from service.remedies.arrangement import Obstacle
from service.remedies.directions import directions
from tests.seed_catalogue import seed_catalogue

SEA_FRONT = "marine-atmosphere-0-100-m"
SPLASH = "splash-and-tidal-zone"
ALUMINIUM, STEEL, STAINLESS, COPPER = (
    Surface(name) for name in ("al-6082-t6", "steel-s235", "ss-316", "cu-etp")
)
ORDER = (Verdict.SUITABLE, Verdict.CONDITIONAL, Verdict.UNDETERMINED, Verdict.UNSUITABLE)


@pytest.fixture
def catalogue() -> Catalogue:
    return seed_catalogue()


def coated(material_id: str, finish_id: str, thickness_um: float) -> Surface:
    return Surface(material_id, (Layer(finish_id, thickness_um),))


def judged(couple: Couple, environment_id: str = SEA_FRONT) -> Judgement:
    catalogue = seed_catalogue()
    return judge([couple], catalogue.environments[environment_id], catalogue)[0]


@cache
def measures(couple: Couple, environment_id: str = SEA_FRONT) -> Mitigations:
    catalogue = seed_catalogue()
    return find_mitigations(couple, catalogue.environments[environment_id], catalogue)


def ranked(found: Mitigations) -> list[str]:
    return [remedy.measures[0].id for remedy in found.ranking if len(remedy.measures) == 1]


# MIL-STD-1250A, 5.6 and 5.7: where dissimilar metals must meet, plate the cathodic member with a metal
# compatible with the anode or interpose a compatible gasket or washer (5.7a), interpose a non-absorbing inert
# gasket or washer where the couple need not conduct (5.7b), seal (5.7-5.8), and mind that attack goes by the
# ratio of cathode to anode area (5.6f).


@pytest.mark.parametrize(
    "measure", ["closer-alloy", "plate-cathode-compatible", "isolating-washer", "seal-fillet", "wet-assemble"]
)
def test_the_measures_of_the_hierarchy_lift_aluminium_against_steel(measure: str) -> None:
    found = measures(Couple(ALUMINIUM, STEEL), SPLASH)
    assert found.before.verdict is Verdict.UNSUITABLE
    assert measure in ranked(found)


@pytest.mark.parametrize(
    ("measure", "paragraph"),
    [
        ("plate-cathode-compatible", "5.7a"),
        ("isolating-washer", "5.7b"),
        ("seal-fillet", "5.7-5.8"),
        ("shrink-cathode", "5.6f"),
        ("paint-both", "5.6e"),
    ],
)
def test_the_measures_of_the_hierarchy_name_their_paragraph(
    measure: str, paragraph: str, catalogue: Catalogue
) -> None:
    record = catalogue.mitigations[measure]
    cited = citation(catalogue.sources[record.source_id], record.locator)
    assert "MIL-STD-1250A" in cited
    assert paragraph in cited
    assert record.has_sourced_efficacy


def test_avoiding_dissimilar_metals_comes_before_living_with_them() -> None:
    """MIL-STD-1250A 5.6-5.7: similar metals are the first choice."""
    order = ranked(measures(Couple(ALUMINIUM, STEEL)))
    assert order[0] == "same-alloy"
    assert order.index("plate-cathode-compatible") < order.index("seal-fillet")


def test_the_plated_cathode_is_nearer_to_the_anode(catalogue: Catalogue) -> None:
    """MIL-STD-1250A 5.7a: a metal compatible to the anode."""
    found = measures(Couple(ALUMINIUM, STEEL))
    plated = next(each for each in found.ranking if each.measures[0].id == "plate-cathode-compatible")
    before = found.before.judgement.findings[Witness.SCREENING].figures["difference_mV"]
    after = plated.after.judgement.findings[Witness.SCREENING].figures["difference_mV"]
    assert after < before


def test_attack_goes_by_the_ratio_of_cathode_to_anode() -> None:
    """MIL-STD-1250A 5.6f."""
    rates = []
    for cathode_m2 in (0.001, 0.01, 0.1):
        couple = Couple(STEEL, COPPER, first_area_m2=0.01, second_area_m2=cathode_m2)
        lane = judged(couple, "seawater-quiescent").kinetics.lanes[0]
        rates.append(lane.figures["galvanic_rate_um_per_year"]["median"])
    assert rates[1] > 3.0 * rates[0]
    assert rates[2] > 3.0 * rates[1]


@pytest.mark.parametrize("place", [SEA_FRONT, "seawater-quiescent"])
def test_paint_on_the_anode_alone_is_no_remedy(place: str) -> None:
    """Common practice, no source: a gap in the paint takes the whole current of the bare cathode."""
    painted = judged(Couple(Surface("al-6082-t6", (Layer("powder-coat", 80.0),)), COPPER), place)
    assert painted.outcome.verdict is Verdict.UNSUITABLE
    found = measures(Couple(ALUMINIUM, COPPER), place)
    coats = [remedy for remedy in found.ranking if remedy.measures[0].id == "paint-cathode"]
    for remedy in coats:
        assert remedy.mistakes[0].judgement.outcome.verdict is Verdict.UNSUITABLE


def test_a_fillet_is_a_quarter_of_an_inch_at_least(catalogue: Catalogue) -> None:
    """TM 55-1500-345-23: fillet width of 1/4 in, about 6 mm."""
    found = measures(Couple(ALUMINIUM, STEEL))
    seal = next(each for each in found.ranking if each.measures[0].id == "seal-fillet")
    (extent,) = [each for each in seal.conditions if each.code == "extend-seal"]
    assert float(extent.action.split(" mm")[0].rsplit(" ", 1)[1]) >= 6.0
    assert "tm-55-1500-345-23" in catalogue.mitigations["seal-fillet"].locator


# MIL-DTL-5541F, 1.2.2: class 3 where low electrical resistance is needed, class 1A for protection.


def test_class_3_for_joints_that_conduct_and_class_1a_elsewhere(catalogue: Catalogue) -> None:
    def films(function: Function) -> set[str]:
        couple = Couple(ALUMINIUM, STAINLESS, functions=(function,))
        constraints = Constraints(second=Change.NOTHING, allowed_substances=("CrVI",))
        found = find_alternatives(
            couple, catalogue.environments["urban-atmosphere"], constraints, catalogue, limit=1000
        )
        couples = [each for row in found.ranking for each in (row.candidate.couple, *row.alike)]
        return {layer.finish_id for each in couples for layer in each.first.layers}

    conducting, structural = films(Function.ELECTRICAL_BOND), films(Function.STRUCTURAL)
    assert {"tcp-3", "chem-film-3"} <= conducting
    assert {"tcp-1a", "chem-film-1a"}.isdisjoint(conducting)
    assert {"tcp-1a", "tcp-3", "chem-film-1a"} <= structural


def test_the_conversion_film_is_looked_through(catalogue: Catalogue) -> None:
    """MIL-DTL-14072F 3.13.1a: the film does not change the place of the metal beneath."""
    bare = judged(Couple(ALUMINIUM, COPPER)).findings[Witness.SCREENING]
    filmed = judged(Couple(coated("al-6082-t6", "tcp-3", 0.1), COPPER)).findings[Witness.SCREENING]
    assert bare.figures["difference_mV"] == filmed.figures["difference_mV"]
    assert "MIL-DTL-14072F" in catalogue.mitigations["conversion-coat"].locator


# Tin against gold: like is mated with like (Chudnovsky 2017, abstract, seventh rule, as the rule cites it).


def test_contacts_are_mated_like_with_like(catalogue: Catalogue) -> None:
    tin, gold = coated("cu-etp", "sn-matte", 5.0), coated("cu-etp", "au-hard-over-ni", 0.76)
    signal = (Function.SIGNAL_CONTACT,)
    mixed = judged(Couple(tin, gold, functions=signal), "vehicle-cabin")
    assert mixed.outcome.verdict is Verdict.UNSUITABLE
    for alike in (tin, gold):
        mated = judged(Couple(alike, alike, functions=signal), "vehicle-cabin")
        assert ORDER.index(mated.outcome.verdict) < ORDER.index(Verdict.UNSUITABLE)
    place = catalogue.environments["vehicle-cabin"]
    found = find_alternatives(
        Couple(tin, gold, functions=signal), place, Constraints(), catalogue, limit=1000
    )
    tins, golds = {"tin", "tin-lead", "tin-silver-copper", "tin-bismuth"}, {"gold"}
    for row in found.ranking:
        outer = {
            catalogue.finishes[side.layers[0].finish_id].outer_electrode_id
            for side in (row.candidate.couple.first, row.candidate.couple.second)
            if side.layers
        }
        assert not (outer & tins and outer & golds)


# Aluminium with copper in terminations: only in devices identified for the pair (NEC 110.14 as quoted in a
# trade article); the local code decides. Tinned and nickel-plated copper come with conflicting evidence.


def test_bare_aluminium_and_bare_copper_are_refused_in_a_termination() -> None:
    result = judged(Couple(ALUMINIUM, COPPER, functions=(Function.POWER_CONTACT,)), "gasketed-enclosure")
    assert result.outcome.verdict is Verdict.UNSUITABLE
    assert result.outcome.deciding is Witness.MANDATORY


@pytest.mark.parametrize("name", ["tin-on-copper-for-aluminium", "nickel-on-copper-for-aluminium"])
def test_plated_copper_is_offered_as_conditional_with_its_evidence(name: str, catalogue: Catalogue) -> None:
    joint = Couple(ALUMINIUM, COPPER, functions=(Function.POWER_CONTACT,))
    found = measures(joint, "gasketed-enclosure")
    remedy = next(each for each in found.ranking if each.measures[0].id == name)
    assert remedy.after.verdict is Verdict.CONDITIONAL
    assert not catalogue.mitigations[name].has_sourced_efficacy
    assert any("local code" in caution for caution in remedy.cautions)


def test_the_conflict_about_tin_and_nickel_is_told(catalogue: Catalogue) -> None:
    """R. L. Jackson, IEE Proc. C 129 (1982) 177, abstract."""
    assert "nickel-plated joints stable and tin-plated ones rising" in (
        catalogue.mitigations["tin-on-copper-for-aluminium"].note
    )


def test_a_transition_piece_is_offered_for_a_termination() -> None:
    """NEC 110.14 as quoted: a device identified for both metals; each conductor meets its like."""
    found = measures(Couple(ALUMINIUM, COPPER, functions=(Function.POWER_CONTACT,)), "gasketed-enclosure")
    piece = next(each for each in found.ranking if each.measures[0].id == "bimetal-transition")
    assert all(couple.first == couple.second for couple in piece.after.arrangement.couples)


# Fasteners: the smaller part should be the cathode (MIL-DTL-14072F, 3.13.1b).


@pytest.mark.parametrize("place", [SEA_FRONT, "marine-atmosphere-1-10-km", "urban-atmosphere"])
def test_a_stainless_screw_in_aluminium_is_better_than_an_aluminium_screw_in_stainless(place: str) -> None:
    screw = judged(Couple(ALUMINIUM, STAINLESS, geometry=Geometry.FASTENER), place)
    rivet = judged(Couple(STAINLESS, ALUMINIUM, geometry=Geometry.FASTENER), place)
    assert ORDER.index(screw.outcome.verdict) < ORDER.index(rivet.outcome.verdict)


def test_a_stainless_screw_is_set_wet_or_sealed_by_the_sea() -> None:
    """Common practice, no source (TM 55-1500-345-23 asks for wet primer on dissimilar metals)."""
    found = measures(Couple(ALUMINIUM, STAINLESS, geometry=Geometry.FASTENER), "harbour-quay-spray")
    tried = {entry.measures[0].id for entry in found.insufficient} | set(ranked(found))
    assert {"wet-assemble", "seal-fillet", "wet-primer-fasteners"} <= tried


# Magnesium: MIL-STD-186F 4.14 asks for a 5056 washer that overlaps by 0.125 in (3.2 mm), set in wet primer.


def test_magnesium_gets_a_5056_washer(catalogue: Catalogue) -> None:
    found = measures(Couple(Surface("mg-az91d"), STEEL), "marine-atmosphere-1-10-km")
    washer = next(each for each in found.ranking if each.measures[0].id == "compatible-washer")
    pieces = {washer.after.arrangement.couples[0].second.material_id}
    assert pieces == {"al-5056-h38"}
    assert "3.2 mm" in directions(catalogue.mitigations["compatible-washer"])[1].text


# Protective earth: the continuity of protective conductors (IEC 60364-5-54 and local codes, from memory).


@pytest.mark.parametrize("measure", ["isolating-washer", "sleeved-fastener", "separate-barrier-tape"])
def test_nothing_isolates_a_protective_earth(measure: str) -> None:
    found = measures(Couple(ALUMINIUM, STEEL, functions=(Function.PROTECTIVE_EARTH,)))
    assert measure not in ranked(found)
    (entry,) = [each for each in found.infeasible if each.measures[0].id == measure]
    assert entry.obstacle is Obstacle.REFUSED


def test_hardened_steel_takes_a_coat_without_a_bath_before_a_plated_one(catalogue: Catalogue) -> None:
    """ASTM B633, scope: no zinc electroplate above 1700 MPa. Common practice, no source: zinc flake."""
    couple = Couple(Surface("steel-300m"), ALUMINIUM)
    constraints = Constraints(second=Change.NOTHING)
    found = find_alternatives(couple, catalogue.environments[SEA_FRONT], constraints, catalogue, limit=1000)
    couples = [each for row in found.ranking for each in (row.candidate.couple, *row.alike)]
    finishes = {layer.finish_id for each in couples for layer in each.first.layers}
    assert "zn-flake" in finishes
    assert finishes.isdisjoint({"zn-plain", "zn-passivated-clear", "zn-black"})
