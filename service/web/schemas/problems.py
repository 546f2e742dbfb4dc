"""Problem documents as clients read them."""

from __future__ import annotations

from service.web.schemas.fields import Schema, described, nested


class ProblemFault(Schema):
    """One part of a request that cannot be used."""

    location: str = described(
        "`body`, `query`, `path`, `header` or `request` (either way of asking).", "body"
    )
    pointer: str = described(
        "JSON pointer (RFC 6901) to the field; parameters are members of one object.", "/first_area_m2"
    )
    code: str = described("Stable word for the kind of fault.", "greater_than")
    detail: str = described("What the field may be.", "Input should be greater than 0")
    suggestions: tuple[str, ...] = described("Near values that would be accepted.", ["first_area_m2"], ())


class Problem(Schema):
    """A problem document as in RFC 9457."""

    type: str = described("Address of the page on this type of problem.", "/problems/invalid-request")
    title: str = described("Name of the type.", "The request holds something that cannot be used")
    status: int = described("Status code.", 422, ge=400, le=599)
    detail: str = described("What is wrong this time.", "Input should be greater than 0")
    instance: str = described("Identifier of the request.", "urn:uuid:6f1c0a5e-4d0f-4b6b-9d0a-0c7d6b1f2a33")
    errors: tuple[ProblemFault, ...] = nested("The parts of the request that are to blame.", ())
    violated_policies: tuple[str, ...] = described(
        "Names of the allowances that are used up, as the field `RateLimit-Policy` has them.",
        ["requests"],
        (),
        alias="violated-policies",
    )
