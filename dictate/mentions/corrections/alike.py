"""What is asked and done with one value or two, whatever the shape of the correction."""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.corrections.correction_words import correction_words
from dictate.mentions.whose.taken import LOOSE, Taken


def alike(a: Taken, b: Taken) -> bool:
    """Tell whether two values can be of one thing: same quantity, and no place that speaks against it."""
    x, y = a.reading, b.reading
    return (
        x.quantity == y.quantity
        and (x.point == y.point or not x.point or not y.point)
        and (x.component == y.component or not x.component or not y.component)
        and (x.which == y.which or not x.which or not y.which)
    )


def same_number(a: Taken, b: Taken) -> bool:
    """Tell whether two values were said with the same number."""
    return a.value.state == b.value.state and abs(a.value.value - b.value.value) < 1e-9


def tries_again(words: list[str], old: Taken, new: Taken) -> bool:
    """Tell whether the two are of two tries, each of which read what it read.

    As in "first try it hung up at 900, hose was loose, my fault. Second go got to 390".
    """
    looks = correction_words("taken_for", "looks")
    first, later = correction_words("taken_for", "first_try"), correction_words("taken_for", "later_try")
    lead, gap = words[max(0, old.start - 8) : old.start], words[old.end : new.start]
    return any(a in first and b in looks for a, b in pairwise(lead)) and any(
        a in later and b in looks for a, b in pairwise(gap)
    )


def reason_once(t: Taken, why: str) -> None:
    """Add a reason to look at a value."""
    if why not in t.reading.review:
        t.reading.review.append(why)
        t.reading.confidence = min(t.reading.confidence, 0.5)


def clear_loose(t: Taken) -> None:
    """Take away the reason that what it is a value of was not said: the correction says it."""
    t.reading.review = [r for r in t.reading.review if LOOSE not in r]
