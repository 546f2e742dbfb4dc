from __future__ import annotations

from tests.commands.conftest import Faying


def test_a_tenant_is_added_disabled_and_enabled(faying: Faying) -> None:
    assert faying("tenant", "add", "quay", "--name", "Old quay").exit_code == 0
    assert "Old quay" in faying("tenant", "list").stdout
    assert faying("tenant", "disable", "quay").exit_code == 0
    assert "disabled" in faying("tenant", "list").stdout
    assert faying("tenant", "enable", "quay").exit_code == 0
    assert "disabled" not in faying("tenant", "list").stdout


def test_an_unknown_tenant_is_told(faying: Faying) -> None:
    result = faying("tenant", "disable", "nowhere")
    assert result.exit_code == 1
    assert "nowhere" in result.stderr


def test_a_client_is_blocked_and_unblocked(faying: Faying) -> None:
    assert faying("client", "block", "plm").exit_code == 0
    assert "plm" in faying("client", "list").stdout
    assert faying("client", "unblock", "plm").exit_code == 0
    assert "plm" not in faying("client", "list").stdout
