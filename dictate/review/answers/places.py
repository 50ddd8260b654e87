"""Where in the transcript an answer in words belongs: behind what was asked about, or where it says most."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from dictate.record.visit import Correction, Record
from dictate.review.answers.brought import times_asked, worth_of
from dictate.review.answers.reply import Try
from dictate.review.questions import Question, questions
from dictate.vocabulary.load import table

if TYPE_CHECKING:
    from dictate.record.transcript import Segment


MOST_PLACES = 12
MOST_WORDS = 6000
"""Beyond these an answer that was given to no question goes to the end without looking for its place."""


def settle_place(record: Record, base: Record, entry: Correction, attempt: Try) -> Correction:
    """Find where an answer belongs that was given to no question, and to which machine.

    It is tried at every open question. The place counts where it closes that question and more is read there
    than at the end; where two machines would do, it stays at the end and the machine is asked for. Words that
    name their machine need no such help.
    """
    if entry.fields.get("names_machine") or sum(len(s.words) for s in base.transcript) > MOST_WORDS:
        return entry
    topics = table("answers")["topics"]
    asked = [q for q in questions(record) if q.rule not in (None, "input")]
    if len(record.equipment) > 1:
        asked = [q for q in asked if q.rule in topics]
    found: list[tuple[int, Question, Correction]] = []
    for question in asked[:MOST_PLACES]:
        topic = topics.get(question.rule)
        for before in (None, topic) if topic else (None,):
            tried = entry.model_copy(deep=True)
            tried.after_segment = place_of(record, base, question)
            tried.rule, tried.equipment = question.rule, question.equipment
            if before is not None:
                tried.segments = [_topic(before, entry), *tried.segments]
            after = attempt(tried)
            if times_asked(after, question) >= times_asked(record, question):
                break  # the topic's own words must not be what closes it
            found.append((worth_of(after, tried, question), question, tried))
    if not found:
        return entry
    most = max(worth for worth, _, _ in found)
    best = [(q, tried) for worth, q, tried in found if worth == most]
    if len({q.equipment for q, _ in best}) > 1 or most < worth_of(attempt(entry), entry, None):
        return entry
    return best[0][1]


def _topic(words: str, entry: Correction) -> Segment:
    """Return what the question was about as a stretch of its own, so that it is plain that nobody said it."""
    from dictate.record.transcript import Segment, Word

    clip = entry.clip.id if entry.clip is not None else ""
    return Segment(clip=clip, text=words, words=[Word(text=w) for w in words.split()], source="question")


def place_of(record: Record, base: Record, question: Question | None) -> int | None:
    """Return the index into the base transcript behind which an answer belongs, null for the end.

    That is the end of the sentence in which the question arose, or the last word about its machine.
    """
    if question is None:
        return None
    own = {c.id for c in base.clips}
    spots = [a.segment for a in question.at if a.segment is not None and a.clip in own]
    if not spots and question.equipment is not None:
        things: list[Any] = [*record.readings, *record.steps, *record.parts, *record.refrigerant]
        spots = [
            t.at.segment
            for t in things
            if t.equipment == question.equipment and t.at.segment is not None and t.at.clip in own
        ]
    if not spots:
        return None
    spot = sum(1 for s in record.transcript[: max(spots) + 1] if s.clip in own) - 1
    last = len(base.transcript) - 1
    while spot < last and not _sentence_ends(base.transcript[spot], base.transcript[spot + 1]):
        spot += 1
    return min(spot, last)


def _sentence_ends(here: Segment, there: Segment) -> bool:
    return here.text.rstrip()[-1:] in ".?!" or here.clip != there.clip or there.text.lstrip()[:1].isupper()
