"""Write the bill of materials of the software and the list of its licences into build/security/."""

from __future__ import annotations

from tests.supply_chain.licences import is_allowed, licence_of
from tests.supply_chain.lock import PROJECT, Package, packages
from tests.supply_chain.sbom import bill_of, written

FOLDER = PROJECT / "build" / "security"


def report(found: list[Package]) -> str:
    """Write the dependencies and their licences as a table."""
    lines = [
        "# Dependencies and licences",
        "",
        "| package | version | for | licence | allowed | wanted by |",
        "| --- | --- | --- | --- | --- | --- |",
    ]
    for package in found:
        licence = licence_of(package.name)
        use = "running" if package.is_runtime else "contributing"
        answer = "yes" if is_allowed(licence, is_runtime=package.is_runtime) else "**no**"
        wanted_by = ", ".join(package.wanted_by)
        lines.append(f"| {package.name} | {package.version} | {use} | {licence} | {answer} | {wanted_by} |")
    return "\n".join(lines) + "\n"


def main() -> None:
    """Write both files and say where they are."""
    found = packages()
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, content in (
        ("sbom.cdx.json", written(bill_of(found))),
        ("dependencies.md", report(found)),
    ):
        (FOLDER / name).write_text(content, encoding="utf-8")
        print(FOLDER / name)


if __name__ == "__main__":
    main()
