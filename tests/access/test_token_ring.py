"""Tokens are checked from memory, and what was blocked dies in the stated time."""

from __future__ import annotations

import pytest
from sqlalchemy.exc import OperationalError

from service.access import Scope
from service.access.errors import InvalidCredentialsError
from service.access.token_ring import TokenRing
from service.access.tokens import Claims

TOKEN = "eyJhbGciOiJSUzI1NiJ9.e30.c2ln"  # noqa: S105 - opens nothing


class World:
    """Clocks, issuer and database as the ring sees them."""

    now_s = 100.0
    wall_s = 2_000_000_000.0
    readings = 0
    questions = 0
    is_valid = True
    is_admitted = True
    is_reachable = True

    def read(self, _text: str) -> Claims:
        self.readings += 1
        if not self.is_valid:
            raise InvalidCredentialsError
        return Claims("plm", "harbour", frozenset({Scope.READ}), self.wall_s + 60)

    def admit(self, tenant_id: str, client_id: str) -> bool:
        self.questions += 1
        if not self.is_reachable:
            statement = "select"
            raise OperationalError(statement, {}, ConnectionError())
        return self.is_admitted and (tenant_id, client_id) == ("harbour", "plm")


@pytest.fixture
def world() -> World:
    return World()


@pytest.fixture
def ring(world: World) -> TokenRing:
    return TokenRing(
        world.read,
        world.admit,
        fresh_s=10,
        grace_s=60,
        clock=lambda: world.now_s,
        wall_clock=lambda: world.wall_s,
    )


def test_a_token_is_checked_once_while_it_is_fresh(ring: TokenRing, world: World) -> None:
    assert ring.recall(TOKEN) is None
    holder = ring.verify(TOKEN)
    assert (holder.key_id, holder.tenant_id, set(holder.scopes)) == ("client:plm", "harbour", {Scope.READ})
    assert ring.recall(TOKEN) == ring.verify(TOKEN) == holder
    assert (world.readings, world.questions) == (1, 1)
    assert ring.recall(TOKEN + "x") is None


def test_a_token_that_is_not_valid_is_refused_each_time(ring: TokenRing, world: World) -> None:
    world.is_valid = False
    for _ in range(2):
        with pytest.raises(InvalidCredentialsError):
            ring.verify(TOKEN)
    assert ring.recall(TOKEN) is None
    assert world.questions == 0


def test_a_blocked_client_dies_within_the_stated_seconds(ring: TokenRing, world: World) -> None:
    ring.verify(TOKEN)
    world.is_admitted = False
    world.now_s += 10.01
    assert ring.recall(TOKEN) is None
    with pytest.raises(InvalidCredentialsError):
        ring.verify(TOKEN)


def test_an_expired_token_is_refused_even_from_memory(ring: TokenRing, world: World) -> None:
    ring.verify(TOKEN)
    world.wall_s += 60
    world.is_valid = False
    assert ring.recall(TOKEN) is None


def test_known_clients_outlive_an_unreachable_database_for_a_while(ring: TokenRing, world: World) -> None:
    ring.verify(TOKEN)
    world.is_reachable = False
    for _ in range(5):
        world.now_s += 11
        assert ring.verify(TOKEN).key_id == "client:plm"
    world.now_s += 11
    with pytest.raises(OperationalError):
        ring.verify(TOKEN)


def test_memory_is_bounded(ring: TokenRing, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("service.access.token_ring._MOST_REMEMBERED", 3)
    for number in range(5):
        ring.verify(f"{TOKEN}{number}")
    assert ring.recall(f"{TOKEN}0") is None
    assert ring.recall(f"{TOKEN}4")


def test_memory_holds_no_token(ring: TokenRing) -> None:
    ring.verify(TOKEN)
    assert TOKEN not in repr(vars(ring))
