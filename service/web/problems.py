"""Problem documents (RFC 9457): the one place that knows status codes.

One table leads from an error to its type, status and title. The same table writes the responses of the
OpenAPI document and the pages under ``/problems/``, so neither can say what the service does not do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from service.access import errors as access
from service.catalogue.errors import CatalogueError, DamagedReleaseError, DanglingOverlayError
from service.curation import errors as curation
from service.judgement.errors import InconsistentInquiryError, InvalidInquiryError
from service.storage.errors import (
    DatabaseUnavailableError,
    NothingPublishedError,
    ReleaseLabelTakenError,
    UnknownReleaseError,
)
from service.web import curation_errors
from service.web import errors as web
from service.web import work_errors as work


@dataclass(frozen=True, slots=True)
class ProblemKind:
    """One type of problem. ``remedy`` tells a caller what to do; it is shown on the type's page."""

    slug: str
    status: int
    title: str
    remedy: str

    @property
    def type(self) -> str:
        """Address of the type's page on this service."""
        return f"/problems/{self.slug}"


INTERNAL = ProblemKind(
    "internal",
    500,
    "The service failed",
    "The failure is logged under the request's id. Send the same request again later; if it fails again, "
    "report the id.",
)
NOT_READY = ProblemKind(
    "not-ready", 503, "The service is not ready", "Wait as long as `Retry-After` says and ask again."
)
INCONSISTENT = ProblemKind(
    "inconsistent-request",
    409,
    "Parts of the request do not fit together",
    "Correct what the pointers name: each field is sound, but it contradicts another one.",
)

_TABLE: Mapping[type[Exception], ProblemKind] = MappingProxyType(
    {
        web.MalformedBodyError: ProblemKind(
            "malformed-body",
            400,
            "The body cannot be read",
            "Send one JSON document in UTF-8, nested less deeply.",
        ),
        web.BadCursorError: ProblemKind(
            "bad-cursor",
            404,
            "The cursor leads to no page of this list",
            "Follow the `next` link of the page before, with the same filters, or start without a cursor.",
        ),
        access.MissingCredentialsError: ProblemKind(
            "missing-credentials",
            401,
            "An API key or access token is needed",
            "Send the header `Authorization: Bearer fay_...`, or with an access token in place of the key.",
        ),
        access.InvalidCredentialsError: ProblemKind(
            "invalid-credentials",
            401,
            "The API key or access token is not valid",
            "Check the key for missing characters, or ask for a new one; get a new token from its issuer.",
        ),
        access.InsufficientScopeError: ProblemKind(
            "insufficient-scope",
            403,
            "The API key or access token may not do this",
            "Use a key or token that holds the scope named in the detail.",
        ),
        curation.OwnProposalError: ProblemKind(
            "own-proposal",
            403,
            "Nobody reviews a proposal of their own",
            "Have it reviewed with another key that holds `knowledge:review`.",
        ),
        curation.NotYourProposalError: ProblemKind(
            "not-your-proposal",
            403,
            "Only its author takes a proposal back",
            "Use the key that made the proposal, or have a reviewer reject it.",
        ),
        web.NoSuchPathError: ProblemKind(
            "no-such-path",
            404,
            "Nothing has this address",
            "Look the paths up in the API reference at `/docs`.",
        ),
        web.NoSuchRecordError: ProblemKind(
            "unknown-record",
            404,
            "The release holds no such record",
            "Use one of the suggestions, or search the list of the same name with `q`.",
        ),
        UnknownReleaseError: ProblemKind(
            "unknown-release", 404, "No release has this label", "Choose a label from `/v1/releases`."
        ),
        web.UnknownAnswerError: ProblemKind(
            "unknown-answer",
            404,
            "No answer has this digest",
            "Ask the question again at `/v1/couples`; the new answer names its own address.",
        ),
        work.UnknownJobError: ProblemKind(
            "unknown-job",
            404,
            "There is no such job",
            "List your jobs at `/v1/jobs`; old ones are forgotten.",
        ),
        work.UnknownStoredAssemblyError: ProblemKind(
            "unknown-assembly",
            404,
            "No assembly is stored under this name",
            "List what is stored at `/v1/assemblies/stored`.",
        ),
        work.UnknownPolicyError: ProblemKind(
            "unknown-policy", 404, "There is no such policy", "List what is stored at `/v1/policies`."
        ),
        curation_errors.UnknownProposalError: ProblemKind(
            "unknown-proposal", 404, "There is no such proposal", "List what is open at `/v1/proposals`."
        ),
        work.UnknownWebhookError: ProblemKind(
            "unknown-webhook", 404, "There is no such webhook", "List your webhooks at `/v1/webhooks`."
        ),
        web.MethodNotAllowedError: ProblemKind(
            "method-not-allowed",
            405,
            "The address does not take this method",
            "Use a method of the `Allow` header.",
        ),
        web.TooSlowError: ProblemKind(
            "too-slow",
            408,
            "The request did not arrive in time",
            "Send the whole request at once, over a new connection.",
        ),
        web.NotAcceptableError: ProblemKind(
            "not-acceptable",
            406,
            "No acceptable format",
            "Send `Accept: application/json`, or no Accept header.",
        ),
        web.IdempotencyInProgressError: ProblemKind(
            "idempotency-in-progress",
            409,
            "The first sending is still at work",
            "Wait as long as `Retry-After` says and send the same request with the same key again.",
        ),
        curation.NothingChangesError: ProblemKind(
            "nothing-changes",
            409,
            "The knowledge base holds exactly this already",
            "Compare the proposal with the record as it is; perhaps somebody else was faster.",
        ),
        curation.ProposalClosedError: ProblemKind(
            "proposal-closed",
            409,
            "The proposal has gone too far for this step",
            "Read the proposal again; to change what it brought, make a new one.",
        ),
        curation_errors.RecordInUseError: ProblemKind(
            "record-in-use",
            409,
            "Other records name this one",
            "Propose to change or withdraw those that `errors` names first.",
        ),
        ReleaseLabelTakenError: ProblemKind(
            "release-label-taken",
            409,
            "A release with other content has this label",
            "Choose another label, or none: then the date and a number make one.",
        ),
        curation_errors.UnusableReleaseError: ProblemKind(
            "unusable-release",
            409,
            "The service could not work with such a release",
            "Nothing was published. Reject or take back the proposal that the detail speaks of.",
        ),
        curation.UnknownOverlayError: ProblemKind(
            "unknown-overlay",
            410,
            "The overlay of that day is not kept",
            "The stored answer stays what it is at its address; only the comparison cannot be made.",
        ),
        DanglingOverlayError: ProblemKind(
            "overlay-misfit",
            409,
            "The tenant's overlay does not fit this release",
            "Change the row that the detail names at `/v1/overlay/changes`, or ask as of another release.",
        ),
        work.JobNotDoneError: ProblemKind(
            "job-not-done",
            409,
            "The job has no results yet",
            "Ask for the job until its state is `done`; a job that has failed says why.",
        ),
        work.NotJudgedYetError: ProblemKind(
            "not-judged-yet",
            409,
            "The stored assembly has no report yet",
            "Wait for the job that the storing has named.",
        ),
        work.PolicyInUseError: ProblemKind(
            "policy-in-use",
            409,
            "Stored assemblies name the policy",
            "Store those assemblies with another policy first, or remove them.",
        ),
        work.VersionMismatchError: ProblemKind(
            "version-mismatch",
            412,
            "The thing was changed meanwhile",
            "Read it again, and send the change with the entity tag of what was read.",
        ),
        web.BodyTooLargeError: ProblemKind(
            "body-too-large",
            413,
            "The body is too large",
            "Split the request; `/v1/limits` names the largest body.",
        ),
        web.TargetTooLongError: ProblemKind(
            "target-too-long",
            414,
            "The address is too long",
            "Send the same question as a JSON body with POST.",
        ),
        web.UnsupportedMediaTypeError: ProblemKind(
            "unsupported-media-type",
            415,
            "The format of the body is not read here",
            "Send the body as JSON with `Content-Type: application/json`.",
        ),
        web.InvalidRequestError: ProblemKind(
            "invalid-request",
            422,
            "The request holds something that cannot be used",
            "Each entry of `errors` points to one field and says what it may be.",
        ),
        web.InconsistentRequestError: INCONSISTENT,
        InconsistentInquiryError: INCONSISTENT,
        web.UnreadableFileError: ProblemKind(
            "unreadable-file",
            409,
            "A file cannot be read as a table",
            "Save it as CSV in UTF-8 or as .xlsx; `/v1/assemblies/template` shows what is read.",
        ),
        InvalidInquiryError: ProblemKind(
            "unknown-reference",
            404,
            "The question names something that the release does not hold",
            "Correct the field that the pointer names; suggestions are near names of this release.",
        ),
        work.ForbiddenWebhookError: ProblemKind(
            "forbidden-webhook",
            422,
            "Nothing is sent to this address",
            "Name a public https address; an operator of a closed network can allow others.",
        ),
        web.IdempotencyConflictError: ProblemKind(
            "idempotency-conflict",
            422,
            "The Idempotency-Key was used for another request",
            "Make a new key for each new write.",
        ),
        access.TooManyRequestsError: ProblemKind(
            "too-many-requests",
            429,
            "The allowance is used up",
            "Wait as long as `Retry-After` says; many couples fit into one batch request.",
        ),
        DamagedReleaseError: ProblemKind(
            "damaged-release",
            503,
            "The stored release does not match its hash",
            "The operator has to restore the database; no answer is given from damaged data.",
        ),
        DatabaseUnavailableError: ProblemKind(
            "database-unavailable",
            503,
            "The database cannot do this now",
            "Wait as long as `Retry-After` says and send the same request again, a write with its "
            "Idempotency-Key; what is in memory is answered meanwhile.",
        ),
        NothingPublishedError: ProblemKind(
            "nothing-published",
            503,
            "No release is published yet",
            "The operator has to publish a first release.",
        ),
        web.TookTooLongError: ProblemKind(
            "took-too-long",
            503,
            "The answer takes too long",
            "Ask for less at once, or put the work in as a job. What was to be written may have been: send "
            "it again with the same Idempotency-Key.",
        ),
        web.NotReadyError: NOT_READY,
        access.IssuerUnreachableError: NOT_READY,
        CatalogueError: INTERNAL,
    }
)

KINDS: tuple[ProblemKind, ...] = tuple(
    sorted(set(_TABLE.values()), key=lambda kind: (kind.status, kind.slug))
)
"""Every type of problem, by status."""

EVERYWHERE: tuple[type[Exception], ...] = (
    access.MissingCredentialsError,
    access.InvalidCredentialsError,
    access.InsufficientScopeError,
    web.NotAcceptableError,
    web.TargetTooLongError,
    web.InvalidRequestError,
    access.TooManyRequestsError,
    DanglingOverlayError,
    CatalogueError,
    web.TookTooLongError,
    web.NotReadyError,
    DatabaseUnavailableError,
)
"""What every route under ``/v1`` may answer."""

WITH_BODY: tuple[type[Exception], ...] = (
    web.MalformedBodyError,
    web.BodyTooLargeError,
    web.UnsupportedMediaTypeError,
)
"""What a route with a body may answer besides."""

HANDLED: tuple[type[Exception], ...] = tuple(_TABLE)
"""The errors that become problem documents."""


def kind_of(error: type[Exception]) -> ProblemKind:
    """Return the type of problem of a class of errors; one that nobody foresaw is internal."""
    for cls in error.__mro__:
        if cls in _TABLE:
            return _TABLE[cls]
    return INTERNAL
