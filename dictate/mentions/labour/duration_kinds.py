"""What a duration is of: the work, the travel, a break, or the machine (which is none of ours)."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import phrases_by_first
from dictate.mentions.labour.closing import closes_the_visit, of_a_machine
from dictate.mentions.labour.counted_in import value_between
from dictate.mentions.labour.of_the_visit import called_by_its_hours, on_a_sheet, on_the_bill, roughly
from dictate.mentions.machine_times import timed_by_event
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_ENDING = 4  # sentences in which a visit is summed up
_LABELS = word_set("labels", "labour")
_OF_LABELS = word_set("of_labels", "labour")
_FIGURED = frozenset(("figure", "i", "we", "so", "i'd", "me", "for", "on", "about", "it", "that", "at"))
_SUMMING_UP = word_set("summing_up", "labour")


def duration_kind(finder: WorkingTimes, start: int, end: int, minutes: bool) -> str | None:
    """Return "work", "travel" or "break" for a duration of work; None for a time of the machine."""
    s0, s1 = finder.scopes.sentence(start)
    before = finder.row[max(s0, start - 7) : start]
    after = finder.row[end : min(s1, end + 5)]
    # commas part the thoughts of one sentence
    cut = max((k for k, w in enumerate(before) if w in (",", ";", "plus", "and")), default=-1)
    near_before = before[cut + 1 :]
    stop = next((k for k, w in enumerate(after) if w in (",", ";", "plus", ".", "and")), len(after))
    near_after = after[:stop]
    near = (*near_before, "|", *near_after)

    def has(name: str, row: tuple[str, ...]) -> bool:
        begun = phrases_by_first(name)
        return any(
            row[k : k + len(p)] == p for k, word in enumerate(row) if word in begun for p in begun[word]
        )

    late = finder.w.sentence_of[start] >= len(finder.w.sentences) - 3
    figured = late and "figure" in finder.row[s0:start] and all(w in _FIGURED for w in finder.row[s0:start])
    if (
        any(w in ("quoted", "quote", "estimate", "estimated", "allow", "figure") for w in (*near, *after))
        and "spent" not in near
        and not figured  # "Figure three hours and a quarter."
    ):
        return None
    if not_of_the_visit(near_before, near_after):
        return None
    if not minutes and closes_the_visit(finder, start, end):
        return "work"
    if near_after == ("work",) or near_after == ("labour",) or near_after == ("labor",):
        return "work"
    if finder.off_the_clock(start):
        return "break"  # "In at eight, out at one fifteen, less half an hour for the supply house"
    if has("travel", near) and "no" not in near_after:  # "ran two hours with no trip"
        return "travel"
    if near_after[:1] == ("in",) and near_after[1:2] in ((), (",",)) and not late:
        return None  # "half an hour in, cabinet 42"
    if near_after[:2] == ("on", "it") and near_after[2:3] in (("was",), ("is",), ("it",), ("reads",)):
        return None  # "blanked off, ten minutes on it was 480"
    if near_after[:3] == ("on", "the", "clock") and value_between(finder, s0, s1):
        return None  # "nitrogen at 14 bar, an hour on the clock"
    if near_before[-1:] in (("has",), ("had",)) and "i" not in near_before and "we" not in near_before:
        return None  # "the compressor has 14 hours on it"
    if near_before[-3:] == ("on", "it", "for") and near_before[-4:-3] and near_before[-4] in NUMBER_WORDS:
        return None  # "two hundred fifty on it for half an hour": a pressure stood so long
    if near_after[:2] in (("over", "lunch"), ("over", "dinner"), ("over", "my")):
        return None
    if has("breaks", near) and "without" not in near_after:
        return "break"
    if has("breaks", near):
        return "work"  # "seven and a half hours without lunch"
    whole_tail = finder.row[end:s1]
    whole_tail = whole_tail[
        : next((k for k, w in enumerate(whole_tail) if w in ("plus", ",", ";")), len(whole_tail))
    ]
    tail = [w for w in whole_tail if w not in (".", ",", "!")]
    head = [w for w in finder.row[s0:start] if w not in word_set("around_duration")]
    alone = not head and len(tail) <= 3 and not has("machine", tuple(tail))
    # "an hour, and it is at minus two"
    measured = not minutes and (value_between(finder, end, s1) or _below_zero(finder.row[end:s1]))
    alone = alone and not measured
    beside = [c for c in finder.read if c.end == start - 1 or 0 < c.start - end <= 6]
    if minutes and alone and timed_by_event(finder.row, s0, s1, start, end):
        return None  # "it kicked out at fifty six. Eleven minutes."
    counted = not near_after or near_after[0] in word_set("counts_in", "labour")
    counted = counted and not has("machine", near_after)
    if beside and not near_before and counted and finder.row[start - 1] in (",", ".", ";"):
        return "work"  # "Left at twenty to four, two hours ten", "..., two hours with the paperwork"
    if (
        not minutes
        and finder.row[start - 1] in (",", "so")
        and not tail
        and not near_before
        and any(s0 <= c.start < start for c in finder.read)
    ):
        return "work"  # "started at nine, lunch from twelve to one, done at three, five hours"
    if (
        not minutes
        and late
        and not tail
        and not near_before
        and finder.row[start - 1] == ","
        and not word_set("closing", "labour").isdisjoint(finder.row[s0:start])
        and not any(k in finder.units for k in range(s0, start))
    ):
        return "work"  # "Sticker signed, one and a half hours."
    if (
        not minutes
        and late
        and all(w in ("even", "flat", "straight", "total", "labour", "labor") for w in tail)
        and (
            (not near_before and finder.row[start - 1] in (",", "and"))
            or near_before[-2:] in (("them", "for"), ("him", "for"), ("her", "for"), ("customer", "for"))
        )
        and not word_set("billing", "labour").isdisjoint(finder.row[s0:start])
    ):
        return "work"  # "The bill has the contactor at eighty five euro and two and a half hours."
    if not minutes and late and not near_before and finder.row[start - 1] == "," and roughly(near_after):
        return "work"  # "the boss man's happy, two hours near enough"
    if near_after == ("on",) or (minutes and finder.row[end - 1] == "minute" and near_after[:1] != ("call",)):
        return None  # "an hour on, the box reads 37", "19 minute freezes"
    if not minutes and late and not measured and _sums_up(finder, tail, end, s1):
        summed = finder.row[max(s0, start - 9) : start]
        if s0 >= start - 9 and all(w in _SUMMING_UP for w in summed):
            return "work"  # "took the best part of three hours", "done in an hour and a half"
        if summed[-2:] in ((",", "so"), (",", "call")):
            return "work"
    if not minutes and called_by_its_hours(near_before, finder.row[end - 1], near_after, late):
        return "work"
    if not minutes and late and on_the_bill(near_after):
        return "work"  # "so take off half an hour, three hours on the bill"
    if not minutes and late and counted and on_a_sheet(finder.row[s0:start]):
        return "work"  # "invoice says two hours, ..."
    if any(near_before[k : k + 3] == ("put", "me", "down") for k in range(len(near_before))):
        return "work"
    if "minimum" in near_before:
        return None  # "minimum charge is an hour"
    if _LABELS & set(head) and all(w in _LABELS or w in _OF_LABELS for w in head) and len(tail) <= 3:
        return "work"  # "Time on this one, two and a quarter hours"
    number = finder.w.sentence_of[start]
    early_or_late = number >= len(finder.w.sentences) - _ENDING or number < 2
    if alone and (number >= len(finder.w.sentences) - 2 if minutes else early_or_late):
        return "work"
    if not minutes and near_before[-2:] in (("took", "me"), ("took", "us"), ("total", "of")):
        return "work"
    if has("machine", near) and not has("work", near_after):
        return None
    if has("work", _of_work(near_before, near_after)):
        if "took" in near_before and cut >= 0 and not late:
            return None  # "iced over, took me twenty minutes with the steamer": one task of the visit
        if (
            minutes
            and not has("work", near_after)
            and not any(w in near for w in ("took", "labor", "labour", "billed", "spent", "site"))
        ):
            return None
        if near_after[:1] not in (("total",), ("altogether",)) and any(
            w in near_before for w in word_set("duration_to_come")
        ):
            return None
        if near_before[-2:] in (("it", "took"), ("took", "me")) or "took" in near_before:
            if near_after[:1] in (("to",),) or (near_before[-1:] == ("took",) and near_after[:1] == ("for",)):
                return None
            if (
                "me" not in near_before
                and "us" not in near_before
                and "job" not in near_before
                and "all" not in near_after
                and "total" not in near_after
            ):
                return None
        return "work"
    return None


def _sums_up(finder: WorkingTimes, tail: list[str], end: int, s1: int) -> bool:
    """Tell whether the words behind hours leave them to the visit: no machine, no "on it never tripped"."""
    if all(w in word_set("behind_hours", "labour") for w in tail):
        return True
    if len(tail) > _FEW or tail[0] in word_set("counting_in_hours", "labour") or tail[0] == "in":
        return False
    thing = any(end <= t.start < s1 for t in things_of(finder.w))
    return tail[:2] != ["on", "it"] and not thing and not of_a_machine(tuple(tail))


_FEW = 5


def _below_zero(words: tuple[str, ...]) -> bool:
    """Tell whether a temperature below zero is told without its unit: "it's minus two"."""
    return any(b == "minus" and a in ("at", "'s", "is", "was", "it's") for a, b in pairwise(words))


def not_of_the_visit(before: tuple[str, ...], after: tuple[str, ...]) -> bool:
    """Tell whether the clause of a duration is of another time: a logger's, a rate, one that did not come."""
    if before[-2:] in (("logged", "for"), ("logs", "for")) or after[:1] == ("while",):
        return True  # "set the jumper to 60 minutes while I was at it"
    if before and before[-1] in NUMBER_WORDS | {"kilos", "pounds", "litres", "liters", "gallons"}:
        return True  # "twenty-five an hour"
    return not word_set("not_this_time", "labour").isdisjoint(before)


def _of_work(before: tuple[str, ...], after: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words of a clause that may tell of work.

    "An hour on it, all told" does; "an hour on it drew six amps" and "a hundred on it for an hour" are of the
    machine, as is what runs "on the clock" with more words behind it.
    """
    upon = next((k for k, w in enumerate(after) if w in _UPON), None)
    if upon is not None and upon + 2 <= len(after):
        rest = after[upon + (3 if after[upon + 1] == "the" else 2) :]
        if not all(w in word_set("behind_hours", "labour") for w in rest):
            after = after[:upon]
    lead = tuple(
        "|" if w == "it" and k and before[k - 1] == "on" and not _ours(before, k) else w
        for k, w in enumerate(before)
    )
    return (*lead, "|", *after)


def _ours(before: tuple[str, ...], k: int) -> bool:
    return not {"i", "we", "been", "i've", "we've", "spent", "me", "us", "worked"}.isdisjoint(before[:k])


_UPON = ("on", "at")
