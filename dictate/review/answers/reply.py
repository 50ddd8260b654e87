"""What a person sent, and with what it is read: the record and the question that it is about."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from dictate.errors import UsageError
from dictate.record.visit import Correction, Record
from dictate.review.questions import Question


class NotUnderstoodError(UsageError):
    """An answer that cannot be read, or that does not fit what was asked."""


@dataclass
class Reply:
    """What a person sent: an action on a question (by key) or on an item (by id)."""

    action: str
    key: str = ""
    target: str = ""
    choice: str = ""
    text: str = ""
    reason: str = ""
    equipment: str = ""
    fields: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Ask:
    """A reply with the record and the question that it is about."""

    record: Record
    question: Question | None
    reply: Reply
    text: str


Try = Callable[[Correction], Record]
"""Returns the record as it would stand with one more entry."""
