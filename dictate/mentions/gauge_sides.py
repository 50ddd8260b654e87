"""Pressures in and out of a strainer, a filter or a pump, and what is lost between them.

lost_across(words, first, last, start, end)    "19 pounds gone in the strainer"
gauged_sides(words, first, last, start, end)   "gauges across the strainer 31 | in and 12 | out"
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import word_list

_REACH = 9
_SIDES = frozenset(("in", "out"))
_STOPS = frozenset((".", ",", ";", "and", "so", "now", "?", "!"))


def lost_across(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Tell whether pounds or bar are what is lost across a thing that something runs through."""
    behind = words[end : min(last, end + _REACH)]
    cut = next((k for k, w in enumerate(behind) if w in {",", ";", "."}), len(behind))
    behind = behind[:cut]
    front = words[max(first, start - 6) : start]
    head = [w for w in behind[:2] if w not in {"of", "a", "is"}]
    lost = bool(head) and head[0] in word_list("across_loss_behind")
    lost = lost or not word_list("across_loss_before").isdisjoint(front)
    if not lost or not _runs_through(words, max(first, start - 24), min(last, end + _REACH)):
        return False
    return word_list("readings_pounds").isdisjoint(front)


def gauged_sides(words: Sequence[str], first: int, last: int, start: int, end: int) -> bool:
    """Tell whether a bare number with "in" or "out" behind it is a pressure on one side of such a thing."""
    if words[end : end + 1] not in (["in"], ["out"]):
        return False
    behind = words[end + 1] if end + 1 < last else "."
    if behind not in _STOPS and not behind[:1].isdigit():  # "30 in 28 out": the other number follows at once
        return False
    around = words[max(first, start - 16) : min(last, end + 16)]
    if "air" in around or word_list("across_pressure_words").isdisjoint(around):
        return False
    sides = [w for w in words[max(first, start - 8) : min(last, end + 8)] if w in _SIDES]
    return {"in", "out"} <= set(sides) and _runs_through(words, max(first, start - 16), min(last, end + 16))


def _runs_through(words: Sequence[str], begin: int, end: int) -> bool:
    for k in range(begin, end):
        if words[k] in word_list("across_things") and words[k - 1] not in {"air", "cabin", "pollen"}:
            return True
    return False


__all__ = ["gauged_sides", "lost_across"]
