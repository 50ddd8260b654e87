"""Both sides of a coil, a barrel or an exchanger: which air or water it was, once both were read.

    settle_sides(found, words)

"Air on" is the room's air at an evaporator and the outdoor air at a condenser, and "going in" and
"coming off" may be water as well. One temperature does not
tell; both do: what comes off an evaporator is colder than what goes on, what comes off a condenser is
warmer, unless the machine heats. Only places that the words leave open are settled: "return 72, supply 54"
stays as it was said.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.temperatures.words_behind import side_behind
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_IN = frozenset(("inlet", "return", "ambient", "water in"))
_OUT = frozenset(("outlet", "supply", "condenser air out", "water out"))


def settle_sides(found: Found, words: Sequence[str]) -> None:
    """Settle the points of temperatures that were read on both sides of something, in place."""
    levels = [
        t for t in found.readings if t.reading.quantity == "temperature" and t.reading.value is not None
    ]
    for a, b in pairwise(levels):
        if b.sentence - a.sentence > 1 or b.start - a.end > 16 or a.reading.unit != b.reading.unit:
            continue
        one, other = _side(a, words), _side(b, words)
        if {one, other} != {"in", "out"}:
            continue
        into, off = (a, b) if one == "in" else (b, a)
        fitting = _fitting(a, words) if a.sentence == b.sentence else None
        known = fitting is not None and fitting in {a.reading.component, b.reading.component}
        if not known and not (_open(a, words) and _open(b, words)):
            continue
        if fitting is not None:
            into.reading.point, off.reading.point = "inlet", "outlet"
            into.reading.component = off.reading.component = fitting
            continue
        medium = _medium(a, b, words)
        if medium is None:
            continue
        into.reading.point, off.reading.point = medium
        coils = {x.reading.component for x in (into, off)} - {None}
        if medium[0] == "return" and len(coils) == 1 and all((c or "").endswith("coil") for c in coils):
            into.reading.component = off.reading.component = None  # the air's, not the coil's
        if into.reading.component is None or off.reading.component is None:
            continue
        if into.reading.component.endswith("coil") and into.reading.component == off.reading.component:
            into.reading.component = off.reading.component = None
    for a, b in pairwise(levels):
        _water_sides(a, b, words)
    _chilled(levels, words)


def _water_sides(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "sea water into the condenser eleven, out fifteen": the water's two sides, told in front."""
    one, two = a.reading, b.reading
    if one.point != "water" or two.point not in {"water", None} or b.start - a.end > 6:
        return
    lead, between = words[max(0, a.start - 6) : a.start], set(words[a.end : b.start])
    if {"into", "entering", "incoming"} & set(lead) and {"out", "leaving", "off"} & between:
        one.point, two.point = "water in", "water out"
    elif {"out", "leaving"} & set(lead) and {"in", "entering", "into"} & between and "the" not in between:
        one.point, two.point = "water out", "water in"


def _chilled(levels: list[Taken], words: Sequence[str]) -> None:
    """Call the water of a chiller that goes out to its load the supply and what comes back the return.

    Common practice: a chilled loop has a supply and a return; a condenser has water going in and out.
    """
    if not _chiller_talk(words):
        return
    for n, t in enumerate(levels):
        if t.reading.point not in {"water", "water in", "water out"} or t.reading.component is not None:
            continue
        near = words[max(0, t.start - 14) : t.start]
        cut = max((i for i, w in enumerate(near) if w in {".", ";", "?", ","}), default=-1)
        said = set(near[cut + 1 :])
        if word_list("air_sides_condenser_water") & set(near) or {"freeze", "freezing", "ambient"} & said:
            continue
        behind = side_behind(words, t.end)
        led = near[-1:] if near[-1:] not in (["is"], ["'s"], ["at"], ["was"]) else near[-2:-1]
        last = levels[n - 1].reading.point if n and t.start - levels[n - 1].end <= 5 else None
        if led == ["in"] and last == "supply":
            t.reading.point = "water in"
        elif led == ["out"] and last == "return":
            t.reading.point = "water out"
        close = near[cut + 1 :][-5:]
        if {"return", "back", "returning"} & set(close) or (
            behind == "in" and "back" in words[t.end : t.end + 3]
        ):
            t.reading.point = "return"
        elif {"supply", "leaving", "going"} & set(close) or (
            behind == "out" and {"coming", "going", "leaving"} & set(words[t.end : t.end + 2])
        ):
            t.reading.point = "supply"
        elif {"entering"} & set(close) or t.reading.point == "water in":
            t.reading.point = "return"
        elif t.reading.point == "water out":
            t.reading.point = "supply"


def _chiller_talk(words: Sequence[str]) -> bool:
    """Tell whether the talk is of a machine that chills water or brine, not of blast chillers or probes."""
    for i, w in enumerate(words):
        if w in word_list("air_sides_chillers"):
            if w in {"chiller", "chillers"} and i and words[i - 1] in {"blast", "shock"}:
                continue
            if w == "glycol" and words[i + 1 : i + 2] in (["bottle"], ["vial"], ["simulator"], ["buffer"]):
                continue
            return True
    return False


def _fitting(first: Taken, words: Sequence[str]) -> str | None:
    """Return the valve or the like on both sides of which a pipe was felt: "the drier is 92 in, 52 out"."""
    row = " ".join(words[max(0, first.start - 22) : first.start])
    row = row.rsplit(" . ", 1)[-1]
    found = [(row.rfind(f"{said}"), name) for said, name in _FITTINGS.items() if f" {said} " in f" {row} "]
    others = [
        row.rfind(w) for w in ("coil", "evaporator", "condenser", "air", "water", "glycol", "brine", "fan")
    ]
    if not found or max(found)[0] < max(others):
        return None
    return max(found)[1]


_FITTINGS = {
    "liquid line valve": "liquid line solenoid valve",
    "liquid line solenoid": "liquid line solenoid valve",
    "solenoid": "solenoid valve",
    "solenoid valve": "solenoid valve",
    "drier": "filter drier",
    "dryer": "filter drier",
    "filter drier": "filter drier",
    "harvest valve": "harvest valve",
    "hot gas valve": "hot gas valve",
    "reversing valve": "reversing valve",
    "strainer": "strainer",
    "heat exchanger": "heat exchanger",
}


def _side(t: Taken, words: Sequence[str]) -> str | None:
    """Return the side of a value: by the words behind it when they tell, else by its point."""
    if t.label is None or not t.label_here or t.label.weak or t.reading.point == "water":
        said = side_behind(words, t.end)
        if said is not None:
            return said
    point = t.reading.point
    return "in" if point in _IN else "out" if point in _OUT else None


def _open(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether the words leave open which air or water it was."""
    if t.reading.component is not None and not t.reading.component.endswith("coil"):
        return False  # both sides of a drier or a valve
    label = t.label
    told = side_behind(words, t.end) is not None
    lead = list(words[max(0, t.start - 4) : t.start])
    while lead and lead[-1] in {"is", "'s", "was", "at", "are"}:
        lead.pop()
    if (
        lead
        and lead[-1] in {"in", "out", "on", "off", "entering", "leaving"}
        and (lead[-2:-1] in ([], [","], ["."], ["and"]) or lead[-2] == "air")
    ):
        return True  # "air in 74, out 57"
    if label is None or not t.label_here:
        return told
    return bool(label.hints) or label.point in {"inlet", "outlet", "water"} or (label.weak and told)


def _medium(a: Taken, b: Taken, words: Sequence[str]) -> tuple[str, str] | None:
    """Return the points of both sides: (inside, outside)."""
    near = words[max(0, a.start - 60) : b.end + 8]
    wet = _last(near, word_list("air_sides_water"))
    air = _last(near, word_list("air_sides_air"))
    one, other = (a, b) if _side(a, words) == "in" else (b, a)
    if wet > air or {a.reading.point, b.reading.point} & {"water in", "water out", "water"}:
        return ("water in", "water out")
    into, off = one.reading.value or 0.0, other.reading.value or 0.0
    if off < into:
        return ("return", "supply")
    if off == into:
        return None
    condenser = _last(near, word_list("air_sides_condenser"))
    indoor = _last(near, word_list("air_sides_indoor"))
    heats = bool(word_list("air_sides_heating") & set(words[max(0, a.start - 200) : b.end + 20]))
    close = set(words[max(0, a.start - 30) : a.start])
    opening = list(words[max(0, a.start - 6) : a.start])
    while "." in opening:
        del opening[: opening.index(".") + 1]
    outdoors = {"condenser", "outdoor", "outside"} & {*opening, *words[a.start : b.end]}
    if not outdoors and word_list("air_sides_heating") & close:
        return ("return", "supply")
    if heats and indoor >= condenser:
        return ("return", "supply")
    if outdoors or condenser >= 0:
        return ("ambient", "condenser air out")
    return None


def _last(words: Sequence[str], wanted: frozenset[str]) -> int:
    """Return the place of the last of some words, -1 when none stands there."""
    return max((i for i, w in enumerate(words) if w in wanted), default=-1)
