"""Answers in words, read as if they had been said in the narration.

A short one ("two pounds six") is also tried inside the sentences of `vocabulary/answers.toml`; the first one
that closes the question counts.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from typing import TYPE_CHECKING

from dictate.record.visit import Clip, Correction, Record
from dictate.review.answers.brought import count_brought, taken, times_asked, worth_of
from dictate.review.answers.buttons import step
from dictate.review.answers.places import place_of, settle_place
from dictate.review.answers.reply import Ask, NotUnderstoodError, Reply, Try
from dictate.review.questions import Question
from dictate.vocabulary.load import table

if TYPE_CHECKING:
    from dictate.record.transcript import Segment


def answer(
    record: Record,
    base: Record,
    question: Question | None,
    reply: Reply,
    text: str,
    out: Correction,
    attempt: Try,
) -> Correction:
    """Read a typed answer to a question, or a free addition, as if it had been said where it belongs."""
    if not text:
        raise NotUnderstoodError("the answer is empty.", "Type it as you would say it.")
    known = table("answers")
    low = text.lower().strip(" .!")
    if question is not None and question.step is not None:
        for said, action in (("yes", "done"), ("no", "not_done")):
            if low in known[said]["said"]:
                out.text = text
                return step(Ask(record, question, Reply(action), text), out)
    out.text, out.before = text, (question.ask or question.text) if question is not None else None
    out.equipment = out.equipment or reply.equipment or None
    if out.equipment is not None and out.equipment not in {e.id for e in record.equipment}:
        raise NotUnderstoodError("that machine is not in this visit.", "Choose one of the list.")
    if question is None and out.equipment is None:
        tried = settle_place(record, base, _said(text, out, record), attempt)
        took = taken(attempt(tried), tried)
        if not took:
            raise _nothing_read(text)
        tried.after = "; ".join(took)
        return tried
    out.after_segment = place_of(record, base, question)
    leads = known["leads"].get(question.rule, []) if question is not None and question.rule else []
    best: tuple[tuple[bool, int], Correction] | None = None
    if set(low.replace(",", " ").split()) & set(known["never"]["words"]):
        leads = []
    for sentence in [text, *(lead.format(text.rstrip(" .")) for lead in leads)]:
        tried = _said(sentence, out.model_copy(deep=True), record)
        after = attempt(tried)
        took = taken(after, tried)
        if not took or (sentence != text and not count_brought(after, tried)):
            continue
        tried.after = "; ".join(took)
        closes = question is None or times_asked(after, question) < times_asked(record, question)
        worth = (closes, worth_of(after, tried, question))
        if best is None or worth > best[0]:
            best = worth, tried
        if worth[0] and worth[1] >= max(1, _numbers(text)):
            break  # everything in it was read, and the question is closed
    if best is None:
        raise _nothing_read(text)
    return best[1]


def _nothing_read(text: str) -> NotUnderstoodError:
    return NotUnderstoodError(
        f"no value and no step could be read from {text!r}.",
        "Write it as you would say it, with the unit, or leave it as a note.",
    )


def _numbers(text: str) -> int:
    from dictate.mentions.narration import Narration
    from dictate.mentions.spoken_numbers import find_numbers

    coded = sum(any(c.isdigit() for c in word) for word in text.split())
    return max(len(find_numbers(Narration.from_text(text))), coded)


def _said(sentence: str, out: Correction, record: Record) -> Correction:
    from dictate.mentions.narration import segments_of

    sentence = sentence if sentence[-1:] in ".?!" else f"{sentence}."
    id = next_clip(record)
    digest = hashlib.sha256(sentence.encode()).hexdigest()
    out.action = "answer"
    out.clip = Clip(id=id, file=f"typed by {out.by}", sha256=digest)
    out.segments = list(segments_of([sentence], id))
    if names_machine(out.segments):
        out.fields = {"names_machine": 1.0}
    return out


def next_clip(record: Record) -> str:
    """Return the clip id of the next answer: a1, a2 and so on, never one that was used before."""
    used = sum(1 for c in record.corrections if c.action == "answer")
    return f"a{used + 1}"


def names_machine(segments: Sequence[Segment]) -> bool:
    """Tell whether words alone name a machine."""
    from dictate.mentions import find

    return any(e.type or e.name or e.model or e.serial for e in find(segments).equipment)
