"""Found and left told by contrast, by the machine running again, and by things gone through in turn.

contrasts(row, placed, repaired)   "0.9 before the strainer was cleaned, 1.9 after", "19 percent ... 28 now"
after_headings(row, placed, sentences)  "Suction was 4, head 190. After: suction 12, head 215"
runs_again(row, start)              a sentence that begins with the machine running again
section_starts(row, sentences)     where the next of several things begins ("Case 5.", "Second, the cooler")
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from dictate.mentions.phrases import by_first_word
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading
from dictate.vocabulary.load import table

Placed = tuple[int, int, Reading]
_AFTERWARDS = (("now",), ("after",), ("afterwards",), ("afterward",), ("later",))
_SPANS = frozenset(("hour", "hours", "minute", "minutes", "min", "mins", "while", "bit", "day", "week"))
_STOPS = ((".",), (",",), (), ("and",), (";",))


@cache
def _running() -> dict[str, list[tuple[str, ...]]]:
    return by_first_word(tuple(p.split()) for p in table("stage_words")["running"]["phrases"])


def runs_again(row: Sequence[str], start: int) -> bool:
    """Tell whether a sentence that starts at a word says that the machine runs again."""
    while start < len(row) and row[start] in {"and", "so", "then", "okay", "right", ",", "anyway", "well"}:
        start += 1
    begun = _running().get(row[start], ()) if start < len(row) else ()
    return any(tuple(row[start : start + len(p)]) == p for p in begun)


def section_starts(
    row: Sequence[str], sentences: Sequence[tuple[int, int]], values: frozenset[int] | set[int] = frozenset()
) -> list[int]:
    """Return the words at which the next of several things begins that are gone through in turn.

    `values` are the words at which readings begin: "Cabinet six degrees" counts no cabinets.
    """
    out = []
    named: set[tuple[str, str]] = set()
    for start, end in sentences:
        head = [w for w in row[start : min(end, start + 5)] if w != "the"]
        if len(head) < 2:
            continue
        if head[0] in word_list("stage_next_things") and head[1] in {",", "machine", "unit"}:
            out.append(start)
        elif head[0] in word_list("stage_counted_things") and head[1] in word_list("rows_again_names"):
            if row.index(head[1], start) in values:
                continue
            if (head[0], head[1]) not in named:
                out.append(start)
            named.add((head[0], head[1]))
    return out


def after_headings(
    row: Sequence[str], placed: Sequence[Placed], sentences: Sequence[tuple[int, int]]
) -> None:
    """Set the stage of the values of a sentence that "After:" opens, and of the same ones told before it.

    Both may be told when all is done; what the heading sets them against was found.
    """
    for start, end in sentences:
        if (row[start],) not in _AFTERWARDS or row[start + 1 : start + 2] != (":",):
            continue
        here = [r for f, _, r in placed if start <= f < end and r.role == "measured"]
        for reading in here:
            reading.stage = "as_left"
            same = (reading.quantity, reading.point, reading.component, reading.equipment)
            for first, _, other in reversed(placed):
                what = (other.quantity, other.point, other.component, other.equipment)
                if start - 40 < first < start and other.role == "measured" and what == same:
                    other.stage = "as_found"
                    break


def contrasts(row: Sequence[str], placed: Sequence[Placed], repaired: int | None) -> None:
    """Set the stage of two values of one thing that are set against each other, in place.

    The later one must be told by "now", "after" or the like beside it; the earlier one then was found.
    `repaired` is the word at which the first repair was told, None where none was: what is set against comes
    before it, unless it "was" so.
    """
    spans = {id(r): (f, e) for f, e, r in placed}
    for n, (first, end, reading) in enumerate(placed):
        if reading.role != "measured" or reading.quantity in {"vacuum", "mass"}:
            continue
        lately = row[max(0, first - 12) : first - 1]
        before_and_after = (
            row[first - 1] == "after" and "before" in lately and not side_of_a_filter(row, first - 1)
        )
        if reading.stage == "as_found" and not (
            before_and_after or (n and time_passed(row, first, end, placed[n - 1][1]))
        ):
            continue
        before = _set_against(placed, n)
        if before is None:
            continue
        f, e = spans[id(before)]
        since = row[f + 1 : first]
        worked = bool(word_list("stage_worked") & set(since))
        was_is = row[f - 1] == "was" and tuple(row[first - 2 : first]) == (
            "and",
            "is",
        )
        if (
            repaired is not None
            and repaired > first
            and before.stage != "as_found"
            and not (worked or was_is)
        ):
            continue  # "28 percent, so I topped it up and it's 34 now" is told of a piece of work of its own
        if n and placed[n - 1][2] is before and _listed(row, placed[n - 1], first, end):
            if repaired is not None:
                reading.stage = before.stage = "as_left"  # "they're taking 7.5 and 7.3 now"
            continue
        renewed = {"with", "the", "new"} <= set(since) or {"with", "a", "new"} <= set(since)
        passed = time_passed(row, first, end)
        looks_back = row[f - 1] in {"was", "were", "started", "been"} or row[e : e + 1] == ("then",)
        if (
            repaired is not None
            and f > repaired
            and not (renewed or before_and_after or (passed and looks_back))
        ):
            continue
        led = tuple(row[max(0, first - 2) : first])
        behind = tuple(row[end : end + 2])
        told = led[-1:] in (("after",), ("now",)) or led in (("now", "it's"), ("now", "'s"), ("now", "at"))
        told = told or (led[:1] == ("after",) and led[1:] in (("it's",), ("'s",)))  # "After it's 224"
        told = told or passed or renewed or (behind[:1] in _AFTERWARDS and behind[1:] in _STOPS)
        if not told:
            was = row[f - 1] == "was"
            told = was and led == ("and", "is")
        if told:
            reading.stage = "as_left"
            again = repaired is not None and repaired < f and time_passed(row, f, e)
            before.stage = before.stage or ("as_left" if again else "as_found")


def _listed(row: Sequence[str], before: Placed, first: int, end: int) -> bool:
    """Tell whether two values joined by "and" are told of one time: "they're taking 7.5 and 7.3 amps now"."""
    f, e, _ = before
    joined = tuple(row[e:first]) in {("and",), (",", "and"), ("amps", "and"), ("degrees", "and")}
    led = set(row[max(0, f - 3) : f])
    return joined and row[end : end + 1] == ("now",) and not {"was", "were", "from", "had"} & led


def time_passed(row: Sequence[str], first: int, end: int, since: int = 0) -> bool:
    """Tell whether a value is told after some time: "44 an hour later", "after a while thirty-six"."""
    behind = tuple(row[end : end + 6])
    for k, word in enumerate(behind):
        if word in {".", ",", ";", "and", "but"}:
            break
        if word in {"later", "on"} and k and behind[k - 1] in _SPANS:
            return True
        if word == "after" and behind[k + 1 : k + 2] in (
            ("a",),
            ("an",),
            ("half",),
            ("another",),
            ("about",),
        ):
            return bool(_SPANS & set(behind[k + 1 : k + 5]))
    led = tuple(row[max(since, first - 8) : first])
    for k in range(len(led) - 1, -1, -1):
        if led[k] in {".", ";"}:
            return False
        if led[k] == "later" and k and led[k - 1] in _SPANS:
            return True
        if led[k] == "after" and _SPANS & set(led[k + 1 :]):
            return True
    return False


def side_of_a_filter(row: Sequence[str], i: int) -> bool:
    """Tell whether "before" or "after" at word i is a side: "filter before 2.7, after 2.5"."""
    lead = list(row[max(0, i - 9) : i])
    lead = lead[max((k for k, w in enumerate(lead) if w in {".", ";", "?", "!"}), default=-1) + 1 :]
    return not _FILTERS.isdisjoint(lead) and word_list("stage_worked").isdisjoint(lead)


_FILTERS = frozenset(("filter", "drier", "dryer", "strainer"))


def _set_against(placed: Sequence[Placed], n: int) -> Reading | None:
    """Return the earlier value of the same kind and place that the value n is set against."""
    first, _, reading = placed[n]
    for f, _, other in reversed(placed[:n]):
        if first - f > 45:
            return None
        if other.quantity != reading.quantity or other.role != "measured":
            continue
        same = other.unit == reading.unit and other.equipment == reading.equipment
        place = other.point == reading.point or None in {other.point, reading.point}
        part = other.component == reading.component or None in {other.component, reading.component}
        if not (same and place and part) or other.stage == "as_left" or other.value == reading.value:
            return None
        return other
    return None
