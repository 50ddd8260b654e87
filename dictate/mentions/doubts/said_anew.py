"""Was it said anew at once, without a word that takes the first one back: "sixteen ohms... seventeen".

The readers keep both values, for the second one may as well be the next of a row, or a change that went by.
Where no name, no row and no word of change stands beside them, two values of one thing cannot both hold;
unless that is how the visit is told: gauges read aloud while they move, again and again.
"""

from __future__ import annotations

from dictate.mentions.doubts.talk import Case, word_set
from dictate.mentions.spoken_numbers import Number

_FAR = 7
"""Words between two values of which one is the other turned round or its last digits."""
_NEAR = 3
_MOVES = frozenset(("pressure", "temperature", "current"))
"""What a gauge shows that moves while the machine runs."""
_TOLD_SO = 2
"""Other rows read aloud in a visit from which on two values in a row are its way of telling."""
_AGAIN = 30
"""Words between a value and the same number in another unit."""


def said_anew_beside(c: Case) -> str | None:
    """Doubt a value with another of the same thing right behind it, and nothing that tells the two apart."""
    nxt, r, number = c.following, c.reading, c.number
    if (why := _other_unit(c)) is not None:
        return why
    if nxt is None or number is None or nxt.number is None or not _of_one(c, nxt):
        return None
    gap = c.talk.words[c.end : nxt.start]
    if len(gap) > _FAR or nxt.start < c.end or word_set("goes_on") & {*gap, *nxt.after(2)}:
        return None
    if word_set("goes_by") & set(c.before(3)):
        return None
    ends = [f"{x.value:g}" for x in c.talk.numbers_in(c.end, nxt.start)]
    slip = _slip(number, nxt.number) or any(f"{nxt.number.value:g}".endswith(x) for x in ends)
    if not slip and (len(gap) > _NEAR or not set(gap) <= word_set("pauses") or _row(c, nxt) or _many(c)):
        return None
    if not slip and not 0.8 <= abs(r.value or 1.0) / (abs(nxt.reading.value or 0.0) or 1.0) <= 1.25:
        return None
    if not slip and r.quantity in _MOVES and _read_while_moving(c) > _TOLD_SO:
        return None
    return f"right behind it {nxt.reading.heard!r} was said of the same thing"


def _other_unit(c: Case) -> str | None:
    """Doubt a value whose number is said again in another unit: "44 ohms on it... that's 44 K"."""
    r, nxt = c.reading, c.following
    for _ in range(3):
        if nxt is None or nxt.start - c.end > _AGAIN or c.number is None:
            return None
        x = nxt.reading
        again = nxt.number is not None and nxt.number.value == c.number.value and not x.unit_assumed
        if again and c.number.value and (x.quantity, x.point) == (r.quantity, r.point) and x.retracts is None:
            other = x.unit != r.unit or x.value != r.value
            named = c.talk.labels_from(nxt.start, nxt.end) or x.component != r.component
            if other and not named and x.role == "measured":
                return f"the same number was said with another unit behind it: {x.heard!r}"
        nxt = nxt.following
    return None


def _of_one(a: Case, b: Case) -> bool:
    """Tell whether two values are measured ones of one thing, and the second brings no name of its own."""
    x, y = a.reading, b.reading
    same = (x.quantity, x.unit, x.component, x.point) == (y.quantity, y.unit, y.component, y.point)
    if not same or y.which not in {None, x.which} or x.value is None or y.value is None or x.value == y.value:
        return False
    if x.role != "measured" or y.role != "measured" or y.retracts is not None or x.retracts is not None:
        return False
    if x.relation not in {None, "="} or y.relation not in {None, "="} or x.quantity == "duration":
        return False
    named = [*a.talk.labels_from(a.end, b.end), *a.talk.components_from(a.end, b.end)]
    return not named and not a.talk.points_from(a.end, b.end)


def _row(a: Case, b: Case) -> bool:
    """Tell whether the two stand in a row of more: "208, 207, 209"."""
    p, n, r = a.previous, b.following, a.reading
    return any(
        x is not None and (x.reading.quantity, x.reading.point) == (r.quantity, r.point) and far <= _NEAR
        for x, far in ((p, a.start - p.end if p else 0), (n, n.start - b.end if n else 0))
    )


def _read_while_moving(c: Case) -> int:
    """Count the rows of values of one moving thing that were read aloud in the visit."""
    while c.previous is not None:
        c = c.previous
    rows, within = 0, False
    while c.following is not None:
        x = c.following
        beside = x.start - c.end <= _NEAR and set(c.talk.words[c.end : x.start]) <= word_set("pauses")
        goes_on = beside and c.reading.quantity in _MOVES and _of_one(c, x)
        rows += goes_on and not within
        within, c = goes_on, x
    return rows


def _many(c: Case) -> bool:
    """Tell whether there are several of the thing, or it is pumped down meanwhile: "fans 1.2, 1.3"."""
    if c.reading.quantity == "vacuum":
        return True
    parts = c.talk.components_from(c.start - 2 * _NEAR, c.end)
    return any(c.talk.words[x.end - 1].endswith("s") for x in parts)


def _slip(a: Number, b: Number) -> bool:
    """Tell whether one number is the other with its digits turned round or its point moved."""
    x, y = f"{abs(a.value):g}".replace(".", ""), f"{abs(b.value):g}".replace(".", "")
    if a.value == b.value:
        return False
    if x.strip("0") == y.strip("0") and x.strip("0"):
        return True
    return len(x) == len(y) > 1 and x != y and sorted(x) == sorted(y)


__all__ = ["said_anew_beside"]
