"""Readings as the API shows them."""

from __future__ import annotations

import orjson

from service.web.readings import read_texts
from service.web.schemas.resolve import ResolveResponse, TextRequest
from service.web.shelf import OpenRelease
from tests.factories.knowledge import catalogue_of, small_package

RELEASE = OpenRelease.of(catalogue_of(small_package()))


def test_each_text_has_its_reading_and_the_same_texts_the_same_bytes() -> None:
    texts = [
        TextRequest(text="S235JR", ref="a"),
        TextRequest(material="zinc sheet"),
        TextRequest(text="xyzzy"),
    ]
    texts.append(TextRequest(text="S235JR", ref="z"))
    body = read_texts(texts, RELEASE)
    assert body == read_texts(texts, RELEASE)
    found = ResolveResponse.model_validate_json(body)
    assert [reading.ref for reading in found.readings] == ["a", "", "", "z"]
    assert found.readings[0].candidates == found.readings[3].candidates
    assert found.readings[0].candidates[0].material_id == "s235"
    assert found.readings[2].match == "unknown"
    assert found.unknown == 1
    assert orjson.loads(body)["release"]["content_hash"] == RELEASE.content_hash
