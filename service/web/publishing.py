"""Publishing over HTTP: what comes out is opened first, so that no release stops the service."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from fastapi import Request

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import CatalogueError
from service.curation import LeftOut, Publication, impact, publish
from service.judgement import ENGINE_VERSION, JudgementError
from service.judgement.triggers import parse
from service.storage.releases import current_release, load
from service.web.curation_errors import UnusableReleaseError
from service.web.proposals import document, step
from service.web.shelf import OpenRelease
from service.web.state import services

_CANNOT_BE_OPENED = (CatalogueError, JudgementError, ValueError, KeyError, TypeError, ArithmeticError)


def publish_release(request: Request, label: str | None, note: str) -> dict[str, Any]:
    """Publish what is approved and let this process take it up; others do when they look next.

    Raises
    ------
    InvalidRequestError, ReleaseLabelTakenError
        If the label is none, or names a release with other content.
    UnusableReleaseError
        If the outcome cannot be opened; then nothing is published.
    """

    def act(session: Any, by: str) -> tuple[Publication, bool]:
        before = current_release(session)
        with _opening():
            outcome = publish(session, by=by, label=label, note=note, engine=ENGINE_VERSION)
            is_new = before is None or before.label != outcome.release.label
            if is_new:
                _try_out(load(session, outcome.release.label))
        return outcome, is_new

    outcome, is_new = step(request, act)
    services(request).shelf.refresh()
    return {
        "release": members(outcome.release),
        "is_new": is_new,
        "published": [document(proposal) for proposal in outcome.proposals],
        "left_out": _left_out(outcome.left_out),
    }


def preview_release(request: Request) -> dict[str, Any]:
    """Tell what publishing would bring out now, and what that can touch.

    Raises
    ------
    UnusableReleaseError
        If the outcome could not be opened.
    """
    held = services(request)
    with held.database.reading() as session, _opening():
        found = impact(session, held.shelf.current.catalogue)
        _try_out(found.release)
    return {
        "published": [document(proposal) for proposal in found.planned.fitting],
        "left_out": _left_out(found.planned.left_out),
        "changes": found.changes,
        "assemblies": found.assemblies,
        "joints": found.joints,
        "overlay_misfits": found.misfits,
    }


def _left_out(proposals: Sequence[LeftOut]) -> list[dict[str, Any]]:
    return [{"id": each.proposal.id, "reason": each.reason} for each in proposals]


@contextmanager
def _opening() -> Iterator[None]:
    try:
        yield
    except _CANNOT_BE_OPENED as error:
        raise UnusableReleaseError(str(error)) from error


def _try_out(catalogue: Catalogue) -> None:
    """Do what a process does with a release; one trigger that cannot be read would stop every judgement."""
    for rule in catalogue.rules.values():
        parse(rule.id, rule.trigger)
    OpenRelease.of(catalogue)


def members(info: Any) -> dict[str, Any]:
    """Write who published a release, when, and what its content hash is."""
    return {name: getattr(info, name) for name in info.__slots__}
