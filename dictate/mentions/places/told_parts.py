"""Parts of readings that are not electrical, told by the frame around a value once all values are taken.

    told_parts(found, words, components)

A level in percent behind "receiver" is the receiver's, "superheat at the compressor" is the compressor's,
"nine degrees lost over it" is told of the drier that it dropped over, and the second point of a switch
("cut out at 46 and came back at 54") belongs to the switch of the first one, "the high one" to the other.
Only values without a part get one.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import DIFFERENCES, Found, Taken
from dictate.mentions.word_lists import word_list

_RECEIVER_AGAIN = frozenset(("to", "was", "it", "at", "from", "now", "back"))
_ENDS = frozenset((".", "?", "!", ";"))


_NAMED_BEFORE = 40
"""Words within which a part was named that "across it", or a level, is told of."""


def told_parts(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Give values without a part the one that the words around them tell, in place."""
    of_receiver: int | None = None
    for t in found.readings:
        r = t.reading
        if r.component is None and r.quantity == "concentration" and r.unit == "%":
            lead = _lead(t, words, 9)
            level = "level" in lead and "receiver" in words[max(0, t.start - _NAMED_BEFORE) : t.start]
            r.component = "receiver" if "receiver" in lead or level else None
            again = of_receiver is not None and t.start - of_receiver < _LEVEL_AGAIN
            last = max((i for i, w in enumerate(lead) if w == ","), default=-1)
            if r.component is None and again and _LEVEL_SHOWN.issuperset(lead[last + 1 :]):
                r.component = "receiver"  # "receiver 28 percent. Added 25 pounds. Now 39 percent"
            elif r.component is None:
                r.component = _opening(t, words, components)
        elif r.component is None and r.quantity in DIFFERENCES:
            r.component = _at_the(t, words)
            if r.component is None and r.quantity == "temperature_difference":
                r.component = _across(t, words, components)
        elif r.component in {None, *_SIDE_SWITCHES.values()} and r.quantity == "pressure":
            r.component = _the_other_switch(t, words, components) or r.component
        if r.component == "receiver" and r.unit == "%":
            of_receiver = t.end
    for a, b in pairwise(found.readings):
        one, two = a.reading, b.reading
        if one.quantity != two.quantity or two.component is not None or one.component is None:
            continue
        gap = words[a.end : b.start]
        again = one.component in word_list("told_parts_switches") and _it_again(a, b, words, components)
        if (len(gap) > 10 or _ENDS & set(gap)) and not again:
            continue
        if (one.component == "receiver" and two.unit == "%" and _RECEIVER_AGAIN & set(gap)) or (
            one.component in word_list("told_parts_switches") and _switches_again(gap)
        ):
            two.component = one.component


_LEVEL_AGAIN = 60
"""Words behind the level of a receiver within which another percentage "now" is its level again."""
_LEVEL_SHOWN = frozenset(
    ("now", "and", "it", "it's", "is", "'s", "shows", "reads", "says", "at", "was", "up", "to", "came", ",")
)


def _opening(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the valve that stands so far open: "opening was nine percent", "valve sits at 45 percent".

    It is the last valve named that opens by steps, or the part that was named closer, such as a damper.
    A plain valve beside which superheat is told is the one that makes it.
    """
    near = {*_lead(t, words, 9), *words[t.end : t.end + 2]}
    if not near & _OPENS or near & word_list("told_parts_other_openings"):
        return None
    driven = word_list("told_parts_driven_valves")
    named = [c for c in components if t.start - _VALVE_REACH <= c.start < t.start and c.name in driven]
    other = [c for c in components if t.start - 8 <= c.start < t.start and c.name not in driven]
    if not named and near & _VALVE and not any(c.name.endswith("valve") for c in other):
        beside = words[max(0, t.start - _SUPERHEAT_REACH) : t.end + _SUPERHEAT_REACH]
        return "expansion valve" if "superheat" in beside else None
    if not named or (other and other[-1].start > named[-1].start and "valve" not in near):
        return None
    return named[-1].name


_OPENS = frozenset(("valve", "valves", "open", "opening", "opened", "opens", "stepper"))
_VALVE = frozenset(("valve", "valve's", "stepper"))
_VALVE_REACH = 150
_SUPERHEAT_REACH = 25
"""Words from an opening within which superheat tells that the valve is the one that makes it."""


def _lead(t: Taken, words: Sequence[str], size: int) -> list[str]:
    """Return the words in front of a value in its sentence."""
    lead = list(words[max(0, t.start - size) : t.start])
    return lead[max((i for i, w in enumerate(lead) if w in _ENDS), default=-1) + 1 :]


def _across(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the part that a difference was told across: "seven degrees lost over the drier"."""
    flow = word_list("told_parts_flow")
    for i in (*range(t.end, min(t.end + 5, len(words))), *range(max(0, t.start - 7), t.start)):
        if words[i] in _ENDS or (i >= t.end and words[i] == ","):
            break
        if words[i] not in word_list("told_parts_across"):
            continue
        at = i + 1 + (words[i + 1 : i + 2] in (["the"], ["that"], ["this"], ["my"]))
        named = next((c for c in components if c.start <= at < c.end), None)
        if named is not None:
            return named.name if named.name in flow else None
        if words[at : at + 1] == ["valve"]:
            pipe = word_list("told_parts_pipe")
            valves = [c.name for c in components if t.start - _NAMED_BEFORE <= c.start < t.start]
            return next((v for v in reversed(valves) if v.endswith("valve") and v in pipe), None)
        if words[at : at + 1] == ["it"]:
            before = [c for c in components if t.start - _NAMED_BEFORE <= c.start < t.start]
            in_pipe = [c for c in before if c.name in word_list("told_parts_pipe")]
            return in_pipe[-1].name if in_pipe else None
    return None


def _the_other_switch(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the switch of the other side: "low pressure switch on 0.8 bar, the high one on 24"."""
    lead = _lead(t, words, 5)
    at = next((i for i in range(len(lead) - 1) if lead[i] in _SIDE_SWITCHES and lead[i + 1] == "one"), None)
    if at is None:
        return None
    before = [c.name for c in components if t.start - _NAMED_BEFORE <= c.start < t.start]
    return _SIDE_SWITCHES[lead[at]] if before and before[-1] in _SIDE_SWITCHES.values() else None


_SIDE_SWITCHES = {
    "low": "low pressure switch",
    "lp": "low pressure switch",
    "high": "high pressure switch",
    "hp": "high pressure switch",
}


def _at_the(t: Taken, words: Sequence[str]) -> str | None:
    """Return the part at which a superheat or across which a difference was told in front of it."""
    lead = _lead(t, words, 6)
    for i in range(len(lead) - 3, -1, -1):
        if lead[i] in {"at", "on", "across", "over"} and lead[i + 1] == "the":
            name = lead[i + 2] if lead[i + 2] not in {"indoor", "evap", "evaporator"} else "evaporator"
            if "," in lead[i + 2 :]:
                return None
            return {
                "compressor": "compressor",
                "evaporator": "evaporator coil",
                "coil": "evaporator coil",
            }.get(name)
    return None


def _it_again(a: Taken, b: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> bool:
    """Tell whether "it" in the next sentence is still the switch: "set on 26. Tried it, it went at 25.6"."""
    gap = words[a.end : b.start]
    stops = [k for k, w in enumerate(gap) if w in _ENDS]
    if len(stops) != 1 or len(gap) > _NAMED_AGAIN or "it" not in gap[stops[0] :]:
        return False
    return not any(a.end <= c.start < b.start for c in components)


_NAMED_AGAIN = 12


def _switches_again(gap: Sequence[str]) -> bool:
    """Tell whether the words between two values of a switch tell its other point: "and came back at"."""
    said = set(gap)
    if not {"at", "on", "back", "in", "out"} & said:
        return False
    return bool(word_list("told_parts_switching") & said) and bool({"in", "out", "back", "on", "off"} & said)


__all__ = ["told_parts"]
