"""A larger and a smaller unit in one amount, also where the smaller one is left unsaid."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase
from dictate.mentions.quantities.quantity import Quantity
from dictate.mentions.quantities.unit_behind import after_fillers, unit_behind
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_words
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate

MAY_BE_OUNCES = "the number right behind the pounds may be ounces"


def smaller_unit(
    narration: Narration, numbers: Sequence[Number], n: int, phrase: Phrase
) -> tuple[Number, Phrase, bool] | None:
    """Return the smaller number and unit that follow a larger unit at once ("two pounds | six ounces")."""
    tokens = narration.tokens
    larger = unit_words()[phrase.key]
    words, start = narration.lowers, numbers[n].start
    if larger.joins is None:
        return None
    if words[start - 1 : start] == ["every"] and words[phrase.end : phrase.end + 1] == [","]:
        return None  # "every six hours, thirty minutes each"
    i = after_fillers(narration, phrase.end)
    if i < len(tokens) and tokens[i].lower in {"and", ","}:
        i = after_fillers(narration, i + 1)
    if i < len(tokens) and tokens[i].lower == "and":
        i = after_fillers(narration, i + 1)
    nxt = next((m for m in numbers[n + 1 : n + 3] if m.start == i), None)
    if nxt is None:
        return None
    unit = unit_behind(narration, nxt.end, nxt)
    if unit is None or unit.key != larger.joins[0] or nxt.value >= larger.joins[1] or nxt.negative:
        return None
    return nxt, unit, True


def bare_ounces(narration: Narration, numbers: Sequence[Number], n: int, q: Quantity, used: set[int]) -> None:
    """Take "two pounds six" and "a pound and nine" as pounds and ounces, with a reason to look."""
    words = narration.lowers
    if q.word not in {"pound", "sterling"} or q.parts or n + 1 >= len(numbers):
        return
    nxt = numbers[n + 1]
    joined = words[q.end : q.end + 1] == ["and"]
    if nxt.start != q.end + joined or not 0 < nxt.value < 16 or nxt.form not in {"plain", "fraction"}:
        return
    after = words[nxt.end] if nxt.end < len(words) else "."
    ends = word_list("quantities_bare_ounces_joined" if joined else "quantities_bare_ounces")
    if unit_behind(narration, nxt.end, nxt):
        return
    if after not in ends:
        if not joined and q.value.is_integer() and nxt.form == "plain" and nxt.value.is_integer():
            q.reasons.append(MAY_BE_OUNCES)
        return
    if joined and (nxt.form == "fraction" or not float(nxt.value).is_integer() or not q.value.is_integer()):
        return  # "a pound and a half", "two pounds and 1.5"
    alone = q.value
    q.value = alone + nxt.value / 16
    q.parts = (alone, nxt.value)
    q.numbers = (*q.numbers, nxt)
    q.end = nxt.end
    used.add(id(nxt))
    q.reasons.append("ounces were not said after the second number")
    q.candidates.append(
        Candidate(value=alone, unit="lb", heard=narration.heard(q.start, q.end), why="pounds alone")
    )


def bare_grams(narration: Narration, numbers: Sequence[Number], n: int, q: Quantity, used: set[int]) -> None:
    """Take "one kilo eight hundred" as kilograms and grams; below a hundred grams with a reason to look."""
    if q.word != "kilogram" or q.parts or not q.value.is_integer() or n + 1 >= len(numbers):
        return
    nxt = numbers[n + 1]
    if nxt.start != q.end or nxt.form != "plain" or nxt.value % 5 or not 50 <= nxt.value < 1000:
        return
    after = narration.lowers[nxt.end] if nxt.end < len(narration.lowers) else "."
    if after not in word_list("quantities_bare_ounces") or unit_behind(narration, nxt.end, nxt):
        return
    alone = q.value
    q.value, q.parts = alone + nxt.value / 1000, (alone, nxt.value)
    q.numbers, q.end = (*q.numbers, nxt), nxt.end
    used.add(id(nxt))
    if nxt.value < 100:
        q.reasons.append("grams were not said after the second number")


_CYCLES = word_list("quantities_cycles")
"""Words of what a machine does by the clock: minutes and seconds of it are said without the seconds."""
_CYCLE_NEAR = 14
_ENDS = frozenset(
    (".", ",", ";", "?", "!", "and", "now", "flat", "which", "with", "on", "this", "before", "so")
)


def bare_seconds(narration: Narration, numbers: Sequence[Number], q: Quantity, used: set[int]) -> None:
    """Take "two minutes ten" and "a minute fifty" as minutes and seconds, "an hour and ten" as minutes."""
    if q.word == "hour":
        _bare_minutes(narration, numbers, q, used)
        return
    cycle = not _CYCLES.isdisjoint(narration.lowers[max(0, q.start - _CYCLE_NEAR) : q.start])
    if q.word != "minute" or q.parts or not q.value.is_integer() or q.value > (60 if cycle else 15):
        return
    nxt = next((m for m in numbers if m.start == q.end), None)
    if nxt is None or not nxt.value.is_integer() or not 5 <= nxt.value < 60 or nxt.form != "plain":
        return
    if unit_behind(narration, nxt.end, nxt) or not _joined(narration, q, nxt, cycle):
        return
    q.parts = (q.value, nxt.value)
    q.value += nxt.value / 60
    q.numbers = (*q.numbers, nxt)
    q.end = nxt.end
    used.add(id(nxt))


def without_article(narration: Narration, numbers: Sequence[Number]) -> list[Quantity]:
    """Find "hour fifty" and "minute forty" without an article: one, and its minutes or seconds."""
    words, out = narration.lowers, []
    for nxt in numbers:
        at = nxt.start - 1
        if at < 0 or words[at] not in {"hour", "minute"} or nxt.form != "plain" or nxt.value % 5:
            continue
        led = words[at - 1] if at else "."
        ends = words[nxt.end] if nxt.end < len(words) else "."
        if led not in word_list("without_article_leads") or ends not in word_list("quantities_bare_minutes"):
            continue
        if not 5 <= nxt.value < 60 or unit_behind(narration, nxt.end, nxt):
            continue
        value = 60 + nxt.value if words[at] == "hour" else 1 + nxt.value / 60
        one = Number(at, at + 1, 1.0)
        means = unit_words()["minute"].means
        out.append(Quantity(at, nxt.end, value, "minute", "reading", means, (one, nxt), (1.0, nxt.value)))
    return out


def _joined(narration: Narration, q: Quantity, nxt: Number, cycle: bool) -> bool:
    """Tell whether a number right behind minutes is their seconds, and no level met after that time.

    Before "after ten minutes forty" a level is told; "dropped in one minute fifty" and "held for two minutes
    thirty." tell nothing but the time.
    """
    before = narration.lowers[q.start - 1] if q.start else ""
    if before in {"after", "another", "every"}:
        return False
    if before not in {"for", "within", "in"}:
        return True
    ends = nxt.end >= len(narration.lowers) or narration.lowers[nxt.end] in _ENDS
    if before == "in":
        return cycle or (q.value == 1 and ends)
    return ends and nxt.value % 5 == 0


def _bare_minutes(narration: Narration, numbers: Sequence[Number], q: Quantity, used: set[int]) -> None:
    """Take "an hour and ten" and "two hours twenty" as minutes."""
    words = narration.lowers
    if q.parts or not q.value.is_integer() or not 1 <= q.value <= 48 or q.range or q.change:
        return
    start = q.end + (words[q.end : q.end + 1] == ["and"])
    if start == q.end and words[max(0, q.start - 1) : q.start] not in (
        ["took"],
        ["takes"],
        ["for"],
        ["ran"],
        ["in"],
    ):
        return  # "after an hour | forty one"
    nxt = next((m for m in numbers if m.start == start), None)
    if nxt is None or nxt.form != "plain" or not nxt.value.is_integer() or not 5 <= nxt.value < 60:
        return
    if start == q.end and nxt.value % 5 and words[q.start - 1 : q.start] != ["in"]:
        return  # "after an hour | forty one": nobody rounds to a minute
    after = words[nxt.end] if nxt.end < len(words) else "."
    if (
        nxt.value % 5
        or after not in word_list("quantities_bare_minutes")
        or unit_behind(narration, nxt.end, nxt)
    ):
        return
    q.parts = (q.value, nxt.value)
    q.value, q.word, q.means = q.value * 60 + nxt.value, "minute", (("min", 1.0),)
    q.numbers = (*q.numbers, nxt)
    q.end = nxt.end
    used.add(id(nxt))
