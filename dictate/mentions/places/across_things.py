"""Differences over a thing, and temperatures on both sides of a valve or a drier.

    across_things(found, words, components)

"An eight degree drop across the drier", "ninety-eight in and ninety-one out, seven degree drop", "into the
solenoid at thirty-one and out at eleven", "going in the valve 41, coming out of the valve 63".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import Found, Taken

_OVER = frozenset(("across", "over", "through"))
_ARTICLES = frozenset(("the", "a", "an", "that", "this", "my", "its"))
_THINGS = frozenset(("filter drier", "strainer", "water filter", "oil filter"))
_FLOWS = (
    ("into",), ("in",), ("out", "of"), ("past",), ("through",), ("leaving",), ("entering",), ("before",),
    ("after",), ("ahead", "of"), ("behind",), ("downstream", "of"), ("upstream", "of"),
)  # fmt: skip
_STOPS = frozenset((".", ";", "?", "!"))
_TEMPERED = frozenset(("temperature_difference", "pressure"))
_REACH = 9
_SAME_VALVE = 60
_VALVES = frozenset(("valve", "valves", "solenoid", "txv", "tev", "tx"))


def across_things(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Set the component of differences and of temperatures at a valve or drier, in place."""
    at = {c.start: c for c in components}
    valve: ComponentAt | None = None
    for k, w in enumerate(words):
        if k in at and at[k].name.endswith("valve") and _VALVES & set(words[k : at[k].end]):
            valve = at[k]
        elif w == "valve" and k not in at and valve is not None and k - valve.end < _SAME_VALVE:
            at[k] = replace(valve, start=k, end=k + 1)  # "going in the valve", said of the one named before
    rows = sorted(found.readings, key=lambda t: t.start)
    if not {"across", "drop", "into", "out", "past", "in", "through", "before", "after"} & set(words):
        return
    for before, t in pairwise([None, *rows]):
        assert t is not None
        if t.reading.quantity == "temperature" and t.reading.component is None:
            _at_a_valve(t, before, words, at)
    for i, t in enumerate(rows):
        r = t.reading
        dropped = r.derived or "drop" in words[max(0, t.start - 7) : t.start]
        if r.quantity == "temperature_difference" or (r.quantity == "pressure" and dropped):
            _over_it(t, words, at, components)
        if r.quantity == "temperature_difference" and r.component is None:
            _of_two(t, rows[max(0, i - 3) : i])


def _over_it(
    t: Taken, words: Sequence[str], at: dict[int, ComponentAt], components: Sequence[ComponentAt]
) -> None:
    """Read the thing that a difference is said to be over, right behind the value or in front of it."""
    k = t.end
    while words[k : k + 1] and k - t.end < 4 and words[k] not in _OVER | _STOPS | {","}:
        k += 1
    if words[k : k + 1] and words[k] in _OVER:
        thing = _thing(words, at, k + 1)
        if thing is not None and thing.name in _THINGS:
            t.reading.component, t.reading.which = thing.name, None
            return
    lead = words[max(0, t.start - 8) : t.start]
    for j in range(len(lead) - 1, -1, -1):
        if lead[j] in _STOPS:
            return
        if lead[j] in _OVER:
            place = t.start - len(lead) + j
            thing = _thing(words, at, place + 1)
            if thing is None and lead[j + 1 : j + 2] == ["it"]:
                named = [c for c in components if place - 25 <= c.start < place and c.name in _THINGS]
                thing = named[-1] if named else None
            if thing is not None and thing.name in _THINGS:
                t.reading.component, t.reading.which = thing.name, None
            return


def _thing(words: Sequence[str], at: dict[int, ComponentAt], k: int) -> ComponentAt | None:
    """Return the component named at word k, behind its article and one word for which it is."""
    while words[k : k + 1] and words[k] in _ARTICLES:
        k += 1
    return at.get(k) or at.get(k + 1)


def _of_two(t: Taken, before: Sequence[Taken]) -> None:
    """Give a difference the thing on whose two sides the temperatures right before were read."""
    r = t.reading
    for a, b in pairwise([x for x in before if x.reading.quantity == "temperature"]):
        one, two = a.reading, b.reading
        if one.value is None or two.value is None or r.value is None or one.component not in _THINGS:
            continue
        if one.component == two.component and abs(abs(one.value - two.value) - r.value) < 0.06:
            r.component = one.component


def _at_a_valve(t: Taken, before: Taken | None, words: Sequence[str], at: dict[int, ComponentAt]) -> None:
    """Read the valve or drier on a side of which a temperature was taken."""
    begin = max(before.end if before is not None else 0, t.start - _REACH)
    stop = max((k + 1 for k in range(begin, t.start) if words[k] in _STOPS), default=begin)
    for k in range(t.start - 1, stop - 1, -1):
        for flow in _FLOWS:
            if tuple(words[k : k + len(flow)]) != flow:
                continue
            thing = _thing(words, at, k + len(flow))
            if thing is not None and thing.start < t.start and _sided(thing):
                t.reading.component = thing.name
                return
    lead = words[stop : t.start]
    if before is not None and before.reading.component and before.reading.quantity == "temperature":
        back = [w for w in lead if w not in {"and", "it", "comes", "came", "is", "coming", "at", ",", "goes"}]
        same = before.sentence == t.sentence and before.reading.component.endswith(("valve", "drier"))
        if same and back in (["out"], ["in"]):
            t.reading.component = before.reading.component
            return
    # "79 in and 41 out at the drier", "102 past the valve"
    k = t.end
    if words[k : k + 1] and words[k] in {"in", "out", "past", "before", "after", "into"}:
        k += 1
        if words[k - 1] == "in" and words[k : k + 1] in (["and"], [","]):
            j = next((j for j in range(k, k + 7) if words[j : j + 1] == ["out"]), None)
            k = j + 1 if j is not None else k
        if words[k : k + 1] and words[k] in {"at", "of", "on", "across"} | _ARTICLES:
            k += words[k] not in _ARTICLES
            thing = _thing(words, at, k)
            if thing is not None and _sided(thing):
                t.reading.component = thing.name
        return


def _sided(c: ComponentAt) -> bool:
    """Tell whether a thing has two sides on which temperatures tell how it works."""
    return c.name in _THINGS or (c.name.endswith("valve") and "service" not in c.name and c.name != "valve")


__all__ = ["across_things"]
