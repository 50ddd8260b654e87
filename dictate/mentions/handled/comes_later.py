"""Parts that are on their way or lie somewhere, and go in on a day to come.

"New motor's coming, probably Wednesday, and that goes in two."  "That's for Monday, I've one at the shop."
"The one on order should be here Tuesday and I'll put it in then."

Three things have to be told of one part: that it is elsewhere, the day, and that it goes in.
"""

from __future__ import annotations

from dictate.mentions.handled.doing import Handled, handled_parts
from dictate.mentions.handled.referents import part_meant
from dictate.mentions.handled.talk import Talk
from dictate.mentions.whose.things import Thing
from dictate.vocabulary.load import word_set

_DENIES = frozenset(("not", "no", "never", "didn't", "won't", "isn't", "without"))
_DONE = frozenset(("went", "installed", "fitted", "swapped", "changed", "arrived", "came", "bolted"))


def comes_later(talk: Talk) -> list[Handled]:
    """Return the replacements that are announced so, of parts that nothing else tells of."""
    told = {
        t.name
        for h in talk.out
        if h.action in ("replaced", "installed") and h.status in ("done", "planned")
        for t in h.things
    }
    out: list[Handled] = []
    for start, end in talk.w.sentences:
        place = _where_it_is(talk, start, end)
        if place is None or not _goes_in_later(talk, start, end):
            continue
        if not talk.scopes.ours(place) and "i" in talk.words[start:place]:
            continue
        if talk.scopes.conditional(place) or talk.words[end - 1] == "?":
            continue
        thing = _which(talk, start, place)
        if thing is not None and thing.name not in told and handled_parts([thing]):
            out.append(Handled("replaced", "planned", [thing], place, place + 1, None, True, pronoun=True))
            told.add(thing.name)
    return out


def _where_it_is(talk: Talk, start: int, end: int) -> int | None:
    """Return the word that tells that a new part is elsewhere: "coming", "due", "on | order", "shop"."""
    row = talk.words
    new = next((k for k in range(start, end) if row[k] in ("one", "ones", "new", "replacement")), None)
    if new is None or not _DONE.isdisjoint(row[start:end]):
        return None
    for k in range(new, end):
        if row[k] in word_set("is_elsewhere") and _DENIES.isdisjoint(row[max(start, k - 4) : k]):
            return k
    return None


def _goes_in_later(talk: Talk, start: int, end: int) -> bool:
    """Tell whether words say that it goes in, and on a day to come."""
    row = talk.words[start:end]
    if word_set("times_to_come").isdisjoint(row):
        return False
    for k in range(len(row) - 1):
        if row[k] in ("goes", "going", "go") and row[k + 1] in ("in", "on") and row[k - 1] != "i'm":
            return True
        if row[k : k + 2] == ("for", "then") or (
            row[k : k + 2] == ("'s", "for") and row[k - 1] in ("that", "it")
        ):
            return True
        if row[k] in ("i'll", "we'll", "i'm", "gonna") and not word_set("puts_it_in").isdisjoint(
            row[k + 1 : k + 4]
        ):
            return True
    return False


def _which(talk: Talk, start: int, place: int) -> Thing | None:
    """Return the part that is meant: the new one by its name, or the one told of before."""
    for k in range(start, place):
        if talk.words[k] in ("new", "replacement"):
            named = talk.thing_from(k + 1)
            if named is not None:
                return named
    named_here = [t for t in talk.things if start <= t.start < place and not t.modifier and not t.generic]
    if named_here:
        return named_here[-1] if len({t.name for t in named_here}) == 1 else None
    return part_meant(talk, start, "replaced")
