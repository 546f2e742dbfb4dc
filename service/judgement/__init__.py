"""Couples to verdicts: independent witnesses, one combination, evidence for every figure."""

from service.judgement.answer import Answer, answer
from service.judgement.couples import Contact, Couple, Function, Geometry
from service.judgement.errors import InvalidInquiryError, JudgementError, MalformedTriggerError
from service.judgement.inquiry import Inquiry, Side
from service.judgement.judge import Judgement, judge
from service.judgement.policy import DEFAULT_POLICY, Policy
from service.judgement.severity import Severity, Verdict
from service.judgement.version import ENGINE_VERSION

__all__ = [
    "DEFAULT_POLICY",
    "ENGINE_VERSION",
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
    "Severity",
    "Side",
    "Verdict",
    "answer",
    "judge",
]
