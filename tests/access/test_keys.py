"""Keys are checked from memory, and a revoked one dies in the stated time."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy.exc import OperationalError

from service.access.errors import InvalidCredentialsError
from service.access.keys import DEVELOPMENT, KeyRing
from service.access.scopes import Scope
from service.access.secrets import hash_secret, new_key_text

TEXT = new_key_text()
PEPPER = "white"


@dataclass(frozen=True)
class Key:
    id: str = "key_1"
    key_hash: str = hash_secret(TEXT.secret, PEPPER)
    tenant_id: str = "harbour"
    scopes: tuple[str, ...] = ("couples:judge", "scope-of-a-later-version")
    expires_at: datetime | None = None
    revoked_at: datetime | None = None


class Store:
    """The database as the ring sees it, with a count of its readings."""

    def __init__(self) -> None:
        self.key: Key | None = Key()
        self.readings = 0
        self.is_reachable = True

    def find(self, prefix: str) -> Key | None:
        self.readings += 1
        if not self.is_reachable:
            statement = "select"
            raise OperationalError(statement, {}, ConnectionError())
        return self.key if prefix == TEXT.prefix else None


class Clock:
    now_s = 100.0

    def __call__(self) -> float:
        return self.now_s


@pytest.fixture
def store() -> Store:
    return Store()


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def ring(store: Store, clock: Clock) -> KeyRing:
    return KeyRing(
        store.find, pepper=PEPPER, fresh_s=10, grace_s=60, development_key="fay_local_dev", clock=clock
    )


def test_a_valid_key_names_its_holder_and_is_read_once(ring: KeyRing, store: Store) -> None:
    assert ring.recall(str(TEXT)) is None
    holder = ring.verify(str(TEXT))
    assert (holder.key_id, holder.tenant_id, set(holder.scopes)) == ("key_1", "harbour", {Scope.JUDGE})
    assert ring.recall(str(TEXT)) == holder
    assert ring.verify(str(TEXT)) == holder
    assert store.readings == 1


@pytest.mark.parametrize(
    "text",
    ["", "fay", "fay_x_y", str(new_key_text()), f"fay_{TEXT.prefix}_{'A' * 43}"],
    ids=["empty", "word", "form", "unknown", "wrong secret"],
)
def test_a_wrong_key_is_refused(ring: KeyRing, text: str) -> None:
    ring.verify(str(TEXT))
    assert ring.recall(text) is None
    with pytest.raises(InvalidCredentialsError):
        ring.verify(text)


def test_a_key_hashed_with_another_pepper_is_refused(store: Store) -> None:
    with pytest.raises(InvalidCredentialsError):
        KeyRing(store.find, pepper="black").verify(str(TEXT))


def test_a_revoked_key_dies_within_the_stated_seconds(ring: KeyRing, store: Store, clock: Clock) -> None:
    ring.verify(str(TEXT))
    store.key = Key(revoked_at=datetime.now(UTC))
    clock.now_s += 10.01
    assert ring.recall(str(TEXT)) is None
    with pytest.raises(InvalidCredentialsError):
        ring.verify(str(TEXT))


def test_memory_holds_no_key_in_its_clear_text(ring: KeyRing) -> None:
    ring.verify(str(TEXT))
    assert TEXT.secret not in repr(vars(ring))


def test_a_key_revoked_in_this_process_dies_at_once(ring: KeyRing, store: Store) -> None:
    ring.verify(str(TEXT))
    store.key = Key(revoked_at=datetime.now(UTC))
    ring.forget(TEXT.prefix)
    assert ring.recall(str(TEXT)) is None


def test_an_expired_key_is_refused_even_from_memory(ring: KeyRing, store: Store) -> None:
    store.key = replace(Key(), expires_at=datetime.now(UTC) + timedelta(seconds=60))
    assert ring.verify(str(TEXT)).key_id == "key_1"
    store.key = replace(Key(), expires_at=datetime.now(UTC) - timedelta(seconds=1))
    ring.forget(TEXT.prefix)
    with pytest.raises(InvalidCredentialsError):
        ring.verify(str(TEXT))


def test_known_keys_outlive_an_unreachable_database_for_a_while(
    ring: KeyRing, store: Store, clock: Clock
) -> None:
    ring.verify(str(TEXT))
    store.is_reachable = False
    for _ in range(5):
        clock.now_s += 11
        assert ring.verify(str(TEXT)).key_id == "key_1"
        assert ring.recall(str(TEXT))
    clock.now_s += 11
    with pytest.raises(OperationalError):
        ring.verify(str(TEXT))


def test_the_development_key_needs_no_store(ring: KeyRing, store: Store) -> None:
    assert ring.recall("fay_local_dev") == DEVELOPMENT
    assert KeyRing(store.find).recall("fay_local_dev") is None
    assert store.readings == 0


def test_a_key_hashed_with_the_former_pepper_is_valid_and_hashed_anew(store: Store) -> None:
    renewed: list[tuple[str, str, str]] = []
    present = hash_secret(TEXT.secret, "black")

    def renew(*facts: str) -> None:
        renewed.append((facts[0], facts[1], facts[2]))

    ring = KeyRing(store.find, pepper="black", former_pepper=PEPPER, renew=renew)
    assert ring.verify(str(TEXT)).key_id == "key_1"
    assert ring.recall(str(TEXT))
    assert renewed == [("key_1", hash_secret(TEXT.secret, PEPPER), present)]
    store.key = replace(Key(), key_hash=present)
    ring.forget(TEXT.prefix)
    assert ring.verify(str(TEXT)).key_id == "key_1"
    assert len(renewed) == 1


def test_a_pepper_can_be_introduced(store: Store) -> None:
    store.key = replace(Key(), key_hash=hash_secret(TEXT.secret, ""))
    with pytest.raises(InvalidCredentialsError):
        KeyRing(store.find, pepper="black").verify(str(TEXT))
    assert KeyRing(store.find, pepper="black", former_pepper="").verify(str(TEXT)).key_id == "key_1"


def test_each_use_is_noted_and_no_failure_is(store: Store) -> None:
    noted: list[str] = []
    ring = KeyRing(store.find, pepper=PEPPER, note_use=noted.append)
    ring.verify(str(TEXT))
    ring.recall(str(TEXT))
    ring.recall(f"fay_{TEXT.prefix}_{'A' * 43}")
    assert noted == ["key_1", "key_1"]
