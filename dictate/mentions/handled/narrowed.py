"""Parts that the speaker takes back right behind naming them ("motor and capacitor, no, capacitor only")."""

from __future__ import annotations

from dictate.mentions.handled.talk import Talk
from dictate.mentions.handled.vocabulary import DETERMINERS
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

REACH = 9


def as_corrected(talk: Talk, things: list[Thing], last: int) -> list[Thing]:
    """Return the parts that stay of those named before word `last`, with what was put right behind it.

    "... no, only the capacitor" keeps that one, "... not the valve" drops it, "the door switch, I mean the
    door closer" changes the last one.
    """
    if not things:
        return things
    stop = min(len(talk.words), last + REACH)
    k = last
    while k < stop and talk.words[k] in (",", "."):
        k += 1
    cued = k
    while k < stop and talk.words[k] in word_set("takes_a_part_back"):
        k += 1
    if k == cued or k >= stop:
        return things
    if talk.words[cued] in ("well", "i", "it", "'s", "was", "the", "just", "only", ",") and not any(
        w in word_set("correction_of_part") for w in talk.words[cued:k]
    ):
        return things
    dropped = talk.words[k] == "not"
    k += dropped
    while k < stop and (talk.words[k] in DETERMINERS or talk.words[k] in ("only", "just")):
        k += 1
    meant = talk.thing_from(k)
    if meant is None:
        return things
    after = talk.words[meant.end] if meant.end < len(talk.words) else "."
    only = after in ("only", "alone") or any(w in ("only", "just") for w in talk.words[cued:k])
    if after not in (".", ",", "only", "alone", "and", "though"):
        return things
    named = [t for t in things if _same(t, meant)]
    if dropped:
        return [t for t in things if t not in named]
    if only:
        return named or [meant]
    if named or (len(things) > 1 and any(w == "and" for w in talk.words[things[0].end : things[-1].start])):
        return things
    return [meant]


def _same(a: Thing, b: Thing) -> bool:
    return a.name == b.name or a.name.endswith(b.name) or b.name.endswith(a.name)
