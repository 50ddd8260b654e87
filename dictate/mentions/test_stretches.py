"""Where a pressure test or an evacuation is under way: `find_stretches(narration) -> list[Stretch]`.

    "Put one fifty on it. Thirty minutes later it was one forty nine. Pump to two eighty, off. Weighed in ..."
     ^ pressure .................................................... ^ vacuum ............. ^ ended

A stretch begins with the words of the test and ends with the next work. Inside it a bare number is a value
of the test unless something else claims it, and a time is one of the test.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from dataclasses import dataclass
from functools import cache
from operator import attrgetter

from dictate.mentions.narration import Narration, lowers
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.mentions.standing_tests import find_standing
from dictate.vocabulary.load import table

_start = attrgetter("start")
_LONGEST = 110
"""Tokens behind the last cue of a test that still tell of it."""

_GASES = frozenset(("nitrogen", "nitro", "n2", "ofn"))
_DENIED = (["no"], ["without"], ["never"], ["any"], ["not"])


@dataclass(slots=True)
class Stretch:
    """The tokens [start, end) of a test; `kind` is "pressure_test" or "vacuum", `ended` by other work."""

    kind: str
    start: int
    end: int
    ended: bool = False


@cache
def stretch_words(name: str) -> frozenset[str]:
    """Return one list of single words as a set."""
    return frozenset(table("test_stretches")[name])


@cache
def stretch_phrases(name: str) -> frozenset[tuple[str, ...]]:
    """Return one list of phrases as tuples of tokens."""
    return frozenset(tuple(lowers(p)) for p in table("test_stretches")[name])


@cache
def _cues() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    by_first: dict[str, list[tuple[tuple[str, ...], str]]] = defaultdict(list)
    for name in ("keeps", "pressure", "vacuum", "within", "ends"):
        for phrase in stretch_phrases(name):
            by_first[phrase[0]].append((phrase, name))
    for row in by_first.values():
        row.sort(key=lambda x: -len(x[0]))
    return dict(by_first)


def find_stretches(narration: Narration) -> list[Stretch]:
    """Return the stretches in order, without overlaps; computed once per narration."""
    done: list[Stretch] | None = narration.found.get("test_stretches")
    if done is not None:
        return done
    words = narration.lowers
    numbers = numbers_by_start(narration)
    cues = _cues()
    openers = _openers(narration)
    standing = {s.start: s for s in find_standing(narration)}
    out: list[Stretch] = []
    current: Stretch | None = None
    cued = 0
    i = 0
    while i < len(words):
        if i in standing and (current is None or current.kind == "pressure_test" or i >= current.end):
            size = standing[i].end - i
            if current is None or i >= current.end:
                current = Stretch("pressure_test", i, min(len(words), standing[i].end + 60))
                out.append(current)
            else:
                current.end = min(len(words), max(current.end, standing[i].end + 60))
            cued = i + size
            i += size
            continue
        size, name = 1, openers.get(i)
        if name is None and words[i] in cues:
            for phrase, kind in cues[words[i]]:
                if tuple(words[i : i + len(phrase)]) == phrase:
                    size, name = len(phrase), kind
                    break
        if name == "within":
            name = "vacuum" if current is not None and i < current.end else None
        if name in {"pressure", "vacuum"} and _is_other(words, i, i + size, name, current):
            name = None
        if current is not None and i >= current.end:
            current = None
        if name in {"pressure", "vacuum"} and current is None and words[max(0, i - 1) : i] in _DENIED:
            name = None
        if name == "ends" and current is not None:
            if words[i : i + size] != ["charge"] or words[max(0, i - 1) : i] != ["nitrogen"]:
                current.end, current.ended = i, True
                current = None
        elif name in {"pressure", "vacuum"}:
            kind = "vacuum" if name == "vacuum" else "pressure_test"
            if current is None or current.kind != kind:
                if current is None:
                    begin = _clause_start(words, i, out[-1].end if out else 0)
                else:
                    begin = _own_clause(words, i, cued, numbers)
                    current.end, current.ended = begin, True
                current = Stretch(kind, begin, min(len(words), i + _LONGEST))
                out.append(current)
            else:
                current.end = min(len(words), i + size + _LONGEST)
            cued = i + size
        elif current is not None and i in numbers:
            current.end = min(len(words), max(current.end, i + 60))
        i += size
    narration.found["test_stretches"] = out
    return out


_IN_IT = {("in", "it"), ("in", "her"), ("into", "it"), ("in", "there"), ("into", "the")}


def _stood(narration: Narration, start: int, end: int, value: float) -> bool:
    """Tell whether a pressure was left to stand: "at 300 psi for half an hour", "150 psi, 30 minutes"."""
    words = narration.lowers
    bar = words[end - 1] == "bar"
    if value < (5 if bar else 80) or stretch_words("sides") & set(words[max(0, start - 5) : end + 1]):
        return False
    i = end
    while i < min(len(words), end + 4) and words[i] in stretch_words("stood_for"):
        i += 1
    if i == end:
        return False
    if words[i : i + 4][:1] == ["half"] and "hour" in words[i : i + 4]:
        return True
    if words[i : i + 2] == ["an", "hour"] or words[i : i + 2] == ["a", "quarter"]:
        return True
    number = numbers_by_start(narration).get(i)
    return number is not None and words[number.end : number.end + 1] in (
        ["minutes"],
        ["minute"],
        ["hours"],
        ["min"],
    )


def _clause_start(words: list[str], i: int, floor: int) -> int:
    """Return where the clause of a test begins: "thirty minutes at four hundred on nitrogen"."""
    while i > floor and words[i - 1] not in {".", ",", ";", "?", "!", "then", "and"}:
        i -= 1
    if i > floor + 1 and words[i - 1] == "," and words[i] in {"that", "that's", "which"}:
        return _clause_start(words, i - 1, floor)  # "Four hundred twenty, that's where it sat"
    return i


def _own_clause(words: list[str], i: int, cued: int, numbers: dict[int, Number]) -> int:
    """Return where the clause of a test that follows another begins: "Three sixty was what the vacuum ...".

    Only a short clause that opens its sentence and holds one number is its own; else it begins at its word.
    """
    begin = _clause_start(words, i, cued)
    opens = begin > cued and words[begin - 1] in {".", "?", "!"} and i - begin <= 8
    return begin if opens and sum(begin <= t < i for t in numbers) == 1 else i


def _openers(narration: Narration) -> dict[int, str]:
    """Return the verbs whose number opens a test: "put one fifty on it", "pump to two eighty"."""
    words = narration.lowers
    out: dict[int, str] = {}
    on_it, pumps = stretch_phrases("on_it"), stretch_phrases("pumps")
    firsts = {p[0] for p in on_it}
    units = stretch_words("pressure_units")
    for at in (i for i, word in enumerate(words) if word == "pump"):
        if _vacuum_pump(words, at):
            out[at] = "vacuum"
    for start, number in numbers_by_start(narration).items():
        if number.value < 1:
            continue
        end = number.end
        if words[end : end + 1] and words[end] in units:
            end += 1
            if _stood(narration, start, end, number.value):
                out[start] = "pressure"
                continue
            blown = {"blew", "blown", "pushed", "pumped", "put"} & set(words[max(0, start - 3) : start])
            if number.value >= 80 and blown and tuple(words[end : end + 2]) in _IN_IT:
                out[start] = "pressure"
        if (
            number.value >= 5
            and words[end : end + 1]
            and words[end] in firsts
            and any(tuple(words[end : end + len(p)]) == p for p in on_it)
        ):
            front = words[max(0, start - 4) : start]
            with_gas = {"nitrogen", "nitro", "n2", "ofn", "dry", "oxygen"} & set(words[end : end + 4])
            if with_gas or ({"put", "pumped", "blew", "stuck", "threw", "pushed", "built"} & set(front)):
                out[start] = "pressure"
        drawn = _drawn_down(words, start, end, number.value)
        if end == number.end and (drawn or _down_from_nitrogen(words, number, numbers_by_start(narration))):
            out[start] = "vacuum"
            continue
        if words[start - 1] != "to" or start < 2 or number.value < 50:
            continue
        ends = {start - 1, start - 1 - (words[start - 2] == "down")}
        said = any(k >= len(p) and tuple(words[k - len(p) : k]) == p for p in pumps for k in ends)
        sucked = {"pulled", "pull", "pulling", "sucked", "drew"} & set(words[max(0, start - 7) : start - 2])
        said = said or (bool(sucked) and words[start - 2] == "down" and end == number.end)
        said = said or (end == number.end and _pumped_out(words, start, number.value))
        if said and number.value >= 100:
            out[start] = "vacuum"
        elif not said and number.value <= 700:
            front = words[max(0, start - 5) : start - 1]
            tight = stretch_words("tight") & set(words[end : end + 45])
            pumped = {"pumped", "pump"} & set(front) and "down" not in front
            if (pumped and (number.value <= 160 or tight)) or ("up" in front and tight and pumped):
                out[start] = "pressure"
    return out


def _pumped_out(words: list[str], start: int, value: float) -> bool:
    """Tell whether a circuit was pumped out to a number: "pumped it to four fifty". Gas is pumped up."""
    front = words[max(0, start - 5) : start - 1]
    gas = {"up", "in", "nitrogen", "nitro", "n2", "ofn", "air"}
    return 200 <= value <= 5000 and value.is_integer() and "pumped" in front and gas.isdisjoint(front)


_SINCE_NITROGEN = 45
"""Words between the nitrogen of a test and the vacuum that is told behind it by "down to" alone."""


def _down_from_nitrogen(words: list[str], number: Number, numbers: dict[int, Number]) -> bool:
    """Tell whether "down to" tells more than the test before it: "still two hundred. Down to four sixty"."""
    if words[number.start - 2 : number.start] != ["down", "to"] or not 150 <= number.value <= 5000:
        return False
    first = max(0, number.start - _SINCE_NITROGEN)
    gas = next((i for i in range(number.start - 1, first - 1, -1) if words[i] in _GASES), None)
    if gas is None or stretch_words("sides") & set(words[gas : number.start]):
        return False
    levels = [x.value for i, x in numbers.items() if gas - 4 <= i < number.start and 20 <= x.value <= 700]
    return bool(levels) and max(levels) < number.value


def _drawn_down(words: list[str], start: int, end: int, value: float) -> bool:
    """Tell whether a number is how far a circuit was drawn down: "pulled it to three hundred, valved it off".

    "Pulled 430, isolated 15", "got it to 350, shut the core tools" need what is done to a vacuum behind them.
    """
    if not 100 <= value <= 5000 or not value.is_integer():
        return False
    front = words[max(0, start - 7) : start]
    cut = max((k for k, w in enumerate(front) if w in {".", ",", ";", "?", "!", "amps", "watts"}), default=-1)
    front = front[cut + 1 :]
    if not front:
        return False
    to = front[-1] in {"to", "at"}
    behind = words[end : end + 12]
    stop = next((k for k, w in enumerate(behind) if w in {"?", "!"}), len(behind))
    shut_in = stretch_words("shut_in") & set(behind[:stop])
    if front[-1] == "pulled" or stretch_words("draws") & set(front[:-1]):
        held = bool(shut_in or stretch_words("broken") & set(behind[:stop]))
        whole = to and bool(stretch_words("drawn") & set(front[:-1]))
        return (to or front[-1] == "pulled") and (held or (whole and value >= 150))
    brought = to and stretch_words("brings") & set(front[:-1]) and stretch_words("drawn") & set(front[:-1])
    far = set(words[max(0, start - 30) : end + 12])
    return bool(brought and stretch_words("tools") & set(behind[:stop]) and not far & stretch_words("gassy"))


def _vacuum_pump(words: list[str], at: int) -> bool:
    """Tell whether a pump without a name is the vacuum pump: "put the pump on it", "then the pump"."""
    if at and words[at - 1] in stretch_words("pump_kinds"):
        return False
    front = words[max(0, at - 4) : at]
    behind = words[at + 1 : at + 4]
    if not (stretch_words("pump_starts") & set(front) or stretch_words("pump_runs") & set(behind)):
        return False
    return bool(stretch_words("pump_of_vacuum") & set(words[max(0, at - 12) : at + 70]))


def _is_other(words: list[str], a: int, b: int, name: str, current: Stretch | None) -> bool:
    """Tell whether a cue is the purge of brazing, a wish, or gas that breaks the vacuum under way."""
    if words[a:b] == ["on", "the", "pump"]:
        return bool({"psi", "pounds", "bar", "amps"} & set(words[max(0, a - 3) : a]))  # a water pump
    if name != "pressure":
        return False
    gas = {"nitrogen", "nitro", "n2", "ofn"} & set(words[a:b])
    if not gas:
        return False
    near = words[max(0, a - 4) : a] + words[b : b + 2]
    cut = [w for w in near if w not in {".", ","}]
    if stretch_words("flows") & set(cut):
        return True
    if current is not None and current.kind == "vacuum":
        repeated = stretch_words("repeated") & set(words[current.start : a])
        if repeated and not ({"psi", "pounds", "bar", "test", "tested"} & set(words[b : b + 5])):
            return True  # "triple evac: 1500, nitrogen, 1500, nitrogen, then 300": it breaks the vacuum
        return bool({"broke", "break", "breaking", "with"} & set(words[max(0, a - 4) : a]))
    return False


def stretch_at(stretches: list[Stretch], token: int) -> Stretch | None:
    """Return the stretch that a token lies in."""
    n = bisect_right(stretches, token, key=_start) - 1
    return stretches[n] if n >= 0 and token < stretches[n].end else None
