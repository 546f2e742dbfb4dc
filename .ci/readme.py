"""Write the generated parts of README.md anew, as tests/test_readme.py wants them."""

from __future__ import annotations

import sys
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(PROJECT))


def main() -> None:
    """Fill every part."""
    from tests.test_readme import commands, first_answer, settings_table

    readme = PROJECT / "README.md"
    text = readme.read_text(encoding="utf-8")
    for name, content in (
        ("first answer", first_answer()),
        ("commands", commands()),
        ("settings", settings_table()),
    ):
        before, rest = text.split(f"<!-- {name} -->\n")
        text = f"{before}<!-- {name} -->\n{content}\n<!-- /{name} -->{rest.split(f'<!-- /{name} -->')[1]}"
    readme.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
