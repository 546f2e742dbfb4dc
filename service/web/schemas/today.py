"""An issued answer and the same question today."""

from __future__ import annotations

from typing import Any

from service.judgement import Verdict
from service.web.schemas.answers import ADDRESS, Answer
from service.web.schemas.batch import ItemProblem
from service.web.schemas.fields import Schema, described, nested
from service.web.schemas.pages import RELEASE_EXAMPLE, ReleaseIdentity


class AnswerBrief(Schema):
    """An answer in brief."""

    address: str = described("Where this answer stays.", ADDRESS)
    digest: str = described("Digest of everything it depends on.", "5b" * 32)
    release: ReleaseIdentity = described("Release that it was judged by.", RELEASE_EXAMPLE)
    engine: str = described("Version of the engine that judged.", "1.0.0")
    verdict: Verdict = described("May they touch here, for so long?", "unsuitable")
    severity: str = described("`none`, `slight`, `moderate`, `severe` or `unknown`.", "severe")
    confidence: str = described("`high`, `medium` or `low`.", "medium")


class Cause(Schema):
    """What a difference is due to."""

    table: str = described("Table of the changed record; `engine` for another engine.", "limits")
    key: tuple[str, ...] = described("Identifier of the record.", ["normal"])
    field: str = described("The field that changed; empty for a whole record.", "limit_V")
    before: Any = described("What stood there.", 0.25)
    after: Any = described("What stands there now.", 0.15)
    kind: str = described("`corrected`, `regraded`, `added`, `removed` or `engine`.", "corrected")


class DifferenceLine(Schema):
    """One member of the answer that reads otherwise now."""

    pointer: str = described(
        "JSON pointer into the answer; findings, hazards and conditions by name.",
        "/findings/screening/severity",
    )
    before: Any = described("What it said.", "slight")
    after: Any = described("What it says now.", "moderate")
    because: tuple[Cause, ...] = nested("The figures and rules that changed.")


class AnswerToday(Schema):
    """The same question under the present release and engine, and every difference with its causes."""

    then: AnswerBrief = nested("The answer that was issued.")
    now: AnswerBrief | None = nested("The answer of today; null where it cannot be given any more.")
    is_same: bool = described("Whether nothing reads otherwise.", example=False)
    difference: tuple[DifferenceLine, ...] = nested("What reads otherwise.")
    answer: Answer | None = nested("The answer of today in full.")
    problem: ItemProblem | None = nested("Why there is none.")
