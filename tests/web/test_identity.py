"""The digest depends on everything that an answer depends on, and on nothing else."""

from __future__ import annotations

from dataclasses import replace

import orjson

from service.judgement import DEFAULT_POLICY, Inquiry, Side
from service.web.identity import Identity, identify
from tests.factories.knowledge import catalogue_of, small_package

CATALOGUE = catalogue_of(small_package())
INQUIRY = Inquiry(Side(text="zinc"), Side(text="S235JR"), "harbour")


def digest(inquiry: Inquiry = INQUIRY) -> str:
    return identify(inquiry, CATALOGUE, DEFAULT_POLICY).digest


def test_the_same_question_has_the_same_address() -> None:
    first = identify(INQUIRY, CATALOGUE, DEFAULT_POLICY)
    again = identify(replace(INQUIRY), catalogue_of(small_package()), DEFAULT_POLICY)
    assert first == again
    assert first.address == f"/v1/answers/{first.digest}"
    assert len(first.digest) == 64


def test_every_part_of_the_question_counts() -> None:
    changed = [
        replace(INQUIRY, first=Side(text="zinc ")),
        replace(INQUIRY, first=INQUIRY.second, second=INQUIRY.first),
        replace(INQUIRY, environment="quay"),
        replace(INQUIRY, first_area_m2=0.1),
        replace(INQUIRY, second_area_m2=0.1),
        replace(INQUIRY, is_isolated=True),
        replace(INQUIRY, min_grade="C"),
        replace(INQUIRY, find_tipping_point=True),
    ]
    assert len({digest(), *map(digest, changed)}) == 1 + len(changed)


def test_release_overlay_and_policy_count() -> None:
    def of(identity: Identity) -> str:
        return identity.digest

    package = small_package()
    package["limits"][0]["limit_V"] = 0.3
    others = [
        of(identify(INQUIRY, catalogue_of(package), DEFAULT_POLICY)),
        of(identify(INQUIRY, replace(CATALOGUE, overlay_hash="private"), DEFAULT_POLICY)),
        of(identify(INQUIRY, CATALOGUE, replace(DEFAULT_POLICY, default_design_life_years=20.0))),
    ]
    assert len({digest(), *others}) == 4


def test_the_label_alone_does_not_count() -> None:
    renamed = replace(CATALOGUE, label="another")
    assert identify(INQUIRY, renamed, DEFAULT_POLICY).digest == digest()


def test_the_canonical_request_can_be_read() -> None:
    request = orjson.loads(identify(INQUIRY, CATALOGUE, DEFAULT_POLICY).request)
    assert request["first"]["text"] == "zinc"
    assert request["functions"] == ["structural"]
