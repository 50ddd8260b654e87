"""Parts that a value can hardly be of: mains on a probe, mains of a switch on the motor spoken of before.

The words all around a value speak of the part that the visit is about; a meter is put on other things as
well. What the frame proves is put right here:

    on a probe     mains are never read on one: "P one, that's the probe. Mains at the spur, | 239"
    on the coil    no switch has one: "pull-out back in, and the valve slammed over with | 25.6 | on the coil"
    R to C         between the terminals of the controls, no winding has 26 volts
    at the switch  "pull-out's out. Meter on the bottom lugs, | zero": what was thrown last, no motor
    the cable      "reading down the cable. | 1.3 ohms": of no part that is under talk
    it's also      "heater is 310 ohms, but it's also | 40 kilohms | to the chassis": of the same part
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.labels import ComponentAt, find_components
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED
from dictate.mentions.whose.taken import MOTORS
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

_STOPS = frozenset((".", "?", "!", ";"))
_PROBE = "temperature sensor"
_WINDINGS = frozenset(("common-run", "common-start", "run-start"))
_MAINS = 90.0
_CONTROL = (18.0, 32.0)
_WITH_COILS = frozenset(("valve", "relay", "contactor", "solenoid"))
_SWITCHES = frozenset(("disconnect switch", "breaker", "receptacle"))


def settle_hardly_of(narration: Narration, readings: Sequence[Reading]) -> None:
    """Take values off the parts that they can hardly be of, in place."""
    named = find_components(narration)
    for r in readings:
        if r.role != MEASURED or r.quantity != "voltage" or r.value is None:
            continue
        if r.component == _PROBE and r.value >= _MAINS:
            r.component, r.which, r.point = None, None, None if r.point in _WINDINGS else r.point
        elif r.point in _WINDINGS and _CONTROL[0] <= r.value <= _CONTROL[1]:
            r.component, r.which, r.point = None, None, None
        elif r.component in _SWITCHES and r.point == "coil":
            r.component, r.which = _with_a_coil(narration, named, next(tokens_at(narration, r.at), 0)), None
        elif r.component in MOTORS and (r.value == 0 or r.value >= _MAINS):
            start = next(tokens_at(narration, r.at), None)
            if start is None:
                continue
            switch = _thrown(narration, named, start)
            if switch is not None:
                r.component, r.which = switch, None
            elif r.value == 0 and _switched_off(narration, named, start):
                r.component, r.which = None, None
    for r in readings:
        ohms = r.quantity == "resistance" and r.role == MEASURED and r.component is not None
        if ohms and _of_a_wire(narration, named, next(tokens_at(narration, r.at), 0)):
            r.component, r.which = None, None
    for before, r in pairwise(readings):
        if _of_it(narration, named, before, r):
            r.component, r.which = before.component, before.which


def _thrown(narration: Narration, named: Sequence[ComponentAt], at: int) -> str | None:
    """Return the switch that a value was read at: thrown right before, no motor named."""
    words = narration.lowers
    first = _begin(words, at)
    last = _begin(words, max(0, first - 1)) if first else first
    end = next((k for k in range(at, len(words)) if words[k] in _STOPS), len(words))
    here = [c for c in named if last <= c.start < end]
    if not here or any(c.name not in _SWITCHES for c in here):
        return None
    if not word_list("motors_plain").isdisjoint(words[last:end]):
        return None
    if word_list("switch_thrown").isdisjoint(words[last:at]):
        return None
    return here[-1].name if here[-1].start < at else None


def _of_a_wire(narration: Narration, named: Sequence[ComponentAt], at: int) -> bool:
    """Tell whether a wire was told right in front of ohms, no part behind it: "cable by itself, | 1.2"."""
    words = narration.lowers
    first = _begin(words, at)
    if at - first <= 1 and first:
        first = _begin(words, first - 1)
    said = max((i for i in range(first, at) if words[i] in word_list("wires_alone")), default=None)
    if said is None or at - said > 8 or any(said < c.start < at for c in named):
        return False
    alone = (
        words[said + 1 : said + 4] in (["by", "itself", ","], ["by", "itself", "."])
        or "itself" in words[said:at]
    )
    down = words[said - 2 : said] in (["down", "the"], ["along", "the"], ["through", "the"])
    return alone or down or "themselves" in words[said:at]


def _switched_off(narration: Narration, named: Sequence[ComponentAt], at: int) -> bool:
    """Tell whether a nought follows right on the switch that was put off: "Switch off again. | 0 | again"."""
    words = narration.lowers
    first = _begin(words, at)
    last = _begin(words, max(0, first - 1))
    if at - first > 3 or first - last > 6 or any(last <= c.start <= at for c in named):
        return False
    return "off" in words[last:first] and not {"switch", "power", "mains"}.isdisjoint(words[last:first])


def _with_a_coil(narration: Narration, named: Sequence[ComponentAt], at: int) -> str | None:
    """Return the last part of the kind that the sentence names: the valve, the relay, the contactor."""
    words = narration.lowers
    kind = next((w for w in reversed(words[_begin(words, at) : at]) if w in _WITH_COILS), None)
    if kind is None:
        return None
    return next((c.name for c in reversed(named) if c.start < at and c.name.endswith(kind)), None)


def _begin(words: Sequence[str], at: int) -> int:
    while at > 0 and words[at - 1] not in _STOPS:
        at -= 1
    return at


def _of_it(narration: Narration, named: Sequence[ComponentAt], before: Reading, r: Reading) -> bool:
    """Tell whether ohms go on with "it" from those of a part in the same sentence."""
    if not (before.quantity == r.quantity == "resistance") or before.component in {None, r.component}:
        return False
    if r.role != MEASURED or before.role != MEASURED:
        return False
    one, two = next(tokens_at(narration, before.at), None), next(tokens_at(narration, r.at), None)
    if one is None or two is None or not 0 < two - one <= 16:
        return False
    between = narration.lowers[one + 1 : two]
    if not _STOPS.isdisjoint(between) or any(one < c.start < two for c in named):
        return False
    return (
        any(
            pair in (["it", "'s"], ["it", "is"], ["it", "has"], ["it", "reads"], ["it", "had"])
            for pair in ([a, b] for a, b in pairwise(between))
        )
        or "it's" in between
    )


__all__ = ["settle_hardly_of"]
