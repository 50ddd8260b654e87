"""Cleanings that the words right behind take back, and coils that were only freed of their ice.

"Condenser's a mess of flour. Not washed today."  "Hosed it off warm, so that's thawed, not cleaned."
"""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.mentions.patterns import Words
from dictate.vocabulary.load import word_set


def as_told_behind(talk: Talk, h: Handled) -> Handled | None:
    """Return a cleaning as the words around tell of it: not done, or None where it was only thawed."""
    if h.action != "cleaned" or h.status != "done" or not h.things:
        return h
    coil = all(t.name in word_set("frosts_up") for t in h.things)
    start, end = talk.scopes.sentence(h.start)
    iced = coil and any(w in word_set("says_of_ice") for w in talk.words[start:end])
    if _denied(talk, h, end):
        return None if iced else replace(h, status="not_done")
    if h.verb is None and iced:
        return None  # no plain words told of a cleaning, but of ice
    return h


def _denied(talk: Talk, h: Handled, end: int) -> bool:
    """Tell whether "not cleaned" stands behind in the sentence, or opens the next one."""
    denials = word_set("cleaned_words") if h.verb is None else frozenset({"cleaned"})
    number = talk.w.sentence_of[h.start]
    opens = number + 1 < len(talk.w.sentences)
    first = talk.w.sentences[number + 1][0] if opens else end
    places = [*range(h.end, end - 1), *(range(first, min(first + 2, len(talk.words) - 1)) if opens else ())]
    for k in places:
        if talk.words[k] != "not" or talk.words[k + 1] not in denials:
            continue
        return not any(h.end <= t.start < k for t in talk.things)  # "coil washed, drain not cleaned"
    return False


def only_thawed(words: Words, i: int) -> bool:
    """Tell whether the sentence of word i says of its ice that nothing was cleaned."""
    start, end = words.sentences[words.sentence_of[i]]
    told = words.words[start:end]
    return ("not", "cleaned") in pairwise(told) and any(w in word_set("says_of_ice") for w in told)
