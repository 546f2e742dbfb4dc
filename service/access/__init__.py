"""Who may call: keys, scopes, tenants and allowances."""

from service.access.administration import NewKey, create_key, ensure_local_tenant, list_keys, revoke_key
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
    "create_key",
    "ensure_local_tenant",
    "list_keys",
    "parse_scopes",
    "revoke_key",
]
