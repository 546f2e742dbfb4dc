"""Answers of the past against the present release, over HTTP."""

from __future__ import annotations

from contextlib import closing
from typing import Any

import pytest
from sqlalchemy import text

from service.settings import Settings
from service.storage import Database, publish
from service.storage.repositories.knowledge import KnowledgeRepository
from service.web.schemas.today import AnswerToday
from tests.factories.http import Running, problem, running

pytestmark = pytest.mark.anyio

PLACE = "marine-atmosphere-0-100-m"
COUPLE = {"first": "EN AW-6082-T6", "second": "CW024A", "environment": PLACE}


async def asked(application: Running) -> dict[str, Any]:
    response = await application.client.post("/v1/couples", json=COUPLE)
    assert response.status_code == 200, response.text
    document: dict[str, Any] = response.json()
    return document


def publish_changed(url: str, table: str, **values: Any) -> str:
    """Change every row of a table that has these fields, and publish."""
    with closing(Database.open(url)) as database, database.writing() as session:
        knowledge = KnowledgeRepository(session)
        knowledge.update(table, [row | values for row in knowledge.all_rows()[table]])
        return publish(session, "2026.02.02-1", by="test").label


async def test_without_a_new_release_nothing_is_different(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        issued = await asked(application)
        response = await application.client.get(f"{issued['address']}/today")
        unchanged = {"If-None-Match": response.headers["etag"]}
        again = await application.client.get(f"{issued['address']}/today", headers=unchanged)
    today = AnswerToday.model_validate_json(response.content)
    assert (today.is_same, today.difference, today.problem) == (True, (), None)
    assert today.now == today.then
    assert response.json()["answer"] == issued
    assert again.status_code == 304


async def test_every_line_names_the_changed_figure(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        issued = await asked(application)
    label = publish_changed(seed_url, "limits", limit_V=0.001)
    async with running(Settings(database_url=seed_url)) as application:
        response = await application.client.get(f"{issued['address']}/today")
        today = AnswerToday.model_validate_json(response.content)
        assert today.now is not None
        fresh = await asked(application)
    assert (today.then.digest, today.now.release.label) == (issued["digest"], label)
    assert response.json()["answer"] == fresh
    assert not today.is_same
    assert all(line.because for line in today.difference)
    screening = [line for line in today.difference if line.pointer.startswith("/findings/screening/")]
    assert screening
    causes = {(cause.table, cause.field, cause.after) for line in screening for cause in line.because}
    assert causes == {("limits", "limit_V", 0.001)}


async def test_a_question_that_cannot_be_put_any_more_says_why(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        issued = await asked(application)
    with closing(Database.open(seed_url)) as database, database.writing() as session:
        session.execute(text("DELETE FROM environments WHERE id = :id"), {"id": PLACE})
        publish(session, "2026.02.02-1", by="test")
    async with running(Settings(database_url=seed_url)) as application:
        response = await application.client.get(f"{issued['address']}/today")
    today = AnswerToday.model_validate_json(response.content)
    assert (today.now, today.answer, today.is_same) == (None, None, False)
    assert today.problem is not None
    assert today.problem.errors[0].pointer == "/environment"
    verdict = next(line for line in today.difference if line.pointer == "/verdict")
    assert {(cause.table, cause.key, cause.kind) for cause in verdict.because} == {
        ("environments", (PLACE,), "removed")
    }


async def test_an_unknown_answer_is_a_problem(seed_url: str) -> None:
    async with running(Settings(database_url=seed_url)) as application:
        problem(await application.client.get(f"/v1/answers/{'0' * 64}/today"), 404, "unknown-answer")
