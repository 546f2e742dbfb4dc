"""Envelopes off line. The JSON Schema beside the rule has to say the same."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.client import Client, Envelope, EnvelopeError, OfferedSurface, offered
from service.client.document.results import EnvelopeMember
from service.remedies.envelope_document import envelope_document
from service.remedies.envelopes import find_envelope
from tests.factories.remedies import SEA_FRONT, STAINLESS, couple_of
from tests.seed_catalogue import seed_catalogue


@cache
def document() -> dict[str, Any]:
    """An envelope as the service sends it: an aluminium plate and a stainless part by the sea."""
    catalogue = seed_catalogue()
    envelope = find_envelope(couple_of(second=STAINLESS), catalogue.environments[SEA_FRONT], catalogue)
    return {**envelope_document(envelope), "warnings": []}


@cache
def envelope() -> Envelope:
    return Envelope.read(json.dumps(document()).encode())


def member() -> EnvelopeMember:
    """A member with a coat whose thickness counts."""
    return next(
        each
        for each in envelope().rule.members
        if each.side == "second" and each.layers and each.layers[0].thickness_min_um
    )


def offer(thickness_um: float | None = None, **changes: Any) -> OfferedSurface:
    """The thinnest surface of that member, or one that is otherwise."""
    layers = [
        {"finish_id": coat.finish_id, "thickness_um": coat.thickness_min_um} for coat in member().layers
    ]
    layers[0]["thickness_um"] = thickness_um or layers[0]["thickness_um"]
    surface: OfferedSurface = {"material_id": member().material_id, "layers": layers, **changes}  # type: ignore[typeddict-item]
    return surface


def test_what_is_inside_has_a_verdict_and_its_conditions() -> None:
    compliance = envelope().check(offer(), "second")
    assert compliance.is_inside
    assert compliance.verdict == member().verdict
    assert compliance.conditions == member().conditions
    release = envelope().rule.release.content_hash
    assert envelope().check(offer(), "second", current_release=release).is_inside


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"condition": "worn"}, "worn or damaged"),
        ({"material_id": "cu-etp"}, "the material is not the one of the second side"),
        ({"layers": [{"finish_id": "unheard-of"}]}, "the finish is not accepted"),
        ({"thickness_um": 0.001}, "thinner"),
        ({"thickness_um": float("nan")}, "thinner"),
        ({"thickness_um": 1e6}, "thicker"),
    ],
)
def test_what_is_outside_says_why(changes: dict[str, Any], reason: str) -> None:
    compliance = envelope().check(offer(**changes), "second")
    assert not compliance.is_inside
    assert reason in compliance.reason
    assert (compliance.verdict, compliance.conditions) == (None, ())


def test_another_release_and_another_side_are_outside() -> None:
    assert "another release" in envelope().check(offer(), "second", current_release="5b").reason
    assert "neither" in envelope().check(offer(), "neither").reason  # type: ignore[arg-type]


def test_a_thickness_that_counts_has_to_be_stated() -> None:
    surface = offer(layers=[{"finish_id": coat.finish_id} for coat in member().layers])
    assert "is not stated" in envelope().check(surface, "second").reason


def test_an_envelope_is_kept_as_it_came(tmp_path: Path) -> None:
    envelope().save(tmp_path / "joint-7.json")
    assert (tmp_path / "joint-7.json").read_bytes() == envelope().content
    assert Envelope.load(tmp_path / "joint-7.json") == envelope()


def test_a_text_that_was_read_can_be_offered(client: Client) -> None:
    (reading,) = client.resolve_texts(texts=["1.4401, zinc flake 8 µm"]).readings
    surface = offered(reading.candidates[0])
    assert surface["material_id"] == "ss-316"
    assert [layer["finish_id"] for layer in surface["layers"]] == ["zn-flake"]
    assert envelope().check(surface, "second").is_inside


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"format": 2}, "not known here"),
        ({"kind": "shopping list"}, "not known here"),
        ({"accept": "unsuitable"}, "was changed"),
        ({"members": []}, "was changed"),
        ({"digest": "5b" * 32}, "was changed"),
        ({"members": None}, "no acceptance envelope"),
    ],
)
def test_what_was_changed_is_refused(changes: dict[str, Any], reason: str) -> None:
    with pytest.raises(EnvelopeError, match=reason):
        Envelope.read(json.dumps({**document(), **changes}).encode())


@st.composite
def surfaces(draw: st.DrawFn) -> dict[str, Any]:
    """Surfaces that are near the envelope, and some that are not."""
    members = envelope().rule.members
    stack = list(draw(st.sampled_from(members)).layers)
    names = [coat.finish_id for coat in stack] + draw(st.lists(st.just("unheard-of"), max_size=1))
    thicknesses = st.one_of(st.none(), st.floats(0.01, 200), st.sampled_from([0.5, 5.0, 8.0, 12.0, 25.0]))
    return {
        "material_id": draw(st.sampled_from(sorted({str(each.material_id) for each in members}))),
        "layers": [{"finish_id": name, "thickness_um": draw(thicknesses)} for name in names],
        "condition": draw(st.sampled_from(["intact", "intact", "worn"])),
    }


@given(surface=surfaces(), side=st.sampled_from(["first", "second"]))
@settings(deadline=None)
def test_the_schema_beside_the_rule_says_the_same(surface: Any, side: Any) -> None:
    is_inside = envelope().check(surface, side).is_inside
    stated = {**surface, "layers": [_without_nothing(layer) for layer in surface["layers"]]}
    schema = jsonschema.Draft202012Validator(document()["json_schema"])
    assert schema.is_valid({"side": side, **stated}) is is_inside


def _without_nothing(layer: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in layer.items() if value is not None}
