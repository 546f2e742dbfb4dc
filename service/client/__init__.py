"""A typed client of the service, blocking or asynchronous. It needs httpx, anyio and msgspec only."""

from service.client.awaited import AsyncClient
from service.client.batch import Couple
from service.client.blocking import Client
from service.client.document import bodies, results, terms
from service.client.envelopes import Compliance, Envelope, OfferedLayer, OfferedSurface, offered
from service.client.errors import (
    AccessError,
    BrokenStreamError,
    ConflictError,
    EnvelopeError,
    FayingError,
    ForgedMessageError,
    InvalidRequestError,
    ItemError,
    JobError,
    NotFoundError,
    OutOfTimeError,
    ProblemError,
    ServiceError,
    TooManyRequestsError,
    UnexpectedReplyError,
    UnreachableError,
)
from service.client.files import attach
from service.client.lines import BatchItem
from service.client.messages import Message, open_message
from service.client.proof import Counterexample, Proof
from service.client.retries import NO_RETRIES, Retries
from service.client.save_hook import AsyncSaveHook, Ruling, SaveHook
from service.client.streams import AsyncBatchAnswers, BatchAnswers

__all__ = [
    "NO_RETRIES",
    "AccessError",
    "AsyncBatchAnswers",
    "AsyncClient",
    "AsyncSaveHook",
    "BatchAnswers",
    "BatchItem",
    "BrokenStreamError",
    "Client",
    "Compliance",
    "ConflictError",
    "Counterexample",
    "Couple",
    "Envelope",
    "EnvelopeError",
    "FayingError",
    "ForgedMessageError",
    "InvalidRequestError",
    "ItemError",
    "JobError",
    "Message",
    "NotFoundError",
    "OfferedLayer",
    "OfferedSurface",
    "OutOfTimeError",
    "ProblemError",
    "Proof",
    "Retries",
    "Ruling",
    "SaveHook",
    "ServiceError",
    "TooManyRequestsError",
    "UnexpectedReplyError",
    "UnreachableError",
    "attach",
    "bodies",
    "offered",
    "open_message",
    "results",
    "terms",
]
