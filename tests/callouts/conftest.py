from __future__ import annotations

import pytest

from service.callouts.lexicon import Lexicon
from service.callouts.resolver import Resolver
from service.catalogue.catalogue import Catalogue
from tests.seed_catalogue import seed_catalogue


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    return seed_catalogue()


@pytest.fixture(scope="session")
def resolver(catalogue: Catalogue) -> Resolver:
    return Resolver.of(catalogue)


@pytest.fixture(scope="session")
def lexicon(resolver: Resolver) -> Lexicon:
    return resolver.lexicon
