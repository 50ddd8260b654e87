"""Which way an amount went that was told by the cylinder it came from.

"I put in 11 lbs off the first jug and 6 lbs off the second, so 17 pounds": all of it was charged, though
"off" and "out of" are words of a recovery as well.
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases_by_first
from dictate.vocabulary.load import word_set

_OUT_OF = (
    ("off", "the"),
    ("off", "a"),
    ("out", "of"),
    ("from", "the"),
    ("from", "a"),
    ("off", "my"),
    ("off", "one"),
)
_WHICH = frozenset(("first", "second", "third", "other", "next", "last", "new", "old", "full"))
_SUMS = frozenset(("so", "that's", "makes", "total", "is", "that", "'s", ",", "for", "a", "all", "of", "in"))
_REACH = 5


def with_the_cylinders_way(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Call charged what came off another cylinder in the sentence of a charge, and their sum, in place."""
    before: Mass | None = None
    chained = False
    for a in amounts:
        same = before is not None and talk.scopes.sentence(before.start) == talk.scopes.sentence(a.start)
        if before is not None and same and before.kind == "charged" and a.kind == "recovered":
            own = any(
                h.label == "recovered" and h.verb is not None and before.end <= h.start < a.start
                for h in talk.hits
            )
            summed = chained and all(w in _SUMS for w in talk.words[before.end + _REACH : a.start])
            if not own and ((_off_one(talk, before.end) and _off_one(talk, a.end)) or summed):
                a.kind, chained = "charged", True
        elif not same:
            chained = False
        if a.kind in ("recovered", "charged"):
            before = a
    return amounts


def _off_one(talk: Talk, k: int) -> bool:
    """Tell whether the words from k say which cylinder an amount came from: "off the first jug"."""
    row = talk.words[k : k + _REACH]
    if row[:2] not in _OUT_OF:
        return False
    return any(w in _WHICH or w in word_set("weighed_vessels") for w in row[1:])


def weighs_something_else(talk: Talk, start: int) -> bool:
    """Tell whether "weighed it, 2.1 kilos" weighs ice, a part or a yield: no refrigerant is spoken of."""
    lead = talk.words[max(0, start - 4) : start]
    if lead[-3:-1] not in (("weighed", "it"), ("weighed", "them"), ("weighed", "that")) or lead[-1:] != (
        ",",
    ):
        return False
    return not talk.names and word_set("gas_words").isdisjoint(talk.words[max(0, start - 60) : start])


def said_again_bare(talk: Talk, moved: list[Mass]) -> tuple[int, int] | None:
    """Return the words of "the zero point eight back in": a bare number that was the amount recovered."""
    out = [m for m in moved if m.kind == "recovered"]
    if len(out) != 1 or any(m.kind == "charged" for m in moved):
        return None
    begun = phrases_by_first("went_back")
    for k, end in sorted(talk.counted.items()):
        if k < out[0].end or talk.words[k - 1] not in ("the", "that", "same", "those", "my"):
            continue
        number = next(iter(talk.numbers_in(k, k + 1)), None)
        if number is None or number.value != out[0].value:
            continue
        row = talk.words
        if any(row[end : end + len(p)] == p for p in begun.get(row[end] if end < len(row) else "", ())):
            return k, end
    return None


__all__ = ["said_again_bare", "weighs_something_else", "with_the_cylinders_way"]
