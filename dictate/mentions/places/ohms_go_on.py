"""Ohms that go on with the thing under test until another is named: "None of them go to ground".

    ohms_go_on(found, words, components)

A meter stays on what it was put on. Ohms without a name of their own are those of the heater, motor or
coil read right before; a row of windings behind talk of a fan or a pump is that motor's, and no compressor's.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import MOTORS, Found, Taken
from dictate.mentions.word_lists import word_list

_PAIRS = frozenset(("common-run", "common-start", "run-start", "L1-L2", "L2-L3", "L1-L3"))
_REACH = 30  # words from one value to the next
_INSULATION = 45  # ... and to its insulation, read with another tool
_HIGH = 100_000.0
"""Ohms from which a value is one of insulation."""
_TALK = 70  # words in which a motor was spoken of before its windings are read
_PINS = frozenset(("common", "run", "start", "winding", "windings", "terminals", "pins"))
_MORE_THAN_A_COMPRESSOR = 20.0
"""Ohms above which the windings of a hermetic compressor seldom are; common practice."""
_SHELL = frozenset(("shell", "dome", "hermetic", "compressor", "compressors", "comp"))
_TROUBLE = frozenset((
    "stopped", "dead", "seized", "stuck", "motor", "locked", "stalled", "humming", "turn", "turning", "spin",
    "spinning", "still", "running", "hums", "pulled", "off", "cap", "capacitor",
))  # fmt: skip


def ohms_go_on(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Give ohms that no thing is named beside to the thing that is under test, in place."""
    ohms = [t for t in found.readings if t.reading.quantity == "resistance"]
    last: Taken | None = None
    moved = False
    for t in ohms:
        together = last is not None and t.start == last.start  # "none of them": a reading for each
        if last is not None and ((together and moved) or _goes_on(last, t, words, components)):
            t.reading.component, t.reading.which = last.reading.component, None
            if t.reading.component not in MOTORS and t.reading.point is not None:
                t.reading.point = "ground" if t.value.ground else None  # a heater has no pins
            moved = True
        elif _back_to_the_shell(last, t, words):
            t.reading.component, t.reading.which, moved = "compressor", None, False
        elif t.reading.component == "compressor" and t.reading.point in _PAIRS | {None, "ground"}:
            motor = _spoken_of(t, words, components)
            moved = motor is not None and not _compressor_read(last, t)
            if motor is not None and moved:
                t.reading.component, t.reading.which = motor, None
        elif not together:
            moved = False
        last = t


def _back_to_the_shell(last: Taken | None, t: Taken, words: Sequence[str]) -> bool:
    """Tell whether windings behind a fan's are the compressor's: "Fan leads 62 ohms. Let the shell cool."."""
    if last is None or t.reading.point not in _PAIRS or not (t.reading.component or "").endswith("fan motor"):
        return False
    between = words[last.end : t.start]
    return (
        last.reading.point not in _PAIRS and len(between) < _TALK and bool({"shell", "dome"} & set(between))
    )


def _compressor_read(last: Taken | None, t: Taken) -> bool:
    """Tell whether the ohms right before were a compressor's."""
    return last is not None and last.reading.component == "compressor" and t.start - last.end <= _INSULATION


def _goes_on(last: Taken, t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> bool:
    """Tell whether the ohms of `t` are those of the thing that `last` was read on."""
    of, now = last.reading.component, t.reading.component
    if of is None or now is None or of == now or t.reading.role != "measured":
        return False
    insulation = (
        t.value.ground or (t.reading.value or 0) >= _HIGH or (t.reading.point or "").endswith("ground")
    )
    if not 0 <= t.start - last.end <= (_INSULATION if insulation else _REACH):
        return False
    heats = of.endswith("heater") or of in word_list("places_heaters")
    if not heats and of not in MOTORS and of not in word_list("places_valves"):
        return False
    if {"new", "replacement"} & set(words[max(last.end, t.start - 5) : t.start]):
        return False  # "the new one read four ninety" is of what was bad, whichever was read last
    if of not in MOTORS and _PINS & set(words[last.end : t.end + 3]):
        return False
    behind = 4 if words[t.end : t.end + 1] in (["on"], ["of"], ["for"], ["at"], ["across"]) else 0
    named = [
        c
        for c in components
        if last.end <= c.start < t.end + behind and "resistance" in c.component.measures and c.name != of
    ]
    return not named and not _SHELL & set(words[last.end : t.end]) - (
        {"shell"} if of == "compressor" else set()
    )


def _spoken_of(t: Taken, words: Sequence[str], components: Sequence[ComponentAt]) -> str | None:
    """Return the one motor that was spoken of before its windings; None where a compressor was."""
    begin = max(0, t.start - _TALK)
    named = [c for c in components if begin <= c.start < t.start and not c.backdrop]
    motors = [c for c in named if c.name in MOTORS and c.name not in {"compressor", "motor"}]
    if not motors or len({c.name for c in motors}) != 1:
        return None
    if _SHELL & set(words[motors[0].start : t.end + 8]):
        return None
    if _SHELL & set(words[begin : motors[0].start]) and (t.reading.value or 0) < _MORE_THAN_A_COMPRESSOR:
        return None
    one = motors[-1].name
    if (
        one.endswith("fan motor")
        and t.reading.state == "value"
        and not t.value.ground
        and (t.reading.value or 0) < 2
    ):
        return None  # tenths of an ohm are a compressor's
    talked = words[motors[0].start : t.start]
    return one if _TROUBLE & set(talked) else None


__all__ = ["ohms_go_on"]
