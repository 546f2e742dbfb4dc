from __future__ import annotations

import pytest

from service.callouts.designations import families as designations
from service.callouts.finishes import families as finishes
from service.callouts.phrases import spelt
from service.callouts.resolver import Resolver
from service.callouts.translations import ASIDES, translated
from tests.callouts.outlines import RESOLVED


@pytest.mark.parametrize(
    ("text", "english"),
    [
        ("acero inoxidable 316", "stainless steel 316"),
        ("acciaio inox AISI 304", "stainless steel AISI 304"),
        ("vite M5x20 acciaio zincato 8.8", "screw M5x20 steel galvanized 8.8"),
        ("dado M6 acciaio zincato a caldo", "nut M6 steel hot dip galvanized"),
        ("perfil de aluminio anodizado", "aluminium profile anodised"),
        ("ottone nichelato", "brass nickel plated"),
        ("latón cromado", "brass chrome plated"),
        ("latão", "brass"),
        ("aço mola", "spring steel"),
        ("acero al carbono", "carbon steel"),
        ("tubo de cobre", "copper"),
        ("gietijzer", "cast iron"),
        ("thermisch verzinkt staal", "hot dip galvanized steel"),
        ("roestvast staal 316", "stainless steel 316"),
        ("aluminium geanodiseerd", "aluminium anodised"),
    ],
)
def test_foreign_words_are_read_as_their_english_ones(text: str, english: str, resolver: Resolver) -> None:
    found, wanted = resolver.resolve(text), resolver.resolve(english)
    assert found.match is wanted.match
    assert [c.surface for c in found.candidates[:3]] == [c.surface for c in wanted.candidates[:3]]


@pytest.mark.parametrize("text", ["tubo de silicona", "gomma", "madera", "kunststof", "tubo acrílico"])
def test_foreign_plastics_conduct_no_more_than_english_ones(text: str, resolver: Resolver) -> None:
    assert resolver.resolve(text).is_insulator


def test_a_spanish_article_is_no_aluminium(resolver: Resolver) -> None:
    assert resolver.resolve("pintura resistente al agua").candidates == ()


def test_a_group_beside_a_foreign_word_for_stainless_is_one_of_steel(resolver: Resolver) -> None:
    for text in ("RVS A2", "acero inox A2", "tornillo inox A2-70"):
        reading = resolver.resolve(text)
        assert reading.match in RESOLVED
        assert [candidate.surface.material_id for candidate in reading.candidates] == ["ss-304"]


def test_every_english_word_is_known_and_the_first_table_counts() -> None:
    tables = [*designations.PHRASES, *finishes.PHRASES]
    mine = spelt(ASIDES["tornillo"], "steel")
    assert translated([mine, *tables])["acero"] is mine["steel"]
    assert translated(tables)["acero"] is translated(tables)["staal"]
