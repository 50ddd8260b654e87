"""Work not done and put off to another day: "did not change the drier, that is on the schedule"."""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.handled.doing import Handled
from dictate.mentions.handled.talk import Talk
from dictate.vocabulary.load import word_set

_REACH = 9
"""Words behind the work in which the day it is put off to has to be told."""


def put_off(talk: Talk) -> list[Handled]:
    """Return what is planned for another day right behind telling that it was not done."""
    out: list[Handled] = []
    for h in talk.out:
        if h.status != "not_done" or h.action not in ("replaced", "installed", "cleaned") or not h.things:
            continue
        end = max(h.end, h.things[-1].end)
        if h.action == "cleaned" and _comes_back_to_wash(talk, end):
            out.append(replace(h, status="planned"))
            continue
        k = end
        while k < len(talk.words) and talk.words[k] in (",", ".", ";", "and", "but", "today", "yet", "now"):
            k += 1
        if k == end or talk.words[k : k + 1] == () or talk.words[k] not in word_set("names_the_work"):
            continue
        row = talk.words[k + 1 : k + _REACH]
        stop = next((n for n, w in enumerate(row) if w in (".", ",", ";", "but")), len(row))
        told = row[:stop]
        if word_set("put_off_to") & set(told) and not word_set("never_put_off") & set(told):
            out.append(replace(h, status="planned", start=h.start, end=h.end))
    return out


def _comes_back_to_wash(talk: Talk, end: int) -> bool:
    """Tell whether the next sentences bring something to wash with on a day to come.

    "Condenser, didn't do it. The tap's broken. I'm back Thursday with the pressure washer."
    """
    number = talk.w.sentence_of[end - 1]
    for first, last in talk.w.sentences[number : number + _SENTENCES]:
        row = talk.words[max(first, end) : last]
        later = next((k for k, w in enumerate(row) if w in word_set("put_off_to") or w in _LATER), None)
        if later is None or not word_set("never_put_off").isdisjoint(row):
            continue
        behind = row[later:]
        back = any(w in ("back", "return", "again") for w in row) or later == 0
        if back and any(w in ("with", "wi", "bring") for w in behind) and not _WASHERS.isdisjoint(behind):
            return True
    return False


_SENTENCES = 3
_LATER = frozenset({"fortnight", "tomorrow"})
_WASHERS = word_set("washes_with")


def is_a_rule(talk: Talk, h: Handled) -> bool:
    """Tell whether work is only wanted again and again: "that filter wants changing every month"."""
    if h.status != "planned":
        return False
    row = talk.words[h.end : h.end + 3]
    return "every" in row or row[:2] in (("once", "a"), ("twice", "a"), ("once", "every"))
