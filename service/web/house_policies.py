"""The policy that decides: sent along, stored under a name, or the default one."""

from __future__ import annotations

from dataclasses import dataclass

import orjson

from service.assemblies.house_policy import HousePolicy
from service.assemblies.policy_documents import house_policy_of
from service.storage.engine import Database
from service.storage.repositories.policies import PoliciesRepository, StoredPolicy
from service.web.assembly_requests import pointing, policy_of
from service.web.errors import Fault, InconsistentRequestError
from service.web.nearness import nearest
from service.web.schemas.assemblies import AssemblyFields

FIELD = "/stored_policy"


@dataclass(frozen=True, slots=True)
class Decider:
    """The policy that decides; ``reference`` is name@version where it is a stored one."""

    house: HousePolicy
    reference: str | None = None


@dataclass(frozen=True, slots=True)
class HousePolicies:
    """The policies that a tenant has stored; the database is asked only where a request names one."""

    database: Database
    tenant_id: str

    def of(self, request: AssemblyFields, otherwise: str = "") -> Decider:
        """Return the policy of a request; ``otherwise`` is one that holds where it states none.

        Raises
        ------
        InconsistentRequestError
            If it states two, contradicts itself, or names one that is not stored.
        """
        if request.policy is not None:
            if request.stored_policy is not None:
                detail = "Send a policy or name a stored one, not both."
                raise InconsistentRequestError(Fault("body", FIELD, "one_way", detail))
            return Decider(policy_of(request))
        reference = request.stored_policy or otherwise
        if not reference:
            return Decider(policy_of(request))
        found = self._find(reference)
        with pointing(FIELD):
            return Decider(house_policy_of(found.body), found.reference)

    def pinned(self, request: AssemblyFields, content: bytes) -> bytes:
        """Put the version that is in force into the JSON of a request, for work that is done later."""
        decider = self.of(request)
        if decider.reference is None:
            return content
        return orjson.dumps({**orjson.loads(content), "stored_policy": decider.reference})

    def _find(self, reference: str) -> StoredPolicy:
        name, _, version = reference.partition("@")
        with self.database.reading() as session:
            policies = PoliciesRepository(session)
            found = policies.find(self.tenant_id, name, int(version) if version else None)
            if found is not None:
                return found
            names = [policy.name for policy in policies.page(self.tenant_id, limit=200).items]
        detail = f"No policy is stored as {reference!r}."
        raise InconsistentRequestError(Fault("body", FIELD, "unknown", detail, nearest(name, names)))
