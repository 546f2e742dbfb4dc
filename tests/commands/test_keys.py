from __future__ import annotations

from datetime import UTC, datetime, timedelta

from service.access.secrets import parse_key_text
from service.commands.keys import state
from tests.commands.conftest import Faying


def test_a_key_is_shown_once_and_listed_without_its_secret(faying: Faying) -> None:
    made = faying("key", "create", "the planning system", "--tenant", "yard").stdout.strip()
    parsed = parse_key_text(made)
    assert parsed
    listed = faying("key", "list").stdout
    assert parsed.prefix in listed
    assert parsed.secret not in listed
    assert "the planning system" in listed


def test_keys_of_one_tenant(faying: Faying) -> None:
    faying("key", "create", "ours", "--tenant", "yard")
    faying("key", "create", "theirs", "--tenant", "mill")
    listed = faying("key", "list", "--tenant", "yard").stdout
    assert "ours" in listed
    assert "theirs" not in listed


def test_a_revoked_key_says_so(faying: Faying) -> None:
    prefix = faying("key", "create", "a caller").stdout.split("_")[1]
    assert faying("key", "revoke", prefix).exit_code == 0
    assert "revoked" in faying("key", "list").stdout


def test_a_rotated_key_ends_after_the_overlap(faying: Faying) -> None:
    old = faying("key", "create", "the planning system", "--tenant", "yard").stdout.strip()
    new = faying("key", "rotate", old.split("_")[1], "--overlap-hours", "48").stdout.strip()
    assert parse_key_text(new)
    assert new != old
    ending, following = [line for line in faying("key", "list").stdout.splitlines() if "planning" in line]
    assert "valid until" in ending
    assert new.split("_")[1] in following
    assert "until" not in following


def test_a_revoked_key_is_not_rotated(faying: Faying) -> None:
    prefix = faying("key", "create", "a caller").stdout.split("_")[1]
    faying("key", "revoke", prefix)
    result = faying("key", "rotate", prefix)
    assert result.exit_code == 1
    assert "create a new one" in result.stderr


def test_an_unknown_scope_is_refused_with_the_known_ones(faying: Faying) -> None:
    result = faying("key", "create", "a caller", "--scope", "everything")
    assert result.exit_code == 1
    assert "catalogue:read" in result.stderr


def test_the_state_of_a_key() -> None:
    now, day = datetime.now(UTC), timedelta(days=1)
    assert state(None, None) == "valid"
    assert state(None, now + day) == f"valid until {now + day:%Y-%m-%d}"
    assert state(None, now - day) == f"expired {now - day:%Y-%m-%d}"
    assert state(now, now + day) == f"revoked {now:%Y-%m-%d}"
