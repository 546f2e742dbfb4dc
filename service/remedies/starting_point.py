"""The joint that needs a way out: read, judged, and ready to be changed."""

from __future__ import annotations

from dataclasses import dataclass

from service.catalogue.catalogue import Catalogue
from service.catalogue.records import Environment
from service.judgement import Answer, Couple, Inquiry, Judgement, Policy, answer
from service.remedies.errors import UnreadableSurfaceError


@dataclass(frozen=True, slots=True)
class StartingPoint:
    """The answer to an inquiry under its leading reading."""

    answer: Answer
    judgement: Judgement

    @property
    def couple(self) -> Couple:
        """The couple as read."""
        return self.judgement.couple

    @property
    def environment(self) -> Environment:
        """Where it lives."""
        return self.judgement.environment


def starting_point(inquiry: Inquiry, catalogue: Catalogue, policy: Policy) -> StartingPoint:
    """Read and judge an inquiry.

    Parameters
    ----------
    inquiry : Inquiry
    catalogue : Catalogue
    policy : Policy

    Returns
    -------
    StartingPoint
        Under the leading reading; the answer keeps the others and its warnings.

    Raises
    ------
    InvalidInquiryError
        If the inquiry names what does not exist.
    UnreadableSurfaceError
        If a surface is not known: nothing can be changed about it.
    """
    (given,) = answer([inquiry], catalogue, policy)
    if given.judgement is None:
        named = zip(("first", "second"), given.readings, strict=True)
        unread = tuple(side for side, reading in named if not reading.candidates)
        raise UnreadableSurfaceError(unread or ("first", "second"), given.missing, given.question)
    return StartingPoint(given, given.judgement)
