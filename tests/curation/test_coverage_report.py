from __future__ import annotations

from pathlib import Path

from service.curation.coverage_report import BEGIN, END, coverage_page, write_coverage_page
from tests.seed_catalogue import SEED_DATA, seed_catalogue


def test_the_page_in_the_package_is_current() -> None:
    text = (SEED_DATA / "README.md").read_text(encoding="utf-8")
    written = text.split(BEGIN, 1)[1].split(END, 1)[0].strip()
    assert written == coverage_page(seed_catalogue()).strip(), "run `faying check-data --write`"


def test_writing_keeps_what_stands_around(tmp_path: Path) -> None:
    file = tmp_path / "README.md"
    file.write_text(f"before {BEGIN} old {END} after")
    write_coverage_page(file, "new")
    write_coverage_page(file, "newer")
    assert file.read_text() == f"before {BEGIN}\n\nnewer\n{END} after"
