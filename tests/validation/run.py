"""Judge the documented cases and score the answers: ``make validation``."""

from __future__ import annotations

from rich.console import Console
from rich.progress import track
from rich.table import Table

from service.catalogue.catalogue import Catalogue
from service.judgement.answer import answer
from service.storage.migrate import PROJECT
from tests.validation.agreed import agreed_cases
from tests.validation.cases import Case, inquiry_of, mapping, seed_catalogue, usable_cases
from tests.validation.predictions import of_the_baseline, of_the_kinetics, of_the_service
from tests.validation.published import headline, published_cases, said_blind, untouched
from tests.validation.reports import Judged, score_all, score_table, write_all

FOLDER = PROJECT / "build" / "validation"


def judge_cases(cases: list[Case], catalogue: Catalogue) -> list[Judged]:
    """Answer every case and set the word of each method beside it."""
    answers = answer([inquiry_of(case, catalogue) for case in cases], catalogue)
    return [
        Judged(
            case, of_the_service(case, given), of_the_kinetics(case, given), of_the_baseline(given, catalogue)
        )
        for case, given in track(zip(cases, answers, strict=True), "scoring", len(cases), transient=True)
    ]


def main() -> None:
    """Print the table and write the files."""
    console = Console()
    with console.status("judging the documented cases"):
        judged = judge_cases(usable_cases(), seed_catalogue())
    scores = score_all(judged)
    write_all(FOLDER, judged, scores)
    excluded = [row for row in mapping() if row["usable"] == "no"]
    console.print(score_table(scores))
    agreed = judge_cases(agreed_cases(), seed_catalogue())
    agreed_scores = score_all(agreed)
    write_all(FOLDER / "agreed", agreed, agreed_scores)
    console.print(
        f"{len(judged)} questions, {len(excluded)} cases excluded with a reason; details in {FOLDER}"
    )
    console.print(score_table(agreed_scores))
    console.print(f"{len(agreed)} couples on which engineers agree; details in {FOLDER / 'agreed'}")
    published = judge_cases(published_cases(), seed_catalogue())
    write_all(FOLDER / "published", published, score_all(published))
    console.print(_published_table(published))
    console.print(f"{len(published)} couples with a published outcome; details in {FOLDER / 'published'}")


def _published_table(judged: list[Judged]) -> Table:
    """Lay what was said blind beside what is said now, for all and for those that no rule was made of."""
    now = [(item.case, item.service) for item in judged]
    blind = said_blind([item.case for item in judged])
    table = Table("", "blind", "now", "n", "blind, untouched", "now, untouched", "n", box=None)
    columns = [headline(pairs) for pairs in (blind, now, untouched(blind), untouched(now))]
    for before, after, before_some, after_some in zip(*columns, strict=True):
        table.add_row(
            before.name,
            before.text,
            after.text,
            str(after.n),
            before_some.text,
            after_some.text,
            str(after_some.n),
        )
    return table


if __name__ == "__main__":
    main()
