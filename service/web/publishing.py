"""Publishing over HTTP: what comes out is opened first, so that no release stops the service."""

from __future__ import annotations

from typing import Any

from fastapi import Request

from service.catalogue.catalogue import Catalogue
from service.catalogue.errors import CatalogueError
from service.curation import Publication, publish
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
        outcome = publish(session, by=by, label=label, note=note, engine=ENGINE_VERSION)
        is_new = before is None or before.label != outcome.release.label
        if is_new:
            try:
                _try_out(load(session, outcome.release.label))
            except _CANNOT_BE_OPENED as error:
                raise UnusableReleaseError(str(error)) from error
        return outcome, is_new

    outcome, is_new = step(request, act)
    services(request).shelf.refresh()
    return {
        "release": members(outcome.release),
        "is_new": is_new,
        "published": [document(proposal) for proposal in outcome.proposals],
        "left_out": [{"id": each.proposal.id, "reason": each.reason} for each in outcome.left_out],
    }


def _try_out(catalogue: Catalogue) -> None:
    """Do what a process does with a release; one trigger that cannot be read would stop every judgement."""
    for rule in catalogue.rules.values():
        parse(rule.id, rule.trigger)
    OpenRelease.of(catalogue)


def members(info: Any) -> dict[str, Any]:
    """Write who published a release, when, and what its content hash is."""
    return {name: getattr(info, name) for name in info.__slots__}
