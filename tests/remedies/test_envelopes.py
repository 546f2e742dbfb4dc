from __future__ import annotations

from dataclasses import replace

from service.catalogue.catalogue import Catalogue
from service.catalogue.surfaces import Layer, Surface
from service.judgement import Verdict, judge
from service.remedies import complies, envelope_document, find_envelope
from tests.factories.remedies import couple_of, place


def test_every_member_keeps_the_verdict_when_it_is_judged(catalogue: Catalogue) -> None:
    environment = place(catalogue, "urban-atmosphere")
    couple = couple_of()
    envelope = find_envelope(couple, environment, catalogue, sides=("second",))
    assert envelope.members
    couples = [
        replace(
            couple,
            second=Surface(
                member.material_id,
                tuple(Layer(coat.finish_id, coat.thickness_min_um) for coat in member.coats),
            ),
        )
        for member in envelope.members
    ]
    for judged in judge(couples, environment, catalogue):
        assert judged.outcome.verdict in {Verdict.SUITABLE, Verdict.CONDITIONAL}


def test_a_buyer_checks_a_surface_without_the_service(catalogue: Catalogue) -> None:
    envelope = find_envelope(couple_of(), place(catalogue, "urban-atmosphere"), catalogue, sides=("second",))
    document = envelope_document(envelope)
    member = next(entry for entry in document["members"] if entry["layers"])
    coats = [
        {"finish_id": coat["finish_id"], "thickness_um": coat["thickness_min_um"]}
        for coat in member["layers"]
    ]
    surface = {"material_id": member["material_id"], "layers": coats, "condition": "intact"}
    assert complies(document, surface, "second").is_inside
    assert not complies(
        document, {**surface, "layers": [{"finish_id": "no-such-finish"}]}, "second"
    ).is_inside
