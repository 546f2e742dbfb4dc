"""Couples to verdicts: independent witnesses, one combination, evidence for every figure."""

from service.judgement.answer import Answer, answer
from service.judgement.couples import Contact, Couple, Function, Geometry
from service.judgement.coupons import class_of, level_of
from service.judgement.errors import InvalidInquiryError, JudgementError, MalformedTriggerError
from service.judgement.inquiry import Inquiry, Side
from service.judgement.judge import Judgement, judge
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.regimes import DEFAULT_TEMPERATURE_C
from service.judgement.reported import REPLACES, Reported
from service.judgement.severity import Severity, Verdict
from service.judgement.site import Site, site_of
from service.judgement.version import ENGINE_VERSION

__all__ = [
    "DEFAULT_POLICY",
    "DEFAULT_TEMPERATURE_C",
    "ENGINE_VERSION",
    "REPLACES",
    "Answer",
    "Contact",
    "Couple",
    "Function",
    "Geometry",
    "Inquiry",
    "InvalidInquiryError",
    "Judgement",
    "JudgementError",
    "MalformedTriggerError",
    "Policy",
    "Reported",
    "Severity",
    "Side",
    "Site",
    "Verdict",
    "answer",
    "class_of",
    "judge",
    "level_of",
    "site_of",
]
