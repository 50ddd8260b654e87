"""Pressures of water before and behind a pump: "looked at the pump. Suction 1.1 bar, discharge 2.4".

    pump_sides(found, words, components)

A pump has a suction and a discharge side as a compressor has. What is read under the name of a water pump is
the pump's until another part, or the refrigerant, is spoken of. That the pump only runs tells of no gauge.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", "?", "!", ";"))
_REACH = 14
"""Words from the name of a pump, or from its last pressure, to the next."""


def pump_sides(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Give the pressures read on a water pump that pump, in place."""
    pumps = [c for c in components if c.name in word_list("pump_sides_pumps")]
    if not pumps:
        return
    pump: str | None = None
    row: list[Taken] = []
    for t in sorted(found.readings, key=lambda t: t.start):
        r = t.reading
        if r.quantity != "pressure" or r.state != "value":
            continue
        named = [c for c in pumps if c.end <= t.start and t.start - c.end <= _REACH]
        if named and _read_on(named[-1], t, words, components):
            row = row if pump == named[-1].name and _goes_on(row, t, words, components) else []
            pump = named[-1].name
        elif not _goes_on(row, t, words, components):
            pump, row = None, []
        if pump is None:
            continue
        if r.component in {None, pump}:
            r.component = pump
            if _differs(t, words):
                r.derived, r.point, r.reference = True, None, "differential"
        row.append(t)


def _read_on(pump: ComponentAt, t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> bool:
    """Tell whether a pressure was read on the pump that is named in front of it.

    "Pump suction 1.4", "across the pump 1.2", "looked at the pump. Suction 1.1", but not "pump's running.
    Suction 3.1": a side follows its name, or it was looked at.
    """
    between = words[pump.end : t.start]
    refrigerant = word_list("pump_sides_other") & set(words[t.end : t.end + 4])
    if refrigerant or _another(pump.end, t, words, components):
        return False
    if not _ENDS & set(between):
        lead = words[max(0, pump.start - 3) : pump.start]
        told = word_list("pump_sides_sides") | word_list("pump_sides_plain")
        return set(between) <= told or bool(word_list("pump_sides_at") & set(lead))
    begin = max((k + 1 for k in range(pump.start) if words[k] in _ENDS), default=0)
    looked = word_list("pump_sides_looked") & set(words[begin : pump.start])
    alone = pump.start - begin <= 2
    behind = list(between[: next(k for k, w in enumerate(between) if w in _ENDS)])
    return behind in ([], ["first"], ["now"], ["next"], ["then"]) and bool(looked or alone)


def _goes_on(row: list[Taken], t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> bool:
    """Tell whether a pressure goes on with the pump that the row before was read on.

    Behind both sides only their difference goes on, or what it should be.
    """
    if not row or t.start - row[-1].end > _REACH or _another(row[-1].end, t, words, components):
        return False
    sides = sum(1 for x in row if not x.reading.derived and x.reading.role == "measured")
    return sides < 2 or t.reading.role != "measured" or _differs(t, words)


def _another(start: int, t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> bool:
    """Tell whether another part, or the refrigerant, is named between."""
    other = word_list("pump_sides_other") & set(words[start : t.start])
    return bool(other) or any(start <= c.start < t.start for c in components)


def _differs(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a pressure is the difference of both sides."""
    near = {*words[max(0, t.start - 4) : t.start], *words[t.end : t.end + 3]}
    return t.reading.role == "measured" and bool(word_list("pump_sides_differs") & near)


__all__ = ["pump_sides"]
