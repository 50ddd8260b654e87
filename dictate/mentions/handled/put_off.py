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


def is_a_rule(talk: Talk, h: Handled) -> bool:
    """Tell whether work is only wanted again and again: "that filter wants changing every month"."""
    if h.status != "planned":
        return False
    row = talk.words[h.end : h.end + 3]
    return "every" in row or row[:2] in (("once", "a"), ("twice", "a"), ("once", "every"))
