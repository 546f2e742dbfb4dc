"""The table of problems is complete and says each thing once."""

from __future__ import annotations

import inspect

import pytest

from service.access import errors as access
from service.catalogue.errors import DamagedReleaseError, MalformedRowError
from service.judgement import InvalidInquiryError
from service.web import errors as web
from service.web.problems import EVERYWHERE, INTERNAL, KINDS, WITH_BODY, kind_of

FOR_COMMANDS_ONLY = {
    access.EndedKeyError,
    access.UnknownKeyError,
    access.UnknownScopeError,
    access.UnknownTenantError,
}


def raised_by(module: object) -> list[type[Exception]]:
    return [
        member
        for _, member in inspect.getmembers(module, inspect.isclass)
        if issubclass(member, Exception) and member not in {web.WebError, access.AccessError}
    ]


@pytest.mark.parametrize("error", [*raised_by(web), *raised_by(access)], ids=lambda error: error.__name__)
def test_every_error_a_caller_can_meet_has_its_own_kind(error: type[Exception]) -> None:
    assert (kind_of(error) is INTERNAL) is (error in FOR_COMMANDS_ONLY)


def test_errors_of_other_rooms_are_known_or_internal() -> None:
    assert kind_of(InvalidInquiryError).status == 404
    assert kind_of(DamagedReleaseError).status == 503
    assert kind_of(MalformedRowError) is kind_of(ZeroDivisionError) is INTERNAL


def test_slugs_and_titles_are_unique_and_statuses_are_errors() -> None:
    assert len({kind.slug for kind in KINDS}) == len({kind.title for kind in KINDS}) == len(KINDS)
    assert all(400 <= kind.status < 600 for kind in KINDS)
    assert all(kind.remedy.endswith(".") and not kind.title.endswith(".") for kind in KINDS)


def test_what_all_routes_answer_has_kinds() -> None:
    assert {kind_of(error).status for error in EVERYWHERE} == {401, 403, 406, 409, 414, 422, 429, 500, 503}
    assert {kind_of(error).status for error in WITH_BODY} == {400, 413, 415}
