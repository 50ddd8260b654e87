"""Lists of what somebody wanted done: neither done nor planned, whatever became of it is told behind."""

from __future__ import annotations

from dictate.mentions.patterns import AMBIGUOUS
from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import OURS
from dictate.vocabulary.load import word_set

HEAD_WITHIN = 10
"""Words of a sentence within which it is told to be a list of wishes."""
SHORT = 8
"""Words of a sentence that only names one of the wishes ("Cellar cooler, clean.")."""


def wished_for(talk: Talk, i: int) -> bool:
    """Tell whether word i stands in a list of what was wanted.

    "What they asked for was motors and a recharge."  "Before I went in: descale, swap the float."
    "Here's what wanted doing. Cooler, clean. Chiller, new pump."
    """
    number = talk.w.sentence_of[i]
    start, end = talk.w.sentences[number]
    head = _head(talk, start, end)
    if head is not None:
        return head <= i and not _goes_on_with_work(talk, head, i)
    while number and end - start <= SHORT and not _tells_of_today(talk, start, end):
        number -= 1
        start, end = talk.w.sentences[number]
        head = _head(talk, start, end)
        if head is not None:
            # The list is not in the head's own sentence: "here's what wanted doing, it was on a beer mat."
            opens = talk.words[start] not in ("that", "that's", "which", "it", "it's")
            return opens and not any(
                talk.kind(k) == "base" or talk.words[k] in OURS for k in range(head, end)
            )
    return False


def _head(talk: Talk, start: int, end: int) -> int | None:
    """Return the word behind the words that head a list of wishes in the sentence [start, end)."""
    last = min(end, start + HEAD_WITHIN)
    k = talk.has(start, last, "lists", "wish_heads")
    if k is None or not OURS.isdisjoint(talk.words[start:k]):
        return None
    return k + talk.begins_with(k, "lists", "wish_heads", end=last)


def _goes_on_with_work(talk: Talk, head: int, i: int) -> bool:
    """Tell whether the speaker tells of his own work behind the head ("they asked for a wash, I did it").

    What stands before the first mark may still be of the head: "on my hand before I went in, ...".
    """
    first = next((k for k in range(head, min(head + 8, i)) if talk.words[k] in (",", ":")), head)
    return any(
        talk.words[k] in OURS or (talk.kind(k) == "past" and talk.words[k] not in AMBIGUOUS)
        for k in range(first, min(i + 1, len(talk.words)))
    )


def _tells_of_today(talk: Talk, start: int, end: int) -> bool:
    """Tell whether a short sentence tells of something that was, is or was done."""
    return any(
        talk.words[k] in OURS
        or talk.words[k] in word_set("ends_a_list") | word_set("answers_a_wish")
        or (
            talk.words[k] in word_set("stands_now") and talk.words[k + 1 : k + 2] in ((".",), (",",), ("it",))
        )
        or talk.kind(k) in ("third", "past")
        for k in range(start, end)
    )
