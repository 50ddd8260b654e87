"""Bare numbers that are no value: part of a name, how far something may be off, a tester's volts."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.labels import find_components, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, numbers_by_end, numbers_by_start
from dictate.mentions.values.value import Value


def is_tolerance(narration: Narration, number: Number) -> bool:
    """Tell whether a number is how far something may be off: "fifty-five plus or minus two"."""
    words = narration.lowers
    front = words[max(0, number.start - 3) : number.start + 1]
    return front[-3:] in (["plus", "or", "minus"], ["plus", "and", "minus"]) or front[:3] == [
        "give",
        "or",
        "take",
    ]


_PARTS = frozenset(("tenth", "tenths", "hundredth", "hundredths"))
_NO_PART = frozenset(
    ("of", "an", "a", "to", "past", "full", "way", "charge", "turn", "turns", "inch", "share")
)
"""Behind a fraction: a share of something, a time of day, a size."""


def is_measured_part(narration: Narration, number: Number, before: Sequence[Value]) -> bool:
    """Tell whether a fraction of one is a value without its unit: tenths, or one more of a row of values.

    Meters show tenths, and nobody counts or cuts things in them: "eight tenths, eight tenths, nine tenths".
    A half or a quarter is a value where it goes on a row: "point four, a half and point six".
    """
    words = narration.lowers
    if words[number.end : number.end + 1] and words[number.end] in _NO_PART:
        return False
    if not _PARTS.isdisjoint(words[number.start : number.end]):
        return True
    last = before[-1] if before else None
    if last is None or last.state != "value" or not 0 < abs(last.value) < 10 or last.value == int(last.value):
        return False
    return words[last.end : number.start] in ([","], ["and"], [",", "and"], [",", "a"])


_ROWS = frozenset({"line-up", "lineup", "row", "bank", "set", "run", "group", "string", "batch"})


def is_of_a_row(narration: Narration, number: Number) -> bool:
    """Tell whether a number counts a row of things: "the third case of a line-up of five"."""
    words = narration.lowers
    front = words[max(0, number.start - 3) : number.start]
    if front[-1:] != ["of"] or number.places or not 2 <= number.value <= 24:
        return False
    return front[-2:-1] != [] and (front[-2] in _ROWS or front[-3:-1] == ["line", "up"])


def is_test_volts(narration: Narration, number: Number) -> bool:
    """Tell whether a number is the volts of an insulation tester: "megger to earth at 500"."""
    if number.value not in {50, 100, 250, 500, 1000, 2500, 5000}:
        return False
    words = narration.lowers
    at = number.start - (words[number.start - 1 : number.start] in (["the"], ["its"]))
    if words[at - 1 : at] not in (["at"], ["on"], ["with"], ["set"], ["to"]):
        return False
    behind = words[number.end : number.end + 2]
    if behind and behind[0].startswith(("meg", "gig")):
        return False
    front = words[max(0, number.start - 8) : number.start]
    return any(w.startswith(("megger", "meggar", "megged", "insulation")) for w in front)


_TESTERS = (
    ["insulation", "tester"],
    ["insulation", "test"],
    ["insulation", "meter"],
    ["insulation", "range"],
)


def is_testers_volts(narration: Narration, end: int) -> bool:
    """Tell whether volts are those that a tester of insulation puts on: "500 volt megger to the shell"."""
    behind = narration.lowers[end : end + 2]
    return bool(behind) and (behind[0].startswith(("megger", "meggar", "megga")) or behind in _TESTERS)


def designators(narration: Narration) -> set[int]:
    """Return the tokens that are part of a name: "fan two", "leg 1", "L 2", "the second fan"."""
    out: set[int] = set()
    for point in find_points(narration):
        out.update(range(point.start, point.end))
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    for c in find_components(narration):
        # "Fans 1 to 4 run", "circuits 2 and 3": a row of names
        near = [starts[i] for i in (c.end, c.end + 2) if i in starts]
        row = [n for n in near if 1 <= n.value <= 12 and n.value.is_integer()]
        if (
            (
                len(row) == 2
                and row[0].end + 1 == row[1].start
                and narration.tokens[row[0].end].lower in {"to", "and", "through", "-"}
            )
            and not row[0].places
            and not row[1].places
            and narration.tokens[c.end - 1].lower.endswith("s")
        ):
            out.update(range(row[0].start, row[1].end))
        if c.which is None or not c.which.isdigit():
            continue
        beside = (starts.get(c.end), starts.get(c.end + 1), ends.get(c.start))
        for number in beside:
            if number is not None and not number.places and f"{number.value:g}" == c.which:
                out.update(range(number.start, number.end))
                break
    return out
