"""Judge the documented cases and score the answers: ``make validation``."""

from __future__ import annotations

from rich.console import Console
from rich.progress import track

from service.catalogue.catalogue import Catalogue
from service.judgement.answer import answer
from service.storage.migrate import PROJECT
from tests.validation.cases import Case, inquiry_of, mapping, seed_catalogue, usable_cases
from tests.validation.predictions import Prediction, of_the_baseline, of_the_service
from tests.validation.reports import score_table, write_all
from tests.validation.scores import all_scores

FOLDER = PROJECT / "build" / "validation"


def judge_cases(cases: list[Case], catalogue: Catalogue) -> list[tuple[Case, Prediction, Prediction]]:
    """Answer every case and set both predictions beside it."""
    answers = answer([inquiry_of(case, catalogue) for case in cases], catalogue)
    return [
        (case, of_the_service(case, given), of_the_baseline(given, catalogue))
        for case, given in track(zip(cases, answers, strict=True), "scoring", len(cases), transient=True)
    ]


def main() -> None:
    """Print the table and write the files."""
    console = Console()
    with console.status("judging the documented cases"):
        judged = judge_cases(usable_cases(), seed_catalogue())
    service = all_scores([(case, ours) for case, ours, _ in judged])
    baseline = all_scores([(case, theirs) for case, _, theirs in judged])
    write_all(FOLDER, judged, service, baseline)
    excluded = [row for row in mapping() if row["usable"] == "no"]
    console.print(score_table(service, baseline))
    console.print(
        f"{len(judged)} questions, {len(excluded)} cases excluded with a reason; details in {FOLDER}"
    )


if __name__ == "__main__":
    main()
