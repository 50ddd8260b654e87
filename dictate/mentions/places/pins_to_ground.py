"""Pins of a motor that were read to the shell one by one: "to the shell, two thousand from common".

    settle_pins(found, words)

The talk of the shell holds until two windings are read against each other again or another part is
measured. Within it a value that stands beside one pin is that pin's, to ground. What the winding talk before
had made of the pin ("run nine hundred" as common-run) is taken back with the doubt it had raised.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.plausible import reason
from dictate.mentions.whose.taken import MOTORS, Found, Taken
from dictate.mentions.word_lists import word_list

_REACH = 45  # words from one value to the next within which the talk goes on
_BESIDE = 4  # words in front of a value in which its pin is named
_TERMINALS = {
    "common": "common", "run": "run", "main": "run", "start": "start", "starting": "start", "aux": "start",
}  # fmt: skip
_PARTS = frozenset(
    ("disc", "disk", "relay", "cap", "capacitor", "device", "kit", "component")
)  # "start disc"
_FROM = frozenset(("from", "on", "at", "off", "for"))
_LEADS_TO = frozenset(("to", "and", "against"))
_FILLS = frozenset(("the", "its", "their", "a", "bare", "outer", "motor", "compressor", "pump"))
_PAIRED = frozenset(("common-run", "common-start", "run-start"))


def settle_pins(found: Found, words: Sequence[str]) -> None:
    """Give values read from single pins to the shell their points, in place."""
    if not word_list("values_ground") & set(words):
        return
    ground = False
    before = 0
    for t in sorted(found.readings, key=lambda t: t.start):
        if t.reading.quantity != "resistance":
            if t.reading.quantity in {"voltage", "current", "capacitance"}:
                ground, before = False, t.end  # "zero on both legs to ground" is no talk of insulation
            continue
        begin = max(before, t.start - _REACH)
        lead = words[begin : t.start]
        if begin > before:
            ground = False
        last = _last_ground(lead)
        if last is not None:
            ground = not {"winding", "windings"} & set(lead[last:])
        if _pair_said(lead[-6:]) and (last is None or last < len(lead) - 6):
            ground = False
        before = t.end
        if not ground or t.reading.component not in {*MOTORS, None}:
            continue
        pin, before = _pin(t, words, begin)
        if pin is not None and t.reading.point in {None, "ground", *_TERMINALS, *_PAIRED}:
            _put(t, f"{pin}-ground")
            t.reading.component = t.reading.component or "compressor"  # whose pins have these names


def _last_ground(lead: Sequence[str]) -> int | None:
    """Return where the last words that a lead was on the shell begin: "to the shell"."""
    for k in range(len(lead) - 1, -1, -1):
        if lead[k] in word_list("values_ground") or lead[k] in word_list("new_one_shell"):
            j = k - 1
            while j >= 0 and lead[j] in _FILLS:
                j -= 1
            if j >= 0 and lead[j] in _LEADS_TO:
                return j
    return None


def _pair_said(lead: Sequence[str]) -> bool:
    """Tell whether two pins are named against each other: "run to start"."""
    return any(
        lead[k] in _LEADS_TO | {"-", ","}
        and lead[k - 1] in _TERMINALS
        and k + 1 < len(lead)
        and lead[k + 1] in _TERMINALS
        and lead[k] != ","
        for k in range(1, len(lead))
    )


def _pin(t: Taken, words: Sequence[str], begin: int) -> tuple[str | None, int]:
    """Return the one pin named beside a value, in front or right behind, and the word behind it all."""
    lead = words[max(begin, t.start - _BESIDE) : t.start]
    stops = [k for k, w in enumerate(lead) if w in {".", ";"}]
    begun = stops[-1] + 1 if stops else 0
    named = [
        _TERMINALS[w]
        for k, w in enumerate(lead)
        if k >= begun and w in _TERMINALS and not _PARTS & set(lead[k + 1 : k + 2])
    ]
    if {"both", "across"} & {*words[t.end : t.end + 2], *lead[-2:]}:
        return None, t.end
    k = t.end
    while k < len(words) and k - t.end < 2 and words[k] in {"ohm", "ohms", "meg", "megs", "megohms", "k"}:
        k += 1
    if words[k : k + 1] and words[k] in _FROM:
        k += 1 + (words[k + 1 : k + 2] in (["the"], ["my"]))
        if words[k : k + 1] and words[k] in _TERMINALS and not named:
            return _TERMINALS[words[k]], k + 1
    return (named[0], t.end) if len(set(named)) == 1 else (None, t.end)


def _put(t: Taken, point: str) -> None:
    """Set the point, and judge the value anew as one to ground."""
    r = t.reading
    if r.state == "value" and r.value is not None:
        old = reason(r.quantity, r.point, r.value, r.unit)
        r.review = [x for x in r.review if x != old and "motor windings read" not in x]
    r.point = point


__all__ = ["settle_pins"]
