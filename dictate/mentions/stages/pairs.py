"""Values of one sentence that are set against each other, or share one moment: `was_and_is`.

"Box was forty six, thirty nine when I left"      46 as found, 39 as left
"Return 76, supply 61 when I came"                both as found
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.patterns import Words
from dictate.mentions.stages.contrast import time_passed
from dictate.record.visit import Reading

_Placed = tuple[int, int, Reading]
_LEAVING = frozenset(("left", "leaving", "now"))
_AFTER = _LEAVING | {
    "later",
    "after",
    "afterwards",
    "since",
    "came",
    "come",
    "went",
    "dropped",
    "when",
    "by",
    "back",
    "down",
    "up",
}
_IS = frozenset(("is", "it's", "'s", "are"))
_CLOSE = 4
"""Words between two values that share a moment, and from the second to the words that tell it."""


def was_and_is(row: tuple[str, ...], placed: Sequence[_Placed], words: Words) -> None:
    """Set the stages of values by the others of their sentence, in place."""
    for n, (first, end, reading) in enumerate(placed):
        if reading.role != "measured" or reading.stage == "as_found":
            continue
        if not {"was", "were"} & set(row[max(0, first - 3) : first]):
            continue
        sentence = words.sentence_of[first]
        _, stop = words.sentences[sentence]
        for f, _, later in placed[n + 1 : n + 4]:
            if words.sentence_of[f] != sentence or later.stage != "as_left":
                continue
            if later.quantity != reading.quantity:
                continue
            if not _same_thing(later, reading) or time_passed(row, first, end, words.sentences[sentence][0]):
                continue  # "an hour later suction was 3.1 bar, head 15 now"
            again = (later.point, later.component) == (reading.point, reading.component)
            apart = again and not _left_with(row, end) and _LEAVING & set(row[end:stop])
            told = apart or bool(
                _AFTER & set(row[end:stop]) or _IS & set(row[end:f])
            )  # not "first freeze was 16, second 15"
            if (reading.stage is None and told) or apart:
                reading.stage = "as_found"
                break
    for (first, end, one), (begin, stop, two) in reversed(list(pairwise(placed))):
        shared = one.stage is None and two.stage == "as_found" and one.quantity == two.quantity
        shared = shared and one.point != two.point  # "36 after an hour, 55 when I started"
        if (
            shared
            and {one.role, two.role} == {"measured"}
            and words.sentence_of[first] == words.sentence_of[begin]
            and begin - end <= _CLOSE
            and not {"was", "were", "now", "."} & set(row[end:begin])
            and "when" in row[stop : stop + _CLOSE]
        ):
            one.stage = "as_found"
    for (first, end, one), (begin, _, two) in pairwise(placed):
        gap = row[end:begin]
        if (
            gap[:1] == ("now",)
            and gap[-1:] in (("was",), ("from",))
            and len(gap) <= _CLOSE
            and {one.role, two.role} == {"measured"}
            and (one.quantity, one.unit) == (two.quantity, two.unit)
            and _same_thing(one, two)
            and words.sentence_of[first] == words.sentence_of[begin]
        ):
            one.stage, two.stage = "as_left", "as_found"  # "36 now, was 48"
        if (
            one.stage == "as_found"
            and two.stage is None
            and {one.role, two.role} == {"measured"}
            and one.point != two.point
            and words.sentence_of[first] == words.sentence_of[begin]
            and ("with" in gap or "over" in gap)
            and len(gap) <= _CLOSE + 1
            and not {"now", ".", "after", "later"} & set(gap)
        ):
            two.stage = "as_found"  # "before cleaning it was 295 with the suction at 38"


def short_of_what_it_should(row: tuple[str, ...], placed: Sequence[_Placed], words: Words) -> None:
    """Set found what a box was where the same sentence tells what it should be, in place.

    As in "that was at minus eleven and it should be minus eighteen".
    """
    for (first, end, one), (begin, _, two) in pairwise(placed):
        gap = row[end:begin]
        if (
            one.stage is None
            and (one.role, two.role) == ("measured", "target")
            and one.quantity == two.quantity
            and (one.quantity == "temperature" or one.component == "expansion vessel")
            and one.point in (None, "box", "product")
            and one.value != two.value
            and words.sentence_of[first] == words.sentence_of[begin]
            and len(gap) <= 8
            and {"should", "supposed", "meant", "want", "wants", "wanted"} & set(gap)
            and {"was", "were"} & set(row[max(0, first - 4) : first])
        ):
            one.stage = "as_found"


def _same_thing(one: Reading, two: Reading) -> bool:
    """Tell whether two values can be of one place: the same, or one of them was not told."""
    point = one.point == two.point or None in {one.point, two.point}
    return point and (one.component == two.component or None in {one.component, two.component})


def _left_with(row: tuple[str, ...], end: int) -> bool:
    """Tell whether a value has its own word of leaving: "44 and coming down when I left, and"."""
    stop = next((i for i in range(end, min(end + 12, len(row))) if row[i] in {",", ".", ";"}), end)
    return bool(_LEAVING & set(row[end:stop]))


__all__ = ["short_of_what_it_should", "was_and_is"]
