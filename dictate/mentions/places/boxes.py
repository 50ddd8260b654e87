"""Whether a narration is of a cold box: a cabinet, a case or a room that has a temperature inside."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.word_lists import word_list

_ROOMS = frozenset(
    (("cold", "room"), ("walk", "in"), ("chill", "room"), ("cool", "room"), ("milk", "room"), ("keg", "room"))
)
_FIRSTS = frozenset(first for first, _ in _ROOMS)


def has_box(words: Sequence[str]) -> bool:
    """Tell whether a cold box is named anywhere."""
    if not word_list("default_points_boxes").isdisjoint(words):
        return True
    return not _FIRSTS.isdisjoint(words) and any(p in _ROOMS for p in pairwise(words))
