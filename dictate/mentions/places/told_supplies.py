"""Volts read where the supply comes in, whatever part was spoken of last, and what a part gives out.

    told_supplies(found, words, components)

"Fitted a new start relay. 241 at the plug and 236 while it's trying" is the supply's, as "from the stabilizer
I have 221" is; "231 into the speed controller, 38 out" goes in at its line side and comes out at its load
side, and "the speed controller puts out 196" is its load side. A fan has a plug of its own, so that there the
part that was spoken of stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import MOTORS, Found, Taken
from dictate.mentions.word_lists import word_list

_MAINS = 90.0
"""Volts from which a voltage is one of the mains."""
_STOPS = frozenset((".", "?", "!", ";", ",", "and", "but", "so"))
_TO_IT = frozenset(("at", "on", "across", "from", "off", "in"))
_ARTICLES = frozenset(("the", "his", "her", "my", "its", "that", "this", "their", "your", "a", "one"))
_PARTS = {
    "supplies_receptacle": "receptacle",
    "supplies_switch": "disconnect switch",
    "supplies_panel": "panel",
}
_NO_FURTHER = 24
"""Words within which the supply is read once more with the machine running."""


def told_supplies(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Set the parts and points of supply voltages that the words beside them tell, in place."""
    volts = [t for t in found.readings if t.reading.quantity == "voltage" and t.reading.state == "value"]
    behind = dict(zip(map(id, found.readings), found.readings[1:], strict=False))
    before: Taken | None = None
    for t in volts:
        r = t.reading
        begin, end = _clause(t, words, behind.get(id(t)))
        place = (
            _fed_at(words, begin, t, end) if (r.value or 0) >= _MAINS and r.point in {None, "line"} else None
        )
        if place is not None:
            named = [c for c in components if begin <= c.start < end and not t.start <= c.start < t.end]
            if not any(c.name not in {*_PARTS.values(), "power cord"} for c in named):
                _supply(t, *place)
        elif (
            before is not None
            and _once_more(before, t, words)
            and not any(before.end <= c.start < t.start for c in components)  # "and at the compressor 222"
        ):
            r.component, r.which, r.point = before.reading.component, before.reading.which, "line"
        before = t if place is not None and r.point == "line" else None
    for a, b in pairwise(volts):
        _in_and_out(a, b, words)
    for t in volts:
        _gives(t, words, components)


def _clause(t: Taken, words: Sequence[str], after: Taken | None) -> tuple[int, int]:
    """Return where the clause of a value begins and ends: between marks, "and" and the like."""
    begin = t.start
    while begin > max(0, t.start - 9) and words[begin - 1] not in _STOPS:
        begin -= 1
    end = t.end
    until = after.start if after is not None and after.start > t.end else len(words)
    while end < min(until, t.end + 7) and words[end] not in _STOPS:
        end += 1
    return begin, end


def _fed_at(words: Sequence[str], begin: int, t: Taken, end: int) -> tuple[str, str | None] | None:
    """Return the list that names the place where a voltage was read, and its part; None for no such place."""
    behind = [w for w in words[t.end : end] if w not in {"volts", "volt", "v"}]
    if behind[:1] and behind[0] in _TO_IT and (place := _place(behind[1:])) is not None:
        return place
    lead = list(words[begin : t.start])
    while lead and lead[-1] in word_list("supplies_seen") and lead[-1] != "at":
        lead.pop()
    for i in range(len(lead) - 1):
        if lead[i] in _TO_IT and (place := _place(lead[i + 1 :], whole=True)) is not None:
            return place
    return None


def _place(words: Sequence[str], *, whole: bool = False) -> tuple[str, str | None] | None:
    """Return the list that the name at the head of the words stands in, and the part that it is."""
    rest = list(words)
    if rest[:1] == ["its"]:
        return None  # "fan two, 118 at its plug"
    while rest and rest[0] in _ARTICLES | word_list("supplies_kinds"):
        rest = rest[1:]
    if not rest or (whole and len(rest) > 1):
        return None
    for name in (*_PARTS, "supplies_plug", "supplies_mains"):
        if rest[0] in word_list(name) and rest[1:2] not in (["of"], ["for"]):
            return name, _PARTS.get(name)
    return None


def _supply(t: Taken, where: str, part: str | None) -> None:
    """Tell the supply of a voltage; a fan's or a pump's own plug leaves it the part that was spoken of."""
    r = t.reading
    own = r.component is not None and (
        r.component in MOTORS or r.component.endswith(("motor", "heater", "pump"))
    )
    if where != "supplies_plug" or not own:
        r.component, r.which = part, r.which if part == r.component else None
    r.point = "line"


def _once_more(a: Taken, b: Taken, words: Sequence[str]) -> bool:
    """Tell whether a voltage is that of the place before once the machine runs: "236 while it's trying"."""
    if a.sentence != b.sentence or b.reading.point not in {None, "line"} or b.start - a.end > _NO_FURTHER:
        return False
    if (b.reading.value or 0) < _MAINS or b.reading.role != a.reading.role:
        return False
    return bool(word_list("supplies_under_load") & set(words[b.end : b.end + 5]))


def _in_and_out(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "231 going in, 38 out" of what passes a supply on: its line side and its load side."""
    one, two = a.reading, b.reading
    through = word_list("supplies_through")
    if one.component not in through or two.component not in (one.component, None) or b.start - a.end > 10:
        return
    if one.point not in {None, "line"} or two.point not in {None, "line", "load"}:
        return
    gap, behind = set(words[a.end : b.start]), words[b.end : b.end + 3]
    if {"into", "in"} & gap and "out" in behind and not {"in", "into"} & set(behind):
        one.point, two.point, two.component = "line", "load", one.component


def _gives(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Read "the speed controller puts out 196 volts" as what comes out of that part."""
    lead = list(words[max(0, t.start - 6) : t.start])
    at = t.start - len(lead)
    for i in range(len(lead) - 1):
        if lead[i] in word_list("supplies_gives") and lead[i + 1] == "out" and not _STOPS & set(lead[i:]):
            named = [c for c in components if c.end == at + i or c.end == at + i - 1]
            if named and named[-1].name in word_list("supplies_through"):
                t.reading.component, t.reading.which = named[-1].name, named[-1].which
                t.reading.point = "load"


__all__ = ["told_supplies"]
