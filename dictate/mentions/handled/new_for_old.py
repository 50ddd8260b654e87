"""Parts of which one was taken out and a new one is told of right behind, in any words.

"Unsweated the valve, ... new valve's a two ton."  "Cut the old drier out, the new one's brazed in."
"Pulled the old contactor. Set the new one and landed the wires."

Where the new one is still to come, was left out, does not fit or went back, nothing was exchanged.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.new_ones import put_off
from dictate.mentions.handled.put_in import put_in
from dictate.mentions.handled.talk import Talk
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set


def new_for_old(talk: Talk) -> list[Handled]:
    """Return the exchanges of which only the taking out was read, and the new one is named behind it."""
    if "new" not in talk.words and "replacement" not in talk.words:
        return []
    put = {t.part for h in talk.out if h.action in ("replaced", "installed") for t in h.things}
    out: list[Handled] = []
    for thing, last in _taken_out(talk):
        new = None if thing.part in put else _new_one_behind(talk, thing, last)
        made = put_in(talk, [thing], new, new + 2, pronoun=True) if new is not None else None
        if made is not None:
            out.append(made)
            put.add(thing.part)
    return out


def _taken_out(talk: Talk) -> Iterator[tuple[Thing, int]]:
    """Yield the parts that were taken out, each with the word behind the telling of it."""
    for h in talk.out:
        if h.action == "removed" and h.status == "done":
            for thing in handled_parts(h.things):
                yield thing, max(h.end, thing.end)
    for thing in talk.things:
        i = thing.start - 1
        if i < 1 or talk.words[i] != "old" or thing.modifier or not handled_parts([thing]):
            continue
        verb = next((k for k in range(i - 1, max(-1, i - 4), -1) if talk.scopes.kind(k) == "past"), None)
        if verb is None or talk.scopes.forms[talk.words[verb]].verb not in word_set("takes_old_out"):
            continue
        if talk.scopes.verb(verb) == "done":
            yield thing, thing.end


def _new_one_behind(talk: Talk, thing: Thing, last: int) -> int | None:
    """Return the word "new" of the new one told of in the same sentence as the old, or in the next."""
    here = talk.w.sentence_of[thing.start]
    for number in range(here, min(here + 2, len(talk.w.sentences))):
        start, end = talk.w.sentences[number]
        for i in range(max(start, last), end - 1):
            if talk.words[i] in ("new", "replacement") and _is_it(talk, i, thing):
                return i if _is_there(talk, i, max(start, last), end) else None
    return None


def _is_it(talk: Talk, i: int, thing: Thing) -> bool:
    """Tell whether the "new" at word i is one of the part that was taken out."""
    if talk.words[i + 1] in ("one", "ones"):
        return True
    k = bisect_left(talk.starts, i + 1)
    named = talk.things[k] if k < len(talk.things) and talk.starts[k] <= i + 3 else None
    if named is None or any(w in (",", ".", "and") for w in talk.words[i : named.start]):
        return False
    return named.part == thing.part or (named.generic and named.part.split()[-1] == thing.part.split()[-1])


def _is_there(talk: Talk, i: int, start: int, end: int) -> bool:
    """Tell whether the new one at word i is told of as one that is in place, or being put there."""
    if put_off(talk, max(start, i - 8), end) or talk.scopes.conditional(i) or not talk.scopes.ours(i):
        return False
    front = talk.words[max(start, i - 4) : i]
    if any(w in word_set("new_one_not_put_in") for w in front):
        return False  # "told him he wants a new one", "no new one on the van"
    stop = next((k for k in range(i + 1, end) if talk.words[k] in (".", ";", "but", "so")), end)
    behind = talk.words[i + 1 : min(stop, i + 8)]
    if any(w in word_set("does_not_fit") or w in word_set("went_back_words") for w in behind):
        return False
    return talk.scopes.noun(i, i + 2) == "done"
