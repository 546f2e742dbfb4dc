from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import DEFAULT_POLICY, Couple, Function, Verdict, judge
from service.remedies.constraints import Constraints
from service.remedies.envelopes import Envelope, Member, find_envelope
from tests.factories.remedies import COPPER, SEA_FRONT, STAINLESS, STEEL, couple_of
from tests.seed_catalogue import seed_catalogue

ORDER = (Verdict.SUITABLE, Verdict.CONDITIONAL, Verdict.UNDETERMINED, Verdict.UNSUITABLE)


@cache
def found(couple: Couple, accept: Verdict = Verdict.CONDITIONAL) -> Envelope:
    catalogue = seed_catalogue()
    return find_envelope(
        couple, catalogue.environments[SEA_FRONT], catalogue, constraints=Constraints(accept=accept)
    )


def corners(member: Member) -> list[Surface]:
    """Surfaces at the ends of a member's ranges and between them."""
    surfaces = []
    for share in (0.0, 0.37, 1.0):
        layers = []
        for coat in member.coats:
            low, high = coat.thickness_min_um, coat.thickness_max_um
            thickness = None if low is None else low + share * ((high or low) - low)
            layers.append(Layer(coat.finish_id, thickness))
        surfaces.append(Surface(member.material_id, tuple(layers)))
    return surfaces


@pytest.mark.parametrize("couple", [couple_of(), couple_of(STEEL, COPPER), couple_of(second=STAINLESS)])
def test_every_member_keeps_the_verdict_when_it_is_judged(couple: Couple, catalogue: Catalogue) -> None:
    envelope = found(couple)
    assert envelope.members
    proofs = [
        (
            member,
            replace(couple, first=surface) if member.side == "first" else replace(couple, second=surface),
        )
        for member in envelope.members
        for surface in corners(member)
    ]
    judged = judge([changed for _, changed in proofs], envelope.environment, catalogue, DEFAULT_POLICY)
    for (member, _), judgement in zip(proofs, judged, strict=True):
        verdict = judgement.outcome.verdict
        assert ORDER.index(verdict) <= ORDER.index(member.verdict) <= ORDER.index(envelope.accept)


def test_a_stricter_verdict_leaves_fewer_members() -> None:
    couple = couple_of(second=STAINLESS)
    strict, loose = found(couple, Verdict.SUITABLE), found(couple)
    assert {member.verdict for member in strict.members} == {Verdict.SUITABLE}
    assert 0 < len(strict.members) < len(loose.members)


def test_a_conditional_member_says_what_it_hangs_on() -> None:
    for member in found(couple_of(STEEL, COPPER)).members:
        assert member.verdict is Verdict.SUITABLE or member.conditions


def test_a_thickness_counts_from_where_the_verdict_holds(catalogue: Catalogue) -> None:
    """Too thin a noble coat has pores: the range begins where they are closed."""
    closed = [
        member
        for member in found(couple_of()).members
        for coat in member.coats[:1]
        if member.side == "first"
        and coat.thickness_min_um is not None
        and coat.thickness_min_um > (catalogue.finishes[coat.finish_id].thickness_min_um or 0.0)
    ]
    assert closed


def test_one_side_may_be_asked_for(catalogue: Catalogue) -> None:
    one = find_envelope(couple_of(), catalogue.environments[SEA_FRONT], catalogue, sides=("second",))
    assert {member.side for member in one.members} == {"second"}
    assert one.judged < found(couple_of()).judged


def test_needs_of_the_joint_bind_the_members(catalogue: Catalogue) -> None:
    bonded = couple_of(second=STAINLESS, functions=(Function.ELECTRICAL_BOND,))
    envelope = find_envelope(bonded, catalogue.environments["urban-atmosphere"], catalogue)
    assert envelope.members
    for member in envelope.members:
        assert all(catalogue.finishes[coat.finish_id].is_conductive for coat in member.coats)
