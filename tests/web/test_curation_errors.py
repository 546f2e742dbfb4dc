"""Errors of curation point into the request that caused them."""

from __future__ import annotations

import pytest

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import DanglingOverlayError, MalformedRowError, NotForOverlaysError
from service.curation import errors as curation
from service.storage.errors import BadReleaseLabelError, NotStoredError
from service.web.curation_errors import RecordInUseError, UnknownProposalError, blaming
from service.web.errors import WebError
from tests.factories.knowledge import catalogue_of, small_package

CATALOGUE = catalogue_of(small_package())


def told(error: Exception, catalogue: Catalogue | None = CATALOGUE) -> WebError:
    with pytest.raises(WebError) as caught, blaming(catalogue, "/row"):
        raise error
    return caught.value


@pytest.mark.parametrize(
    ("error", "pointer", "suggestions"),
    [
        (curation.UnknownTableError("limit"), "/table", ("limits",)),
        (NotForOverlaysError("finish"), "/table", ("finishes",)),
        (curation.UnknownRowError("limits", "normale"), "/key", ("normal",)),
        (curation.UnknownRowError("designations", "x"), "/key", ()),
        (MalformedRowError("limits", "limit", 1, "is no column"), "/row/limit", ("limit_V",)),
        (MalformedRowError("bans", "reason", "", "is missing"), "/row/reason", ()),
        (
            curation.DanglingProposalError("limits", "scale_id", "scales", "serie"),
            "/row/scale_id",
            ("series",),
        ),
        (DanglingOverlayError("limits", ("own",), "scale_id", "serie"), "/row/scale_id", ()),
        (curation.ReasonMissingError(), "/reason", ()),
        (BadReleaseLabelError("a b"), "/label", ()),
    ],
)
def test_each_points_at_its_field(error: Exception, pointer: str, suggestions: tuple[str, ...]) -> None:
    (fault,) = told(error).faults
    assert (fault.pointer, fault.suggestions) == (pointer, suggestions)


def test_a_closed_set_is_shown_whole_where_nothing_is_near() -> None:
    (fault,) = told(MalformedRowError("limits", "obtained", "?", "cannot be read")).faults
    assert "read" in fault.suggestions


def test_users_of_a_record_are_named() -> None:
    error = told(curation.RowInUseError("scales", "series", [("limits", "normal")]))
    assert isinstance(error, RecordInUseError)
    assert error.faults[0].suggestions == ("limits normal",)


def test_an_unknown_proposal_and_a_service_without_a_release_are_told() -> None:
    assert isinstance(told(NotStoredError("proposal", "p")), UnknownProposalError)
    (fault,) = told(curation.UnknownRowError("limits", "x"), None).faults
    assert fault.suggestions == ()


def test_other_errors_pass() -> None:
    with pytest.raises(KeyError), blaming(CATALOGUE):
        raise KeyError
