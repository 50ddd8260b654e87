"""A pressure that stood and the one while it flows: "water pressure sixty static, forty-two flowing".

"Static" behind a number is of that number, and never of the next one.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.whose.taken import Found

_STATIC = frozenset(("static", "standing"))
_WATER = 12
"""Words before the pair within which water is spoken of."""


def told_static(found: Found, words: Sequence[str]) -> None:
    """Take "static" off the value behind it where it is said of the one before, in place."""
    for a, b in pairwise(found.readings):
        gap = words[a.end : b.start]
        one, two = a.reading, b.reading
        if one.quantity != "pressure" or two.quantity != "pressure" or two.point != "static":
            continue
        said_behind = not _STATIC.isdisjoint([*gap[:1], words[a.end - 1]])
        joined = set(gap[1:]) <= {",", "and", "but", ";", "-", "only", "about", "it's"}
        if not said_behind or not joined or _STATIC & set(words[b.end : b.end + 1]):
            continue
        water = "water" in words[max(0, a.start - _WATER) : a.start]
        two.point = "water" if water or one.point == "water" else None
        if one.point is None:
            one.point = "water" if water else "static"


__all__ = ["told_static"]
