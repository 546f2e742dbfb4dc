"""Ways out of a bad joint: alternatives, mitigations, compounds and envelopes, each one judged again."""

from service.remedies.alternatives import Alternative, Alternatives, find_alternatives
from service.remedies.alternatives_document import alternatives_document
from service.remedies.compounds import Compatibility, compatibility, compatibility_document
from service.remedies.constraints import Change, Constraints, Objective, Regulation, Weights
from service.remedies.envelope_document import envelope_document
from service.remedies.envelopes import Envelope, find_envelope
from service.remedies.errors import InvalidConstraintError, RemedyError, UnreadableSurfaceError
from service.remedies.mitigations import Mitigations, Remedy, find_mitigations
from service.remedies.mitigations_document import mitigations_document
from service.remedies.starting_point import StartingPoint, starting_point

__all__ = [
    "Alternative",
    "Alternatives",
    "Change",
    "Compatibility",
    "Constraints",
    "Envelope",
    "InvalidConstraintError",
    "Mitigations",
    "Objective",
    "Regulation",
    "Remedy",
    "RemedyError",
    "StartingPoint",
    "UnreadableSurfaceError",
    "Weights",
    "alternatives_document",
    "compatibility",
    "compatibility_document",
    "envelope_document",
    "find_alternatives",
    "find_envelope",
    "find_mitigations",
    "mitigations_document",
    "starting_point",
]
