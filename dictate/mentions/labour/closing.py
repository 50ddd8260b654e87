"""Hours that sum a visit up in its last sentences: "did two hours fifty", "seven hours, with the supply run".

A clause that is nothing but hours and words of summing up (labour.toml, `before_closing_hours` and
`behind_hours`) tells how long the visit took. What was counted in may follow in any words, but no number; a
clause may stand before it that tells of no value, no machine's time and no thing of the machine.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import Clock, clock_at, may_begin, minutes_to, phrases_by_first
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.whose.things import things_of
from dictate.record.mentions import LabourMention
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_ENDING = 3  # sentences in which a clause of hours sums the visit up
_LAST = 2  # ... in which other clauses may stand before it
_CUTS = frozenset((",", ";", ":", "-"))
_ENDS = frozenset((".", "!", ","))
_SHORTEST, _LONGEST = 0.5, 14.0
_SMALL_COUNTS = frozenset(("one", "two"))  # "two people would be better, but I was alone"
_OURS_AND = (("and", "i"), ("and", "we"), ("and", "i'm"), ("and", "we're"), ("and", "that's"))
_UNSAID = "hours were not said"


def closes_the_visit(finder: WorkingTimes, start: int, end: int) -> bool:
    """Tell whether the hours in the words [start, end) are told as those of the whole visit."""
    number = finder.w.sentence_of[start]
    count = len(finder.w.sentences)
    if number < max(1, count - _ENDING):
        return False
    s0, s1 = finder.w.sentences[number]
    head = _head(finder, s0, start)
    if head is None:
        return False
    tail = finder.row[end:s1]
    while tail and tail[-1] in _ENDS:
        tail = tail[:-1]
    if any(_is_number(w) for w in tail):
        return False  # "an hour, and it is at minus two"
    stop = next((k for k, w in enumerate(tail) if w in _CUTS or w == "and"), len(tail))
    own = tail[:stop]
    counted = bool(own) and own[0] in word_set("counting_in_hours", "labour")
    if any(end <= t.start < s1 for t in things_of(finder.w)):
        return False  # "an hour and a half with the fan blocked off"
    if not counted and (
        of_a_machine(tail[stop:]) or not all(w in word_set("behind_hours", "labour") for w in own)
    ):
        return False
    if head > s0:
        # another clause stands before it
        others = finder.row[s0:head]
        return (
            number >= count - _LAST
            and not tail
            and not any(_is_number(w) and w not in _SMALL_COUNTS for w in others)
            and not of_a_machine(others)
            and not any(s0 <= t.start < head for t in things_of(finder.w))
        )
    told_on = tail[stop : stop + 2] in _OURS_AND  # "two hours fifty and I took his number"
    return bool(own) or head < start or told_on


def _head(finder: WorkingTimes, s0: int, start: int) -> int | None:
    """Return the first word of the clause whose hours begin at `start`; None where more is told in it."""
    k = start
    while k > s0 and finder.row[k - 1] not in _CUTS:
        k -= 1
    words = finder.row[k:start]
    if not all(w in word_set("before_closing_hours", "labour") for w in words):
        return None
    return k


def of_a_machine(words: tuple[str, ...]) -> bool:
    """Tell whether words speak of a time of the machine: a test, a hold, a run."""
    begun = phrases_by_first("machine")
    return any(words[k : k + len(p)] == p for k, w in enumerate(words) for p in begun.get(w, ()))


def _is_number(word: str) -> bool:
    return word in NUMBER_WORDS or word[:1].isdigit()


def bare_hours(finder: WorkingTimes) -> list[LabourMention]:
    """Read "Two and a quarter." and "took one and a half": quarters of hours whose unit was not said.

    Only a sentence of the last two that is nothing else, and the very last one where no word of it says that
    it is of time; it is doubted.
    """
    taken: set[int] | None = None
    for start, end in finder.w.sentences[-_LAST:]:
        for number in find_numbers(finder.narration):
            k, last = finder.w.word_of_token(number.start), finder.w.word_of_token(number.end)
            if not start <= k < end or number.form == "clock" or not float(number.value) % 1:
                continue
            if not _SHORTEST <= number.value <= _LONGEST or number.value * 4 % 1:
                continue
            lead = [w for w in finder.row[start:k] if w not in _CUTS]
            spent = not word_set("spent_on_it", "labour").isdisjoint(lead)
            rest = [w for w in finder.row[last:end] if w not in _ENDS]
            if not all(w in word_set("before_closing_hours", "labour") for w in lead):
                continue
            if not all(w in word_set("behind_hours", "labour") for w in rest):
                continue
            if not spent and (lead or end < len(finder.row)):
                continue
            if taken is None:
                taken = {finder.w.word_of_token(q.start) for q in find_quantities(finder.narration)}
            if k in taken:
                continue
            s, e = finder.w.span(start if spent else k, last)
            at, heard = finder.narration.at(s, e), finder.narration.heard(s, e)
            return [LabourMention("work", None, float(number.value), at, heard, [_UNSAID])]
    return []


def closing_clock(finder: WorkingTimes, clocks: list[Clock]) -> None:
    """Read "Ten past nine.", a late sentence that is nothing but a time, as the end of a visit."""
    if not any(c.kind == "start" for c in clocks) or any(c.kind == "end" for c in clocks):
        return
    for start, end in finder.w.sentences[-_ENDING:]:
        clock = clock_at(finder.row, start) if may_begin(finder.row[start]) else None
        clock = minutes_to(finder.row, start) or clock
        if clock is None or clock.bare or not finder.plausible(clock) or start < clocks[-1].end:
            continue
        said = finder.row[start : clock.end]
        if not any(":" in w or w in _OF_THE_CLOCK for w in said):
            continue  # "Two fifteen." may be a pressure
        rest = [w for w in finder.row[clock.end : end] if w not in _ENDS]
        if all(w in ("now", "exactly", "sharp", "then") for w in rest):
            clock.kind, clock.doubt = "end", _NOT_SAID
            clocks.append(clock)
            return


_OF_THE_CLOCK = frozenset(
    ("past", "to", "till", "til", "half", "quarter", "o'clock", "noon", "am", "pm", "a.m", "p.m")
)
_NOT_SAID = "that it is the end was not said"
