"""Times of day that head the entries of a log: "Pump on at eight ten. Nine forty, four fifty".

    log_times(narration) -> first tokens of the numbers that are such times

Said without their o'clock they have the shape of microns or of pounds. So a row of them is wanted, each later
than the one before, where a pump or a pressure that stands is spoken of, and a value beside each that is of
another size.
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_start
from dictate.mentions.word_lists import word_list

_NAME = "log times"
_REACH = 70  # words between two entries of a log
_LONGEST = 180  # minutes between them
_ENDS = frozenset((".", ",", ";", ":", "?", "!"))
_STARTS = frozenset((".", ";", ":", "?", "!"))
_PARTS = {
    ("quarter", "after"): 15, ("quarter", "past"): 15, ("half", "past"): 30, ("half", "after"): 30,
    ("quarter", "to"): -15, ("quarter", "till"): -15, ("quarter", "of"): -15,
}  # fmt: skip
"""Minutes after the hour by the words in front of it."""


def log_times(narration: Narration) -> frozenset[int]:
    """Return the first tokens of the times that head a log's entries, or open it; once per narration."""
    done: frozenset[int] | None = narration.found.get(_NAME)
    if done is None:
        done = narration.found[_NAME] = _find(narration)
    return done


def _find(narration: Narration) -> frozenset[int]:
    words = narration.lowers
    tested = word_list("log_times_tests")
    if tested.isdisjoint(words):
        return frozenset()
    spots = [i for i, w in enumerate(words) if w in tested]
    times: list[tuple[Number, int, bool]] = []  # the number, its minutes, and whether it could be a value
    for n in find_numbers(narration):
        nearest = bisect_left(spots, n.start - _REACH)
        if nearest == len(spots) or spots[nearest] > n.start + 12:
            continue
        sure = _sure(narration, n)
        if sure is not None:
            times.append((n, sure, False))
        elif _of_a_time(n) and (_heads(narration, n) or _opens(words, n)):
            times.append((n, int(n.value) // 100 * 60 + int(n.value) % 100, True))
    out: set[int] = set()
    for (one, first, bare), (two, second, other) in pairwise(times):
        later = (second - first) % 720
        if two.start - one.end <= _REACH and 5 <= later <= _LONGEST:
            out |= {n.start for n, loose in ((one, bare), (two, other)) if loose}
    return frozenset(out)


def _of_a_time(n: Number) -> bool:
    """Tell whether a number has the shape of a time in full fives of minutes."""
    whole = n.value.is_integer() and not n.places and not n.negative and n.form in {"pair", "digits"}
    return whole and 100 <= n.value < 1300 and n.value % 100 < 60 and n.value % 5 == 0


def _sure(narration: Narration, n: Number) -> int | None:
    """Return the minutes of what is no value anyway: "9:40", "at nine it was", "Ten, fifteen hundred"."""
    words = narration.lowers
    if n.form == "clock":
        return int(n.value) // 100 * 60 + int(n.value) % 100 if n.value >= 100 else None
    if not (n.value.is_integer() and 1 <= n.value <= 12) or n.places or n.negative:
        return None
    behind = words[n.end : n.end + 1]
    lead = tuple(words[max(0, n.start - 2) : n.start])
    if lead in _PARTS:
        return (int(n.value) * 60 + _PARTS[lead]) % 720
    if behind == ["o'clock"]:
        return int(n.value) * 60
    value = numbers_by_start(narration).get(n.end + 1) if behind == [","] else None
    if value is not None and value.value >= 100 and words[n.start - 1 : n.start] in (["."], [";"]):
        return int(n.value) * 60
    led = words[n.start - 1 : n.start] in (["at"], ["by"])
    return int(n.value) * 60 if led and behind in (["it"], ["it's"], ["she"], [","]) else None


def _heads(narration: Narration, n: Number) -> bool:
    """Tell whether a number stands at the head of an entry with a value of another size behind it."""
    words = narration.lowers
    before = words[n.start - 1] if n.start else "."
    if before not in _STARTS | {"at", "by", "and", "then"}:
        return False
    k = n.end
    while k < len(words) and k - n.end < 4 and words[k] in word_list("log_times_between"):
        k += 1
    value = numbers_by_start(narration).get(k)
    if value is None or (k == n.end and before not in {"at", "by"}):
        return False
    alike = value.value > 0 and 0.95 <= n.value / value.value <= 1.05
    behind = words[value.end] if value.end < len(words) else "."
    return not alike and (behind in _ENDS | {"and", "then", "so", "still"} or behind.startswith("micron"))


def _opens(words: list[str], n: Number) -> bool:
    """Tell whether a number says when it was begun: "started eight ten", "pump on at eight ten"."""
    led = words[max(0, n.start - 5) : n.start]
    behind = words[n.end : n.end + 2]
    if behind[:1] == [","] and behind[1:] and behind[1] in word_list("log_times_opens"):
        return True  # "eight ten, on"
    cut = max((i for i, w in enumerate(led) if w in _ENDS), default=-1)
    told = not word_list("log_times_opens").isdisjoint(led[cut + 1 :])
    return told and (not behind or behind[0] in _ENDS | {"and", "on"})


__all__ = ["log_times"]
