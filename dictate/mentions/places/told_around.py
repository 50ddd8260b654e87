"""Parts and places that the words right around a value tell, once all values are taken.

    told_around(found, words, components)

"13.9 at the battery and only 11.6 at the clutch plug" names where each was read; "volts on it 119" goes back
to the part that was spoken of; "it is warm on top, 53 degrees" as well; "36 degrees in it" is the box, "88
degrees in that stand" the air around; "58 going in the coil, 53 coming out" are the two sides of a coil.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import ComponentAt
from dictate.mentions.places.boxes import has_box
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", "?", "!", ";"))
_CUTS = _ENDS | {",", "and", "but", ":"}
_ARTICLES = frozenset(("the", "its", "my", "that", "this", "each", "their"))
_UNITS = frozenset(
    ("v", "volts", "volt", "vac", "vdc", "ac", "dc", "degrees", "degree", "f", "c", "fahrenheit", "celsius")
)
_LIVE_REACH = 25
_COLD = {"degF": 68.0, "degC": 20.0}
_WARM = {"degF": 65.0, "degC": 18.0}


def told_around(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Set the parts and points that the words around the values tell, in place."""
    starts = {c.start: c for c in components}
    for i, t in enumerate(found.readings):
        r = t.reading
        if r.state != "value" or r.value is None:
            continue
        if r.quantity == "voltage" and not r.derived:
            _read_at(t, words, starts, components)
        if r.component is None and r.quantity in {"voltage", "current"}:
            r.component = _on_it(t, words, components)
        if r.quantity == "voltage":
            _at_a_terminal(t, words)
        if r.quantity == "temperature" and r.component is None and r.point is None:
            r.component = _pronoun(t, found.readings[i - 1] if i else None, words)
            if r.component is None:
                r.point = _inside(t, words) or _around(t, words) or _poured(t, words)
        if r.quantity == "temperature":
            _hot_gas(t, words)
            _on_the_display(t, words)
    for a, b in pairwise(found.readings):
        _off_the_vent(a, b, words)
        _cold_air(a, b)
        _through_a_coil(a, b, words)
    for i in range(1, len(found.readings) - 1):
        _other_two(found.readings[i - 1 : i + 2], words)


def _behind(t: Taken, words: Sequence[str], skip: frozenset[str] | set[str] = _UNITS) -> int:
    """Return the token behind a value, its unit and small words."""
    at = t.end
    while at < len(words) and at - t.end < 4 and words[at] in skip:
        at += 1
    return at


def _lead(t: Taken, words: Sequence[str], size: int, cuts: frozenset[str] = _ENDS) -> list[str]:
    """Return the words in front of a value in its sentence, or in its clause."""
    lead = list(words[max(0, t.start - size) : t.start])
    return lead[max((i for i, w in enumerate(lead) if w in cuts), default=-1) + 1 :]


def _read_at(
    t: Taken, words: Sequence[str], starts: dict[int, ComponentAt], components: Sequence[ComponentAt]
) -> None:
    """Read the part at which a voltage was read: "205 volts right at the harvest valve coil"."""
    at = _behind(t, words, _UNITS | {"right", "straight", "still", "there", "only"})
    side = words[at : at + 4]
    if side[:2] == ["on", "the"] and side[3:] == ["side"] and words[at + 4 : at + 5] == ["of"]:
        at += 4  # "208 on the line side of the contactor"
    elif words[at : at + 1] != ["at"]:
        return
    at += 1
    while at < len(words) and words[at] in _ARTICLES:
        at += 1
    named = starts.get(at)
    r = t.reading
    if named is None or named.component.generic or "voltage" not in named.component.measures:
        return
    begin = t.start - len(_lead(t, words, 12, _CUTS))
    own = any(begin <= c.start < t.start and c.name == r.component for c in components)
    if r.component == named.name or (own and r.component is not None):
        return
    r.component, r.which = named.name, named.which


def _on_it(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the part spoken of before "volts on it 119", "119 volts to it"."""
    lead = [w for w in _lead(t, words, 5) if w not in {",", "is", "was", "about"}]
    at = _behind(t, words)
    behind = words[at : at + 2] in (["on", "it"], ["to", "it"], ["at", "it"])
    if lead[-2:] not in (["on", "it"], ["to", "it"], ["at", "it"]) and not behind:
        return None
    begin = t.start - len(lead)
    near = [c for c in components if begin - _LIVE_REACH <= c.start < begin and not c.backdrop]
    last = near[-1] if near else None
    return last.name if last is not None and t.reading.quantity in last.component.measures else None


def _at_a_terminal(t: Taken, words: Sequence[str]) -> None:
    """Read volts on a numbered terminal of "the clock": a defrost clock, where defrosts are spoken of."""
    at = _behind(t, words)
    behind = list(words[at : at + 6])
    if "terminal" not in behind or not {"clock", "clock's"} & set(words[max(0, t.start - 40) : t.start]):
        return
    if (
        "defrost" in words[max(0, t.start - 60) : t.start]
        or "defrosts" in words[max(0, t.start - 60) : t.start]
    ):
        t.reading.component = "defrost timer"


def _pronoun(t: Taken, before: Taken | None, words: Sequence[str]) -> str | None:
    """Return the motor that "it is warm on top, 53 degrees" is told of."""
    lead = _lead(t, words, 9)
    said = " ".join(lead)
    if before is None or not said.startswith(
        ("it is ", "it's ", "it 's ", "it was ", "she's ", "she 's ", "she is ")
    ):
        return None
    if not word_list("told_around_felt") & set(lead):
        return None
    begin = t.start - len(lead)
    if before.reading.component not in word_list("readings_motors") or begin - before.end > 2:
        return None
    return before.reading.component


def _inside(t: Taken, words: Sequence[str]) -> str | None:
    """Return "box" for "36 degrees in it" and, on a vehicle, for "58 in the back"."""
    r = t.reading
    at = _behind(t, words)
    behind = list(words[at : at + 3])
    if behind[:1] not in (["in"], ["inside"], ["down"]):
        return None
    cold = r.value is not None and r.value <= _COLD.get(r.unit, 0)
    if behind[:2] in (["in", "it"], ["in", "her"], ["inside", "it"]) and cold and has_box(words):
        return "box"
    if behind[:2] in (["down", "there"], ["in", "there"]) and "cellar" in words and cold:
        return "box"
    vehicle = word_list("told_around_vehicles") & set(words)
    return "box" if vehicle and has_box(words) and behind == ["in", "the", "back"] else None


def _around(t: Taken, words: Sequence[str]) -> str | None:
    """Return "ambient" for "it's 88 degrees in that stand": a room, and no machine."""
    r = t.reading
    if r.role not in {"measured", "earlier"} or r.value is None or r.value < _WARM.get(r.unit, 1e9):
        return None
    at = _behind(t, words)
    if words[at : at + 1] not in (["in"], ["inside"]) or words[at + 1 : at + 2] not in (
        ["that"],
        ["this"],
        ["the"],
    ):
        return None
    place = words[at + 2] if at + 2 < len(words) else ""
    return "ambient" if place in word_list("told_around_rooms") else None


def _poured(t: Taken, words: Sequence[str]) -> str | None:
    """Return "product" for what a drink was poured at: "poured me a cup and it came out at 51"."""
    lead = _lead(t, words, 14)
    poured = {"poured", "pour", "pouring"} & set(lead)
    drew = {"drew", "pulled"} & set(lead) and {"glass", "pint", "cup", "beer", "drink", "sample"} & set(lead)
    return "product" if poured or drew else None


def _hot_gas(t: Taken, words: Sequence[str]) -> None:
    """Read "hot gas 68 degrees" as the discharge, and no valve's."""
    lead = _lead(t, words, 8)
    if t.reading.component != "hot gas valve" or "gas" not in lead:
        return
    at = len(lead) - 1 - lead[::-1].index("gas")
    if lead[at - 1 : at] == ["hot"] and lead[at + 1 : at + 2] not in (
        ["valve"],
        ["solenoid"],
        ["bypass"],
        ["in"],
    ):
        t.reading.component, t.reading.point = None, t.reading.point or "discharge"


def _on_the_display(t: Taken, words: Sequence[str]) -> None:
    """Read "return air was plus 8 on the display": the air is named, the display only shows it."""
    at = _behind(t, words)
    if t.reading.point != "box" or words[at : at + 2] != ["on", "the"]:
        return
    shown = words[at + 2 : at + 3]
    lead = [w for w in _lead(t, words, 6) if w not in {"plus", "minus", "is", "was", "at", "reads", "read"}]
    if shown and shown[0] in word_list("told_around_shows") and lead[-1:] == ["air"]:
        point = {"return": "return", "supply": "supply", "discharge": "supply"}.get(
            lead[-2] if lead[1:] else ""
        )
        t.reading.point = point or t.reading.point


def _off_the_vent(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "11 degrees off the vent with 24 going in": supply and return of a room's cooler."""
    one, two = a.reading, b.reading
    at = _behind(a, words)
    vent = words[at : at + 2] == ["off", "the"] and words[at + 2 : at + 3] != []
    if one.quantity != "temperature" or not vent or words[at + 2] not in word_list("told_around_vents"):
        return
    one.point = one.point or "supply"
    if two.quantity == "temperature" and a.sentence == b.sentence and two.point in {None, "inlet", "ambient"}:
        behind = list(words[_behind(b, words) : _behind(b, words) + 2])
        if behind in (["going", "in"], ["coming", "in"], ["going", "back"]):
            two.point = "return"


def _cold_air(a: Taken, b: Taken) -> None:
    """Read "discharge 31, return 40" as the two airs of a case: no discharge line is that cold."""
    for one, other in ((a.reading, b.reading), (b.reading, a.reading)):
        if {one.quantity, other.quantity} != {"temperature"} or a.sentence != b.sentence:
            return
        cold = one.value is not None and one.value <= _COLD.get(one.unit, -1e9)
        if one.point == "discharge" and other.point == "return" and cold and one.component is None:
            one.point = "supply"


def _through_a_coil(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "58 going in the coil, 53 coming out": air before and behind the coil of a box."""
    one, two = a.reading, b.reading
    if (
        {one.quantity, two.quantity} != {"temperature"}
        or a.sentence != b.sentence
        or two.component is not None
    ):
        return
    if one.point not in {"box", "return"} or two.point not in {None, "box", "outlet"}:
        return
    gap = list(words[_behind(a, words) : b.start])
    at = _behind(b, words)
    into = gap[:2] in (["going", "in"], ["going", "into"], ["coming", "in"], ["going", "to"])
    out = words[at : at + 2] in (["coming", "out"], ["coming", "off"], ["leaving", "it"], ["off", "it"])
    if into and out and len(gap) <= 6:
        two.point = "supply"


_PAIRS = ("L1-L2", "L2-L3", "L1-L3")


def _other_two(row: Sequence[Taken], words: Sequence[str]) -> None:
    """Read "L one to L two 403, the other two combinations 190 and 188": the pairs that were left."""
    one, two, three = (t.reading for t in row)
    if one.point not in _PAIRS or two.point is not None or three.point is not None:
        return
    if len({r.quantity for r in (one, two, three)}) != 1 or len({t.sentence for t in row}) != 1:
        return
    lead = list(words[row[0].end : row[1].start])
    behind = list(words[_behind(row[2], words) : _behind(row[2], words) + 5])
    told = "two" if lead[1:3] == ["the", "other"] or "other" in lead[:3] else ""
    told = told or ("two" if "other" in behind[:3] and behind[:1] in (["for"], ["on"], ["the"]) else "")
    if not told or len(lead) > 7 or row[2].start - row[1].end > 3:
        return
    left = [p for p in _PAIRS if p != one.point]
    two.point, three.point = left
    two.component, three.component = two.component or one.component, three.component or one.component


__all__ = ["told_around"]
