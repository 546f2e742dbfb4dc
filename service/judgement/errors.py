"""What can go wrong while a couple is judged."""

from __future__ import annotations


class JudgementError(Exception):
    """A couple cannot be judged as asked."""


class InvalidInquiryError(JudgementError):
    """A part of the inquiry cannot be used. ``pointer`` is a JSON pointer to it."""

    def __init__(self, pointer: str, detail: str, suggestions: tuple[str, ...] = ()) -> None:
        super().__init__(f"{pointer}: {detail}")
        self.pointer = pointer
        self.detail = detail
        self.suggestions = suggestions


class InconsistentInquiryError(InvalidInquiryError):
    """A part of the inquiry could be used, but contradicts another one."""


class MalformedTriggerError(JudgementError):
    """A rule's trigger is not in the trigger language."""

    def __init__(self, rule_id: str, detail: str) -> None:
        super().__init__(f"rule {rule_id}: {detail}")
        self.rule_id = rule_id
        self.detail = detail
