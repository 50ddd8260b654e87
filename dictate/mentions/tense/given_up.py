"""Work that was begun and given up ("began to recover it and the machine quit on me")."""

from __future__ import annotations

from dictate.mentions.tense.talk import Talk
from dictate.mentions.tense.vocabulary import flat
from dictate.vocabulary.load import word_set

REACH = 5


def is_given_up(talk: Talk, i: int) -> bool:
    """Tell whether the work at word i was only begun: a start stands at or before it, a giving up behind."""
    start, end = talk.sentence(i)
    first = next(
        (
            j
            for j in range(i, max(start, i - REACH) - 1, -1)
            if talk.words[j] in word_set("begins_work") and _begins(talk, j)
        ),
        None,
    )
    if first is None:
        return False
    if any(w in flat("lists", "begun_again") for w in talk.words[i:end]):
        return False
    if talk.has(i, end, "lists", "gives_up") is not None:
        return True
    # "Started the vacuum. Had to leave it, the alarm went."
    behind = talk.w.sentence_of[i] + 1
    if behind >= len(talk.w.sentences):
        return False
    a, b = talk.w.sentences[behind]
    place = talk.has(a, min(b, a + 6), "lists", "gives_up")
    return place is not None


def _begins(talk: Talk, j: int) -> bool:
    """Tell whether the word at j begins work: "halfway" only before "through", "into" or "down"."""
    if talk.words[j] in ("halfway", "half", "partway", "part", "middle"):
        return any(w in ("through", "into", "of") for w in talk.words[j + 1 : j + 3])
    return True
