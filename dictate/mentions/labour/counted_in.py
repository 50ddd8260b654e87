"""What is counted into a working time or taken off it: driving, lunch, several people; hours only called."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import phrase_length, phrases_by_first
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.mentions import LabourMention
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_NEAR = 7
_ENDING = 3
_SMALL = frozenset((",", "of", "the", "that", "'s", "was", "is", "a", "and", ":"))


def driving_counted_in(finder: WorkingTimes, end: int) -> tuple[list[LabourMention], bool]:
    """Tell whether driving is counted into a duration that ends at `end`, and return how long it was.

    "Including the drive of forty", "with the driving", "twenty minutes of that driving" (which is a duration
    of its own and read as one).
    """
    row = finder.row
    _, stop = finder.scopes.sentence(end - 1)
    rest = row[end : min(stop, end + _NEAR)]
    if "." in rest:
        rest = rest[: rest.index(".")]
    driving = [k for k in range(len(rest)) if phrase_length(rest, k, "travel")]
    first = next((k for k, w in enumerate(rest) if w in word_set("counting_in", "labour")), None)
    if (
        not driving
        or first is None
        or "no" in rest
        or any(w not in _SMALL for w in rest[:first])
        or driving[0] < first
    ):
        return [], False
    for n in find_numbers(finder.narration):
        k = finder.w.word_of_token(n.start)
        last = finder.w.word_of_token(n.end)
        behind = all(w in _SMALL for w in row[end + driving[0] + 1 : k])
        if end + driving[0] < k < min(stop, end + _NEAR + 3) and behind and n.value % 5 == 0:
            if row[last : last + 1] not in ((".",), (",",), ()) or not 5 <= n.value <= 90:
                break
            s, e = finder.w.span(k, last)
            at, heard = finder.narration.at(s, e), finder.narration.heard(s, e)
            return [
                LabourMention("travel", None, round(float(n.value) / 60, 4), at, heard, [_MINUTES_MEANT])
            ], True
    return [], True


_MINUTES_MEANT = "minutes were not said"


def taken_off(finder: WorkingTimes, end: int, first: int) -> bool:
    """Tell whether the duration that begins at `first` is taken off the one that ends at `end`."""
    between = finder.row[end:first]
    return (
        0 < len(between) <= 4
        and any(w in word_set("less", "labour") for w in between)
        and all(w in word_set("less", "labour") or w in _SMALL or w == "off" for w in between)
    )


def people_near(finder: WorkingTimes, i: int) -> bool:
    """Tell whether the sentence of word i, or the one before it, names people who work together."""
    number = finder.w.sentence_of[i]
    start, _ = finder.w.sentences[max(0, number - 1)]
    _, end = finder.w.sentences[number]
    return any(w in word_set("people", "labour") for w in finder.row[start:end])


def called(finder: WorkingTimes, known: list[LabourMention]) -> list[LabourMention]:
    """Read "call it four", a sentence of its own at the end; the hours were not said, so it is doubted."""
    if any(m.kind == "work" for m in known):
        return []
    begun = phrases_by_first("call_it")
    for start, end in finder.w.sentences[-_ENDING:]:
        n = phrase_length(finder.row, start, "call_it") if finder.row[start] in begun else 0
        for number in find_numbers(finder.narration) if n else ():
            k, last = finder.w.word_of_token(number.start), finder.w.word_of_token(number.end)
            whole = k == start + n and all(w in (".", "even", "flat") for w in finder.row[last:end])
            if not whole or not 0 < number.value <= 12 or number.value * 4 % 1:
                continue
            if any(finder.w.word_of_token(q.start) == k for q in find_quantities(finder.narration)):
                continue
            s, e = finder.w.span(start, last)
            at, heard = finder.narration.at(s, e), finder.narration.heard(s, e)
            return [LabourMention("work", None, float(number.value), at, heard, ["hours were not said"])]
    return []


def value_between(finder: WorkingTimes, start: int, end: int) -> bool:
    """Tell whether a value that is no duration stands in the words [start, end)."""
    return any(
        q.unit not in ("h", "min", "s", "%", None) and start <= finder.w.word_of_token(q.start) < end
        for q in find_quantities(finder.narration)
    )
