"""The weights of a cylinder that arithmetic shows, and what it gained or lost by them.

    "Bottle 16.2 kilos up to 18.7, so two and a half."       two weights, 2.5 kg came out of the machine
    "New cylinder, 32.8 before, 11.1 after, that's 21.7."    two weights, 21.7 lb went in
    "Jug's forty. Thirty-six. Thirty-one. Thirty, shut. Ten, like the plate."    read aloud while it went in

Two numbers behind a cylinder or a scale whose difference is said as well can hardly be anything else,
whatever the words between them. What a cylinder gains came out of the machine; what it loses went in.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.quantities import Quantity, find_quantities, mass_of
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.word_lists import word_list
from dictate.units import convert

_LEAD = 9
"""Tokens between a vessel and its weight."""
_AT = 2
"""Tokens between a vessel and a number that can only be its weight."""
_REACH = 60
"""Tokens between the first weight and the difference."""
_NEAR = 20
"""Tokens between two weights of which only the first is told by a vessel."""
_BEFORE = 25
"""Tokens between a difference that was said first and the weights that prove it."""
_ROW = 3
"""Weights that fall or rise one after the other, of a scale that is read aloud."""
_FEW = 9
"""Numbers before a difference among which its weights are looked for."""
_EXACT = 0.003
"""A difference fits to this part of itself."""
_TARE = 0.1
"""An empty vessel still weighs this part of a full one."""
_ROUNDED = 0.011
"""A difference in pounds and ounces of weights in tenths of a pound fits to this part of itself."""


@dataclass(frozen=True, slots=True)
class Weighing:
    """Two weights of one vessel and their difference, each by the first token of its number."""

    first: int
    second: int
    difference: int
    value: float
    unit: str
    gained: bool


@dataclass(frozen=True, slots=True)
class _Said:
    start: int
    end: int
    value: float
    unit: str | None
    places: int
    parts: bool
    pounds: float | None = None
    """Its pounds, where it can be pounds and ounces of which neither was said ("seven twelve")."""


def weighings(narration: Narration) -> tuple[Weighing, ...]:
    """Return the weighings of a narration whose weights and difference were all said."""
    done: tuple[Weighing, ...] | None = narration.found.get("weighings")
    if done is None:
        vessels = _vessels(narration)
        done = tuple(_found(narration, vessels)) if vessels else ()
        narration.found["weighings"] = done
    return done


def weights_of_vessels(narration: Narration) -> frozenset[int]:
    """Return the first tokens of the numbers that weigh a vessel, said once more or not."""
    done: frozenset[int] | None = narration.found.get("weights of vessels")
    if done is not None:
        return done
    proven = weighings(narration)
    out = {t for w in proven for t in (w.first, w.second)}
    if out:
        vessels = _vessels(narration)
        said = {s.start: s for s in _all_said(narration)}
        values = {said[t].value for t in out}
        out |= {t for t, s in said.items() if s.value in values and _led(vessels, t, _LEAD)}
        for w in proven:
            low, high = sorted((said[w.first].value, said[w.second].value))
            aloud = _read_aloud([x for u, x in said.items() if w.first <= u <= w.second])
            out |= {
                t
                for t, s in said.items()
                if w.first < t < w.second and s.unit is None and low < s.value < high and (s.places or aloud)
            }  # "the bottle was at 8.2 ..., I stopped at 7.6 ... Bottle to 7.25": read on the way
        out -= {w.difference for w in proven}
    narration.found["weights of vessels"] = frozenset(out)
    return frozenset(out)


def weighed_numbers(narration: Narration) -> frozenset[int]:
    """Return the first tokens of all numbers of the weighings: the weights and what they differ by."""
    done: frozenset[int] | None = narration.found.get("weighed numbers")
    if done is None:
        done = weights_of_vessels(narration) | {w.difference for w in weighings(narration)}
        narration.found["weighed numbers"] = done
    return done


def _vessels(narration: Narration) -> list[int]:
    """Return the tokens at which a cylinder, its tare or a scale is named, in order."""
    lowers = narration.lowers
    named, things = word_list("cylinders_and_scales"), word_list("behind_no_cylinder")
    return [
        i
        for i, word in enumerate(lowers)
        if word in named and not (i + 1 < len(lowers) and lowers[i + 1] in things)
    ]


def _all_said(narration: Narration) -> list[_Said]:
    """Return the numbers that can be weights, those with a unit of weight as one each, in order."""
    taken: set[int] = set()
    out: list[_Said] = []
    for q in find_quantities(narration):
        taken |= set(range(q.start, q.end))
        mass = mass_of(q)
        if mass is not None and mass[0] > 0:
            places = max(n.places for n in q.numbers)
            out.append(_Said(q.start, q.end, mass[0], mass[1], places, _in_parts(q)))
    out += [
        _Said(n.start, n.end, n.value, None, n.places, False, _pounds_and_ounces(n))
        for n in find_numbers(narration)
        if n.start not in taken
        and n.value > 0
        and not n.pronoun
        and n.form not in {"ordinal", "clock", "counted"}
    ]
    out.sort(key=lambda s: s.start)
    return [_with_ounces(s, following) for s, following in pairwise([*out, None]) if s is not None]


def _with_ounces(s: _Said, following: _Said | None) -> _Said:
    """Return "seven pounds twelve" with its ounces beside what was said."""
    ounces = following.value if following is not None and following.start == s.end else 0.0
    bare = following is not None and following.unit is None and 0 < ounces < 16
    return replace(s, pounds=s.value + ounces / 16) if s.unit == "lb" and bare else s


def _in_parts(q: Quantity) -> bool:
    return len(q.parts) > 1


def _pounds_and_ounces(number: Number) -> float | None:
    """Return the pounds of "seven twelve", "thirty-one four"."""
    if number.form == "pair":
        pounds, ounces = divmod(round(number.value), 100)
    elif number.form == "short_decimal" and number.alternatives:
        pounds, ounces = (int(v) for v in number.alternatives[0].values[:2])
    else:
        return None
    return pounds + ounces / 16 if 0 < ounces < 16 and pounds else None


def _led(vessels: Sequence[int], start: int, reach: int) -> bool:
    """Tell whether a vessel is named at most `reach` tokens before a number."""
    k = bisect_left(vessels, start)
    return k > 0 and start - vessels[k - 1] <= reach


def _found(narration: Narration, vessels: Sequence[int]) -> list[Weighing]:
    """Return the weighings: first those whose difference stands behind the weights, as it mostly does."""
    said = _all_said(narration)
    out: list[Weighing] = []
    taken: set[int] = set()
    for later in (False, True):
        for k, d in enumerate(said):
            if d.start in taken or (later and d.unit is None) or _led(vessels, d.start, _AT):
                continue  # "drum now 26.4" is a weight
            row = said[k + 1 : k + 3] if later else said[max(0, k - _FEW) : k]
            pair = _proving(narration, vessels, row, d, later)
            if pair is None or (later and not taken.isdisjoint(s.start for s in pair)):
                continue
            a, b = pair
            value, unit = d.value, d.unit or a.unit or b.unit or _unit_near(said, d)
            if not _gives(a, b, d) and d.pounds is not None:
                value, unit = d.pounds, "lb"
            if unit is None:
                continue
            gained = (b.value > a.value) != _told_backwards(narration, a, b)
            out.append(Weighing(a.start, b.start, d.start, value, unit, gained))
            taken |= {a.start, b.start, d.start} if later else {a.start, b.start}
    return sorted(out, key=lambda w: w.difference)


def _proving(
    narration: Narration, vessels: Sequence[int], row: Sequence[_Said], d: _Said, later: bool
) -> tuple[_Said, _Said] | None:
    """Return the two weights, nearest to the difference first, that give it."""
    for j in range(len(row) - 1, 0, -1):
        for i in range(j - 1, -1, -1):
            a, b = row[i], row[j]
            if a.pounds is not None and a.unit is not None and b.start == a.end:
                continue  # "one pound two" is one weight
            if later and (
                a.start - d.end > _BEFORE
                or not _led(vessels, a.start, a.start - d.end)
                or narration.lowers[a.end : b.start] not in (["to"], ["down", "to"], ["up", "to"])
            ):
                continue  # "charged 11.5 by the scale, cylinder from 25.0 to 13.5"
            if not later and d.start - a.start > _REACH:
                break
            # Few numbers are led by a vessel: the rest is not looked at.
            if not _led(vessels, a.start, _LEAD):
                continue
            if not _gives(a, b, d) and not _gives_in_ounces(a, b, d):
                continue
            said = narration.lowers[max(0, a.start - _LEAD) : d.start]
            aloud = _read_aloud(row[i:]) and word_list("scale_ends").isdisjoint(said)
            near = b.start - a.end <= _NEAR or _led(vessels, b.start, _LEAD) or d.unit is not None or aloud
            if near and (aloud or _told(narration, a, b, d) or _follows(row, j, b, d)):
                return a, b
    return None


def _told(narration: Narration, a: _Said, b: _Said, d: _Said) -> bool:
    """Tell whether a difference has a unit, or is one by the words before it and to a part of a unit."""
    if d.unit is not None:
        return True
    lead = narration.lowers[max(0, d.start - 2) : d.start]
    cued = any(w in word_list("before_a_difference") for w in lead)
    return cued and max(a.places, b.places, d.places) > 0


def _follows(row: Sequence[_Said], j: int, b: _Said, d: _Said) -> bool:
    """Tell whether a difference stands right behind the second weight: "11.4, to 15.9, four and a half"."""
    return j == len(row) - 1 and 0 < d.start - b.end <= 1 and b.places > 0


def _read_aloud(row: Sequence[_Said]) -> bool:
    """Tell whether weights fall or rise one after the other, up to the number behind them."""
    apart = [b.value - a.value for a, b in pairwise(row)]
    return len(row) > _ROW - 1 and (all(x > 0 for x in apart) or all(x < 0 for x in apart))


def _gives_in_ounces(a: _Said, b: _Said, d: _Said) -> bool:
    """Tell whether weights told as bare pounds and ounces differ by what was said."""
    if a.unit or b.unit or d.unit not in (None, "lb") or (d.unit is None and d.pounds is None):
        return False
    weights = [replace(s, value=s.pounds or s.value, unit="lb") for s in (a, b, d)]
    return _gives(weights[0], weights[1], weights[2])


def _gives(a: _Said, b: _Said, d: _Said) -> bool:
    """Tell whether one weight less the other is the difference, in the units that may be meant."""
    unit = a.unit or b.unit
    if a.unit is not None and b.unit is not None and a.unit != b.unit:
        return False
    apart = abs(a.value - b.value)
    if apart == 0 or min(a.value, b.value) < _TARE * max(a.value, b.value):
        return False
    near = _ROUNDED if d.parts else _EXACT
    units = [unit] if unit is not None else [d.unit, {"g": "kg", "oz": "lb"}.get(d.unit or "")]
    for one in units:
        moved = convert(d.value, d.unit, one) if d.unit is not None and one is not None else d.value
        if abs(apart - moved) <= near * max(apart, moved):
            return True
    return False


def _told_backwards(narration: Narration, a: _Said, b: _Said) -> bool:
    """Tell whether the later weight was told first: "31 after, and it was 28 before"."""
    first = narration.lowers[a.end : a.end + 3]
    second = narration.lowers[b.end : b.end + 3]
    return not word_list("weighed_late").isdisjoint(first) and not word_list("weighed_early").isdisjoint(
        second
    )


def _unit_near(said: Sequence[_Said], d: _Said) -> str | None:
    """Return the unit of the nearest weight that has one."""
    units = [s for s in said if s.unit in {"lb", "kg", "g", "oz"}]
    return min(units, key=lambda s: abs(s.start - d.start)).unit if units else None


__all__ = ["Weighing", "weighed_numbers", "weighings", "weights_of_vessels"]
