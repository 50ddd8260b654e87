"""From a reply to an entry of the log: which question it is about, and what reads it."""

from __future__ import annotations

from dictate.record.visit import Correction, Record
from dictate.review.answers.buttons import (
    acknowledge,
    choose,
    confirm,
    machine,
    note,
    step,
    strike,
    take_back,
    waive,
)
from dictate.review.answers.in_words import answer
from dictate.review.answers.reply import Ask, NotUnderstoodError, Reply, Try
from dictate.review.answers.typed import change_fields, type_value
from dictate.review.questions import Question, questions

LONGEST_ANSWER = 1000
"""Characters of a typed answer."""


def entry_for(
    record: Record, base: Record, reply: Reply, by: str, id: str, made_at: str, attempt: Try
) -> Correction:
    """Turn a reply into an entry of the log. Raises NotUnderstoodError."""
    text = " ".join(reply.text.split())
    if len(text) > LONGEST_ANSWER:
        raise NotUnderstoodError(f"the answer is longer than {LONGEST_ANSWER} characters.", "Shorten it.")
    question = _question(record, reply)
    blank = Correction(id=id, made_at=made_at, by=by, target=reply.key or reply.target, action=reply.action)
    if question is not None:
        blank.rule, blank.equipment = question.rule, question.equipment
    maker = {
        "confirm": confirm, "choose": choose, "type": type_value, "strike": strike, "done": step,
        "not_done": step, "so": waive, "not_apply": waive, "waive": waive, "note": note,
        "machine": machine, "fields": change_fields, "acknowledge": acknowledge, "take_back": take_back,
    }.get(reply.action)  # fmt: skip
    if reply.action == "type" and not reply.target and (question is None or question.rule is not None):
        return answer(record, base, question, reply, text, blank, attempt)
    if maker is None:
        raise NotUnderstoodError(f"no answer {reply.action!r}.", "Use the buttons of the page.")
    return maker(Ask(record, question, reply, text), blank)


def _question(record: Record, reply: Reply) -> Question | None:
    if not reply.key:
        return None
    found = next((q for q in questions(record) if q.key == reply.key), None)
    if found is None:
        raise NotUnderstoodError("this question is no longer open.", "Look at the list again.")
    return found
