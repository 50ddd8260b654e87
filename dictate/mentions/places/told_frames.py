"""Places that a longer frame around a value tells, once all values are taken.

    told_frames(found, words, labels)

"Suction line about six foot from the compressor was 31" opens its sentence with the place; "box took 55
minutes to reach minus 18" names it in front of the minutes; "51 early in the freeze and 28 by the end" goes
on with it; "making 28 degree glycol and getting 34 back" tells the two sides of a liquid. Only values without
a place get one, or one that can only be meant for another.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import LabelAt
from dictate.mentions.places.boxes import has_box
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import phrase_at, word_list

_ENDS = frozenset((".", "?", "!", ";"))
_SATURATED = {"saturated suction": "suction", "saturated condensing": "discharge"}
_CIRCUIT = frozenset(("suction", "discharge", "liquid"))
_SIDES = {"return": "supply", "ambient": "condenser air out", "water in": "water out", "inlet": "outlet"}
_COPULAS = frozenset(("is", "was", "'s", "at", "read", "reads", "were"))
_MOST_SUCTION = {"psi": 90.0, "bar": 6.5, "kPa": 650.0}
"""Pressures up to which what a machine is "pulling" is its suction."""


def told_frames(found: Found, words: Sequence[str], labels: dict[int, LabelAt]) -> None:
    """Set the points that the sentence around the values tells, in place."""
    for i, t in enumerate(found.readings):
        r = t.reading
        if r.state != "value" or r.value is None or r.quantity not in {"temperature", "pressure"}:
            continue
        begin = _sentence_start(words, t.start)
        if r.quantity == "pressure":
            r.point = _SATURATED.get(r.point or "", r.point)
            if r.point is None and r.component is None:
                r.point = _pulling(t, words)
        elif r.point is None:
            before = next((x for x in reversed(found.readings[:i]) if x.reading.quantity != "length"), None)
            if before is None or before.start < begin:
                r.point = _opened(t, words, labels, begin)
            if r.point is None and r.component is None:
                r.point = _of_a_liquid(t, words) or _sitting(t, words, begin)
        elif r.point == "water":
            r.point = _of_a_liquid(t, words) or r.point
        if r.quantity == "temperature":
            _took(t, words, labels)
    for a, b in pairwise(found.readings):
        one, two = a.reading, b.reading
        if one.quantity == two.quantity and one.quantity in {"temperature", "pressure"}:
            _by_the_end(a, b, words)
            _on_and_off(a, b, words)
            _alone_again(a, b, words)
        if one.quantity == "pressure" and two.quantity == "temperature":
            _same_line(a, b, words)


def _sentence_start(words: Sequence[str], at: int) -> int:
    while at > 0 and words[at - 1] not in _ENDS:
        at -= 1
    return at


def _opened(t: Taken, words: Sequence[str], labels: dict[int, LabelAt], begin: int) -> str | None:
    """Return the pipe that a sentence begins with: "Suction line six foot from the compressor was 31"."""
    at = begin + (words[begin] in {"the", "my", "and", "so"})
    label = labels.get(at)
    if label is None or label.label.point not in _CIRCUIT or not label.label.fits("temperature"):
        return None
    gap = words[label.end : t.start]
    if not 2 <= len(gap) <= 12 or gap[-1] not in _COPULAS or {",", "and", "but"} & set(gap):
        return None
    other = any(k in labels and labels[k].label.point in _CIRCUIT for k in range(label.end, t.start))
    return None if other else label.label.point


def _of_a_liquid(t: Taken, words: Sequence[str]) -> str | None:
    """Return the side of a liquid that a machine cools: "making 28 degree glycol and getting 34 back"."""
    lead, behind = words[max(0, t.start - 2) : t.start], list(words[t.end : t.end + 3])
    if behind[:1] in (["degrees"], ["degree"], ["f"], ["c"]):
        behind = behind[1:]
    fluid = bool(word_list("told_frames_fluids") & set(words[max(0, t.start - 30) : t.end + 12]))
    if not fluid or not lead:
        return None
    if (
        lead[-1] in word_list("told_frames_makes")
        and behind[:1]
        and behind[0] in word_list("told_frames_fluids")
    ):
        return "supply"
    gets = set(lead) & word_list("told_frames_gets")
    return "return" if gets and behind[:1] == ["back"] else None


def _sitting(t: Taken, words: Sequence[str], begin: int) -> str | None:
    """Return the box for what opens a sentence without a subject: "Sitting on two degrees"."""
    lead = [w for w in words[begin : t.start] if w not in {"about", "around", "minus", "plus", "a"}]
    if lead[:1] not in (["sitting"], ["sat"]) or not set(lead[1:]) <= {"at", "on", "right", "there"}:
        return None
    return "box" if has_box(words[:begin]) else None


def _pulling(t: Taken, words: Sequence[str]) -> str | None:
    """Return the suction for the pressure that a machine pulls: "it's pulling 110 kPa"."""
    r = t.reading
    pulls = words[t.start - 1] in {"pulling", "pulls"} if t.start else False
    return "suction" if pulls and (r.value or 0) <= _MOST_SUCTION.get(r.unit or "", 0) else None


def _took(t: Taken, words: Sequence[str], labels: dict[int, LabelAt]) -> None:
    """Read "box took 55 minutes to reach minus 18": the place stands in front of the time."""
    reached = next(
        (k for k in range(max(0, t.start - 6), t.start) if phrase_at("told_frames_reaches", words, k)), None
    )
    if reached is None or _ENDS & set(words[reached : t.start]):
        return
    for k in range(reached - 1, max(-1, reached - 9), -1):
        if words[k] in _ENDS:
            return
        if words[k] not in {"took", "takes", "needed", "needs"}:
            continue
        label = next((labels[m] for m in (k - 1, k - 2, k - 3) if m in labels and labels[m].end == k), None)
        if label is not None and label.label.fits("temperature") and label.label.point is not None:
            t.reading.point, t.reading.component = label.label.point, label.label.component
        return


def _by_the_end(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "51 early in the freeze and 28 by the end": it is the same place later."""
    if a.reading.point is None or b.reading.point is not None or b.reading.component is not None:
        return
    if a.reading.unit != b.reading.unit or b.start - a.end > 10 or _ENDS & set(words[a.end : b.start]):
        return
    on_the_pipe = a.reading.point in _CIRCUIT and list(words[a.end : b.start])[-3:-1] == ["at", "the"]
    if on_the_pipe or any(phrase_at("told_frames_later", words, k) for k in (b.end, b.end + 1)):
        b.reading.point = a.reading.point


def _on_and_off(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "air on 25, off 13": the second is the other side of the same coil."""
    one, two = a.reading, b.reading
    if one.quantity != "temperature" or two.component is not None or b.start - a.end > 4:
        return
    gap = [w for w in words[a.end : b.start] if w not in {",", "and", "degrees", "degree", "f", "c"}]
    led = words[max(0, a.start - 2) : a.start]
    if gap in (["off"], ["leaving"], ["coming", "off"]) and one.point in _SIDES and "on" in led:
        two.point = _SIDES[one.point]
    elif gap in (["on"], ["coming", "on"], ["going", "on"]) and "off" in led:
        two.point = next((k for k, v in _SIDES.items() if v == one.point), two.point)


def _alone_again(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Give a value said again as a sentence of its own the place that it had: "16. Sixteen degrees"."""
    one, two = a.reading, b.reading
    if (one.value, one.unit) != (two.value, two.unit) or two.point is not None or two.component is not None:
        return
    gap = words[a.end : b.start]
    if 1 <= len(gap) <= 2 and gap[-1] in _ENDS:
        two.point, two.component = one.point, one.component


def _same_line(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "liquid at the case 205, line 81": the line is that of the pressure in front of it."""
    lead = [w for w in words[max(a.end, b.start - 4) : b.start] if w not in _COPULAS | {"the", ",", "psi"}]
    if lead != ["line"] or b.start - a.end > 6 or _ENDS & set(words[a.end : b.start]):
        return
    if a.reading.point in {"liquid", "discharge"}:
        b.reading.point = a.reading.point


__all__ = ["told_frames"]
