from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from tests.seed_catalogue import seed_catalogue


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    return seed_catalogue()
