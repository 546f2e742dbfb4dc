"""The bill of materials of the software itself, in CycloneDX 1.6."""

from __future__ import annotations

import uuid

from cyclonedx.contrib.license.factories import LicenseFactory
from cyclonedx.model.bom import Bom
from cyclonedx.model.component import Component, ComponentScope, ComponentType
from cyclonedx.output.json import JsonV1Dot6
from packageurl import PackageURL

from tests.supply_chain.licences import licence_of
from tests.supply_chain.lock import LOCK, OURSELVES, Package

VERSION = "0.1.0"


def bill_of(found: list[Package]) -> Bom:
    """Write down packages, their licences and who needs whom."""
    bom = Bom(serial_number=uuid.uuid5(uuid.NAMESPACE_URL, LOCK.read_text(encoding="utf-8")))
    ours = Component(
        type=ComponentType.APPLICATION,
        name=OURSELVES,
        version=VERSION,
        bom_ref=OURSELVES,
        licenses=[LicenseFactory().make_from_string("Apache-2.0")],
    )
    bom.metadata.component = ours
    components = {package.name: _component(package) for package in found}
    bom.components.update(components.values())
    for name, component in [(OURSELVES, ours), *components.items()]:
        needed = [components[package.name] for package in found if name in package.wanted_by]
        bom.register_dependency(component, needed)
    return bom


def _component(package: Package) -> Component:
    return Component(
        type=ComponentType.LIBRARY,
        name=package.name,
        version=package.version,
        purl=PackageURL("pypi", None, package.name, package.version),
        bom_ref=f"{package.name}=={package.version}",
        scope=ComponentScope.REQUIRED if package.is_runtime else ComponentScope.EXCLUDED,
        licenses=[LicenseFactory().make_from_string(licence_of(package.name))],
    )


def written(bom: Bom) -> str:
    """Write a bill as JSON."""
    return JsonV1Dot6(bom).output_as_string(indent=2) + "\n"
