"""Who may call: keys, scopes, tenants and allowances."""

from service.access.administration import (
    NewKey,
    add_tenant,
    create_key,
    ensure_local_tenant,
    list_blocked_clients,
    list_keys,
    list_tenants,
    revoke_key,
    rotate_key,
    set_client_blocked,
    set_tenant_disabled,
)
from service.access.errors import AccessError
from service.access.keys import KeyRing
from service.access.principals import Principal
from service.access.quotas import Allowance, TokenBuckets
from service.access.scopes import CALLER, EVERYTHING, Scope, parse_scopes

__all__ = [
    "CALLER",
    "EVERYTHING",
    "AccessError",
    "Allowance",
    "KeyRing",
    "NewKey",
    "Principal",
    "Scope",
    "TokenBuckets",
    "add_tenant",
    "create_key",
    "ensure_local_tenant",
    "list_blocked_clients",
    "list_keys",
    "list_tenants",
    "parse_scopes",
    "revoke_key",
    "rotate_key",
    "set_client_blocked",
    "set_tenant_disabled",
]
