"""A control circuit that is walked along with one probe: what comes to each part, and what leaves it.

    find_chain(narration) -> dict[int, Step]     by the token at which a number, or a word for none, begins
    chain_noughts(narration) -> list of (start, end), the words for none

"High pressure switch, going in I have 26.4, coming out 26.4. Low pressure, in is 26.3, out is 26.3. Discharge
thermostat. In, 26.3. Out, not a thing." Nobody says volts, and "in" and "out" are words of air and water as
well. It is a circuit where a part of one is named, the same number (or nothing) was said of both its sides,
and a number of that size was said to be volts. From there on every number of that size is one more of it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.vocabulary.load import table

_STOPS = frozenset((".", "?", "!", ";"))
_SAME = 0.04
"""How far the volts of one circuit lie apart at most, as a share: what a wire loses."""
_SIDES = 14  # words between the two sides of one part
_NAMED = 16  # words from a part to its value
_SOON = 25  # words within which a value of the circuit needs no part or side
_GOES_ON = 75  # words from one value of a circuit to the next
_CONTROL = ((20.0, 30.0), (100.0, 130.0), (200.0, 250.0))
"""Volts of control circuits; common practice."""
_BEHIND_NAME = ([","], [":"], ["."], ["switch"], ["-"], ["in"])
_UNITS = frozenset(("volts", "volt", "v"))


@dataclass(frozen=True, slots=True)
class Step:
    """What a number of a control circuit was read on; no part where none was named."""

    component: str | None
    point: str | None


@cache
def _set(name: str) -> frozenset[str]:
    return frozenset(table("control_chains")[name])


@cache
def _rows(name: str) -> tuple[tuple[str, ...], ...]:
    return tuple(sorted((tuple(p.split()) for p in table("control_chains")[name]), key=len, reverse=True))


def find_chain(narration: Narration) -> dict[int, Step]:
    """Return what each number of a control circuit was read on; computed once per narration."""
    done: dict[int, Step] | None = narration.found.get("control_chain")
    if done is None:
        done = _found(narration)
        narration.found["control_chain"] = done
    return done


def _found(narration: Narration) -> dict[int, Step]:
    words = narration.lowers
    numbers = [n for n in find_numbers(narration) if _of_control(n) and not _other_unit(words, n)]
    sides = {n.start: _side(words, n) for n in numbers}
    if "line" not in sides.values():
        return {}
    parts = _parts(narration)
    out: dict[int, Step] = {}
    last: Number | None = None
    for k, n in enumerate(numbers):
        if last is not None and n.start - last.end <= _GOES_ON and _alike(n, last):
            named = _named(words, parts, n)
            if sides[n.start] is None and named is None and n.start - last.end > _SOON:
                continue
        elif not (
            sides[n.start] == "line"
            and _named(words, parts, n) is not None
            and _passed_on(words, numbers, sides, k)
            and _volts_told(words, numbers, k)
        ):
            continue
        if last is None:
            out |= _before(words, parts, numbers[:k], n)
        last = n
        out[n.start] = Step(_part(words, parts, n), sides[n.start])
    out = _pairs(words, numbers, out)
    for start, end in _noughts(words, out):
        point = _side_of(words, start, end)
        out[start] = Step(_last_part(parts, start), point)
        narration.found.setdefault("chain_noughts", []).append((start, end))
    return out


def chain_noughts(narration: Narration) -> list[tuple[int, int]]:
    """Return the words that say that nothing comes to a side of a part: "out, | not a thing"."""
    find_chain(narration)
    found: list[tuple[int, int]] = narration.found.get("chain_noughts", [])
    return found


def _noughts(words: Sequence[str], chain: Mapping[int, Step]) -> list[tuple[int, int]]:
    out: list[tuple[int, int]] = []
    for i in range(len(words)):
        if words[i] not in _first_of_nothing() or (out and i < out[-1][1]):
            continue
        if not any(0 < i - t <= _SIDES + 2 for t in chain):
            continue
        row = next((r for r in _rows("nothing") if tuple(words[i : i + len(r)]) == r), None)
        if row and _side_of(words, i, i + len(row)) and _ends(words, i + len(row)):
            out.append((i, i + len(row)))
    return out


@cache
def _first_of_nothing() -> frozenset[str]:
    return frozenset(row[0] for row in _rows("nothing"))


def _of_control(n: Number) -> bool:
    return any(low <= n.value <= high for low, high in _CONTROL) and n.form not in {"clock", "fraction"}


def _other_unit(words: Sequence[str], n: Number) -> bool:
    behind = words[n.end : n.end + 1]
    front = words[max(0, n.start - 4) : n.start]
    cut = max((i for i, w in enumerate(front) if w in _STOPS | {","}), default=-1)
    return not _set("halts").isdisjoint(behind) or not _set("halts").isdisjoint(front[cut + 1 :])


def _alike(a: Number, b: Number) -> bool:
    return abs(a.value - b.value) <= _SAME * b.value


def _side(words: Sequence[str], n: Number) -> str | None:
    return _side_of(words, n.start, n.end + (words[n.end : n.end + 1] != [] and words[n.end] in _UNITS))


def _side_of(words: Sequence[str], start: int, end: int) -> str | None:
    """Return the side of its part that a value was read on; None where it is not told."""
    for point, name in (("line", "in"), ("load", "out")):
        for row in _rows(name):
            if tuple(words[end : end + len(row)]) == row and _ends(words, end + len(row)):
                return point
    i = start
    while i > 0 and words[i - 1] in _set("links") and start - i < 6:
        i -= 1
        if _ahead(words, i, "out"):
            return "load"
        if _ahead(words, i, "in"):
            return "line"
    return "load" if _ahead(words, i, "out") else "line" if _ahead(words, i, "in") else None


def _ahead(words: Sequence[str], i: int, name: str) -> bool:
    return any(i >= len(row) and tuple(words[i - len(row) : i]) == row for row in _rows(name))


def _ends(words: Sequence[str], i: int) -> bool:
    return i >= len(words) or words[i] in _STOPS | {",", "and", "but", "so", "now", "-", "again", "too"}


def _passed_on(
    words: Sequence[str], numbers: Sequence[Number], sides: Mapping[int, str | None], k: int
) -> bool:
    """Tell whether behind what comes to a part the same, or nothing, was said of what leaves it."""
    n = numbers[k]
    after = numbers[k + 1] if k + 1 < len(numbers) else None
    if after is not None and after.start - n.end <= _SIDES and _alike(n, after):
        return sides[after.start] == "load"
    tail = words[n.end : n.end + _SIDES]
    for i, w in enumerate(tail):
        at = n.end + i
        if any(tuple(words[at : at + len(row)]) == row for row in _rows("nothing")):
            return any(x in tail[: i + 4] for x in ("out", "output", "leaving", "passes"))
        if w.replace(".", "").isdigit():
            return False
    return False


def _volts_told(words: Sequence[str], numbers: Sequence[Number], k: int) -> bool:
    """Tell whether a number of this size was said to be volts, up to here or right behind it."""
    n = numbers[k]
    return any(
        not _set("volts").isdisjoint(words[max(0, m.start - 4) : m.end + 2])
        for m in numbers[: k + 1]
        if abs(m.value - n.value) <= 0.12 * n.value
    )


def _parts(narration: Narration) -> list[tuple[int, int, str]]:
    """Return the parts of control circuits that are named, in order."""
    out = [(c.start, c.end, c.name) for c in find_components(narration) if c.name in _set("parts")]
    covered = {t for start, end, _ in out for t in range(start, end)}
    words = narration.lowers
    for said, name in table("control_chains")["names"].items():
        row = said.split()
        for i in narration.places.get(row[0], ()):
            end = i + len(row)
            if i not in covered and words[i:end] == row and words[end : end + 1] in _BEHIND_NAME:
                out.append((i, end, name))
    return sorted(out)


def _named(words: Sequence[str], parts: Sequence[tuple[int, int, str]], n: Number) -> str | None:
    """Return the part named right before a number, or right behind it: "228 on the module"."""
    if words[n.end : n.end + 1] and words[n.end] in {"on", "at", "across", "to"}:
        behind = [p for p in parts if n.end < p[0] <= n.end + 2]
        if behind:
            return behind[0][2]
    front = [p for p in parts if n.start - _NAMED <= p[1] <= n.start]
    return front[-1][2] if front else None


def _part(words: Sequence[str], parts: Sequence[tuple[int, int, str]], n: Number) -> str | None:
    """Return the part that was named last, however far: the probe goes on from it."""
    return _named(words, parts, n) or _last_part(parts, n.start)


def _last_part(parts: Sequence[tuple[int, int, str]], start: int) -> str | None:
    front = [p for p in parts if start - _GOES_ON <= p[1] <= start]
    return front[-1][2] if front else None


def _before(
    words: Sequence[str], parts: Sequence[tuple[int, int, str]], numbers: Sequence[Number], first: Number
) -> dict[int, Step]:
    """Return what was read on parts named in front of the first of which both sides are told."""
    out: dict[int, Step] = {}
    for n in numbers:
        named = _named(words, parts, n) if first.start - n.end <= _SOON and _alike(n, first) else None
        if named is not None:
            out[n.start] = Step(named, None)
    return out


def _pairs(words: Sequence[str], numbers: Sequence[Number], out: dict[int, Step]) -> dict[int, Step]:
    """Tell the sides of a part that were not told: "LP, 227, 227", "after the breaker, 228"."""
    chain = [n for n in numbers if n.start in out]
    for a, b in pairwise(chain):
        bare = out[a.start].point is None and out[b.start].point is None
        if bare and words[a.end : b.start] in ([","], [",", "and"], ["and"]):
            out[a.start] = Step(out[a.start].component, "line")
            out[b.start] = Step(out[a.start].component, "load")
    for n in chain:
        lead = words[max(0, n.start - 7) : n.start]
        lead = lead[max((i for i, w in enumerate(lead) if w in _STOPS), default=-1) + 1 :]
        if out[n.start].point is None and not _set("past").isdisjoint(lead):
            out[n.start] = Step(out[n.start].component, "load")
    return out


__all__ = ["Step", "chain_noughts", "find_chain"]
