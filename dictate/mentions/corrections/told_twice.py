"""Takes out what a meter said that was only told a second time, in other words.

    once_each(taken, narration) -> list[Taken]

    "wide open, no continuity whatsoever", "T1 to T3 OL. Open winding."     the same circuit, the same meter
    "winding is open, nothing between any of the leads"                     ohms, and no volts
    "all three clear to earth, above two hundred megohms"                   the value is what clear meant
    "2 megohms, so it isn't grounded"                                       what the value means
    "no ground, meter says OL to the frame"                                 told, then what it showed
    "nothing on the clamp, a flat zero"

A second telling names no other place and no other thing, and nothing but small words stands between the two.
Its words are noted, so that no later look takes them for a reading of their own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.whose.taken import Taken
from dictate.mentions.word_lists import word_list

_INSULATION = 50_000.0
"""Ohms; what is called clear of ground is above (common practice: a megohm)."""
_NEAR = 9
_FAR = 40


def once_each(taken: list[Taken], narration: Narration) -> list[Taken]:
    """Return the readings without those that tell one of their neighbours again."""
    words = narration.lowers
    if not any(t.reading.state == "open" or t.value.state == "zero" for t in taken):
        return taken
    gone: set[int] = set()
    added: list[Taken] = []
    for one, two in pairwise(_rows(taken)):
        gap = words[one[0].end : two[0].start]
        if not 0 <= len(gap) <= _NEAR or not _now(one[0]) or not _now(two[0]):
            continue
        if _is_value_of(one, two, gap, words):
            _same_place(two[0], one[0])
            added += [_copy(two[0], t) for t in one[1:]] if len(two) == 1 else []
            gone.update(id(t) for t in one)
        elif _shown_behind(one, two, gap, words):
            for first, second in zip(one, two, strict=True):
                _same_place(second, first)
            gone.update(id(t) for t in one)
        elif _says_again(one[0], two, gap, words):
            gone.update(id(t) for t in two)
            if (
                all(w in {",", ".", "-"} for w in gap) and len(one) == 1
            ):  # "open. OL" is one answer of a meter
                one[0].reading.at = narration.at(one[0].start, two[-1].end)
                one[0].reading.heard = narration.heard(one[0].start, two[-1].end)
    gone.update(_summed_up(taken, words))
    if not gone:
        return taken
    narration.found["told twice"] = {k for t in taken if id(t) in gone for k in range(t.start, t.end)}
    kept = [t for t in taken if id(t) not in gone] + added
    kept.sort(key=lambda t: t.start)
    return kept


def _is_value_of(one: list[Taken], two: list[Taken], gap: Sequence[str], words: Sequence[str]) -> bool:
    """Tell whether the second is the value that the first meant: "clear to earth, above 200 megohms"."""
    first, second = one[0], two[0]
    if not (_open(first) and _ground(first) and _insulation(second) and len(two) in {1, len(one)}):
        return False
    return _quiet(gap, "told_twice_above") and _ended(words, second)


def _shown_behind(one: list[Taken], two: list[Taken], gap: Sequence[str], words: Sequence[str]) -> bool:
    """Tell whether the second is what the meter showed: "no ground, meter says OL to the frame"."""
    first, second = one[0], two[0]
    if len(one) != len(two):
        return False
    if first.value.state == "zero" and second.reading.value == 0 and len(one) == 1:
        return first.sentence == second.sentence and _flat(gap)
    if not (_open(first) and _open(second) and _ground(first)):
        return False
    if not (_ground(second) or _to_ground(words, second)):
        return False
    if _quiet(gap, "told_twice_meter") and _by_meter(gap):
        return True
    # "none of them to the sheath, all clear to ground"
    return gap[:1] == [","] and _quiet(gap, "told_twice_all")


def _says_again(first: Taken, two: list[Taken], gap: Sequence[str], words: Sequence[str]) -> bool:
    """Tell whether the second says no more than the first: "wide open, no continuity whatsoever"."""
    second = two[0]
    if _open(first) and _open(second):
        grounded = _ground(second) or _to_ground(words, second)
        return not grounded and not second.place_said and _quiet(gap, "told_twice_between")
    if _open(first) and _zero_volts(second) and not _ground(first):
        between = words[second.end : second.end + 1] in (["between"], ["across"])
        return between and _quiet(gap, "told_twice_between")
    if _insulation(first) and _open(second) and _ground(second) and len(two) == 1:
        meant = not word_list("told_twice_means").isdisjoint(words[first.end : second.end])
        return meant and _quiet(gap, "told_twice_so")
    return False


def _summed_up(taken: list[Taken], words: Sequence[str]) -> list[int]:
    """Return the open circuits that only say what was read: "OL ..., so one winding's | open"."""
    out: list[int] = []
    last: Taken | None = None
    for t in taken:
        if not _open(t) or not _now(t):
            continue
        lead = words[max(0, t.start - 6) : t.start]
        so = max((i for i, w in enumerate(lead) if w == "so"), default=0)
        lead = lead[so:]
        told = last is not None and t.start - last.end <= _FAR and last.reading.point != "ground"
        if told and lead[:1] == ["so"] and _quiet(lead, "told_twice_sum") and not t.value.ground:
            out.append(id(t))
            continue
        last = last if t.value.ground or t.reading.point == "ground" else t
    return out


def _rows(taken: list[Taken]) -> list[list[Taken]]:
    """Return the readings, those that the same words told of several things together."""
    rows: list[list[Taken]] = []
    for t in taken:
        if rows and rows[-1][0].start == t.start:
            rows[-1].append(t)
        else:
            rows.append([t])
    return rows


def _now(t: Taken) -> bool:
    return t.reading.role == "measured" and not t.movement


def _open(t: Taken) -> bool:
    return t.reading.state == "open"


def _ground(t: Taken) -> bool:
    return t.value.ground or (t.reading.point or "").endswith("ground")


def _to_ground(words: Sequence[str], t: Taken) -> bool:
    behind = words[t.end : t.end + 3]
    return behind[:1] == ["to"] and not word_list("values_ground").isdisjoint(behind)


def _zero_volts(t: Taken) -> bool:
    return t.value.state == "zero" and t.reading.quantity == "voltage"


def _insulation(t: Taken) -> bool:
    r = t.reading
    return r.quantity == "resistance" and r.state == "value" and (r.value or 0.0) >= _INSULATION


def _quiet(gap: Sequence[str], name: str) -> bool:
    return word_list(name).issuperset(gap)


def _by_meter(gap: Sequence[str]) -> bool:
    return not {"meter", "reads", "says", "shows", "megger"}.isdisjoint(gap)


def _ended(words: Sequence[str], t: Taken) -> bool:
    """Tell whether nothing behind a value says that it is of one of them only."""
    return words[t.end : t.end + 1] not in (["on"], ["for"]) or not {"the", "one"} & set(
        words[t.end + 1 : t.end + 2]
    )


def _flat(gap: Sequence[str]) -> bool:
    """Tell whether "nothing" and a nought are one: "nothing on the clamp, | a flat zero"."""
    if "," not in gap and "-" not in gap:
        return False
    at = next(i for i, w in enumerate(gap) if w in {",", "-"})
    return _quiet(gap[:at], "told_twice_on_meter") and _quiet(gap[at:], "told_twice_flat")


def _same_place(t: Taken, other: Taken) -> None:
    r, o = t.reading, other.reading
    r.component = r.component or o.component
    r.which = r.which or o.which
    r.point = o.point if r.point is None or r.point == "ground" else r.point


def _copy(t: Taken, other: Taken) -> Taken:
    copy = replace(t, reading=t.reading.model_copy(deep=True))
    copy.reading.point, copy.reading.which = other.reading.point, other.reading.which
    return copy


__all__ = ["once_each"]
