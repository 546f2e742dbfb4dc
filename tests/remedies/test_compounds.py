from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.remedies import compatibility, compatibility_document


def test_every_compound_can_be_asked_about(catalogue: Catalogue) -> None:
    for compound in catalogue.compounds.values():
        document = compatibility_document(compatibility(compound, catalogue), catalogue)
        assert document["compound"]["id"] == compound.id


@pytest.mark.parametrize(
    ("word", "metal"),
    [("acetic", "copper"), ("graphite", "aluminium"), ("copper", "magnesium")],
)
def test_known_harm_is_told(catalogue: Catalogue, word: str, metal: str) -> None:
    """Common practice, no source: acetic-cure silicone, graphite and copper-loaded anti-seize."""
    compounds = [
        entry for entry in catalogue.compounds.values() if word in f"{entry.name} {entry.composition}".lower()
    ]
    harmed = {
        family
        for entry in compounds
        for harm in compatibility(entry, catalogue).harms
        for family in harm.metals
    }
    assert any(metal in family for family in harmed), harmed
