"""A bare number that is named with its machine: "ice machine, four oh four, air cooled".

A refrigerant of three digits is often said once, as one trait of the machine among others, without its letter
and without a verb. There it is known by its place: the machine was just named, nothing was read yet, and the
number stands alone between two marks. On a plate it stands right before the amount that it is the charge of.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.spoken_numbers import find_numbers
from dictate.vocabulary.load import table

_MARKS = frozenset((",", ".", ";", ":", "-", ""))
_FIRST_SENTENCES = 2
_A_ROW_FROM = 100.0  # a number as large as this behind it makes it one of a row ("410, 408, 412")
_REACH = 14


@cache
def _context(key: str) -> frozenset[str]:
    return frozenset(table("refrigerants")["context"][key])


@cache
def _machines() -> frozenset[str]:
    """Return the last words of all names of machines ("machine", "cooler", "van")."""
    entries = table("machines")["machine"]
    names = [said for e in entries for said in (e["type"], *e.get("said", ()))]
    last = {name.lower().split()[-1] for name in names}
    kept = {w for w in last if w.isalpha()} - NUMBER_WORDS - _context("no_machine_alone")
    return frozenset((*kept, "walk", "reach"))  # the parts of "walk-in" and "reach-in"


def named_with_its_machine(narration: Narration, start: int, end: int, name: str = "") -> bool:
    """Tell whether a bare number of three digits at the tokens [start, end) is a refrigerant by its place."""
    words = narration.lowers
    before = words[start - 1] if start else ""
    if before not in _MARKS and before not in _context("introduced_by"):
        return False
    if not _alone(narration, end):
        return False
    sentence = next((k for k, (a, b) in enumerate(narration.sentences) if a <= start < b), 0)
    first = narration.sentences[sentence][0]
    said = words[max(first, start - _REACH) : start]
    piece = said[max((k + 1 for k, w in enumerate(said[:-1]) if w in _MARKS), default=0) :]
    if not _context("numbered").isdisjoint(piece if before not in _MARKS else ()):
        return False  # "model 404": but what stands behind a comma is a trait of its own
    if not _context("introduced_never").isdisjoint(said):
        return False
    plate = not _context("plates").isdisjoint(said)
    if plate or before not in _MARKS:
        # "the tag says 410" can be volts as well: only the charge behind it tells.
        if plate and amount_behind(narration, end):
            return True
        if plate:
            return before == ":"
    if sentence >= _FIRST_SENTENCES:
        # "Then the ice maker under the bar, four oh four.": a number that is hardly ever read
        rare = "".join(c for c in name if c.isdigit()) in table("refrigerants")["apart"]["rarely_read"]
        return rare and not _machines().isdisjoint(words[first:start])
    if start == first and sentence:
        first = narration.sentences[sentence - 1][0]  # "Ice machine. Four oh four. Air cooled."
        if not _context("introduced_never").isdisjoint(words[first:start]):
            return False
    return not _machines().isdisjoint(words[first:start])


def _alone(narration: Narration, end: int) -> bool:
    """Tell whether the number ends at a mark, or goes on as "in it"; and is no first one of a row."""
    words = narration.lowers
    after = words[end] if end < len(words) else ""
    if after not in _MARKS:
        return words[end : end + 2] in (["in", "it"], ["in", "them"])
    behind = next((n for n in find_numbers(narration) if n.start == end + 1), None)
    return (
        behind is None
        or behind.value is None
        or abs(behind.value) < _A_ROW_FROM
        or _mass(narration, behind.end)
    )


def amount_behind(narration: Narration, end: int) -> bool:
    """Tell whether an amount stands right behind a number, a comma aside."""
    return any(n.start in (end, end + 1) and _mass(narration, n.end) for n in find_numbers(narration))


def _mass(narration: Narration, k: int) -> bool:
    return k < len(narration.tokens) and narration.lowers[k] in _context("masses")


def named_by_its_frame(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a number can only be a gas where it stands.

    "Gas four one zero.", "this one's a one thirty-four,", "three ton, twenty two.", "gauges then, four oh
    four, suction ...": a value has no article, and a label's value stands behind the label.
    """
    words = narration.lowers
    after = words[end] if end < len(words) else ""
    if after not in _MARKS:
        return False
    lead = words[max(0, start - 3) : start]
    if lead[-1:] == [","] and lead[-2:-1] and lead[-2] in _context("tons"):
        return end - start > 1 or words[start] == "22"
    number = "".join(words[start:end])
    if end - start < 2 and not (number.isdigit() and len(number) == 3):
        return False
    if lead[-1:] == ["gas"] and (not lead[-2:-1] or lead[-2] not in _context("gas_of_a_line")):
        return True
    if lead[-1:] in (["a"], ["an"]) and lead[-2:-1] in (["'s"], ["is"], ["it's"], ["here's"], ["that's"]):
        return True
    if lead[-1:] != [","] or not _context("gauges_put_on").intersection(lead[:-1]):
        return False
    return after == "," and words[end + 1 : end + 2] != [] and words[end + 1] in _context("first_read")


def only_describes(narration: Narration, end: int, form: str) -> bool:
    """Tell whether a gas only tells which people or things: "the ammonia boys", "behind the propane cage"."""
    word = narration.lowers[end] if end < len(narration.lowers) else ""
    return form.isalpha() and word in _context("of_gas_people_and_things")


def in_a_machine(words: Sequence[str], end: int) -> bool:
    """Tell whether the words behind a number say in what it is: "in D", "in that one", "in both of them"."""
    if list(words[end : end + 1]) != ["in"]:
        return False
    k = end + 1 + (list(words[end + 1 : end + 2]) == ["the"])
    behind = list(words[k : k + 3])
    if behind and len(behind[0]) == 1 and behind[0].isalpha():
        return True
    if behind[:2] in (["this", "one"], ["that", "one"], ["other", "one"], ["both", "of"], ["all", "of"]):
        return True
    return behind[:1] in (["both"], ["them"], ["each"], ["there"], ["here"]) and behind[1:2] in (
        [],
        ["."],
        [","],
    )


def charged_next(narration: Narration, end: int) -> bool:
    """Tell whether the sentence behind a place begins with gas that went in or out: "Gave it two pounds"."""
    following = next(((a, b) for a, b in narration.sentences if a > end), None)
    words = narration.lowers[following[0] : min(following[1], following[0] + 12)] if following else []
    return not _context("moved_next").isdisjoint(words[:3]) and not (_context("masses") - {"g"}).isdisjoint(
        words
    )
