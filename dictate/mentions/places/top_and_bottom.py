"""Volts at the top and the bottom of a switch: it is fed from the top, so the bottom is its load side.

    top_and_bottom(found, words)

"Two forty at the disconnect, top side, two forty on the bottom." Common practice; what is fed from below is
called so by those who meet it.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", "?", "!", ";"))
_SWITCHES = {
    **dict.fromkeys(("contactor", "contactors"), "contactor"),
    **dict.fromkeys(("disconnect", "isolator", "pull-out", "switch"), "disconnect switch"),
    **dict.fromkeys(("fuse", "fuses"), "fuse"),
    **{w: w for w in ("starter", "breaker", "relay")},
}
_LEADS = frozenset(("on", "at", "off", "from", "the", "of", "out"))
_PAIR = frozenset(("l1", "l2", "l3", "leg", "phase", "one", "two", "three", "t1", "t2", "t3"))
_LIVE = 90.0
"""Volts from which a voltage is one of the supply."""
_WITHIN = 45
"""Words within which the switch was named."""


def top_and_bottom(found: Found, words: Sequence[str]) -> None:
    """Set the side of a switch, in place."""
    if "bottom" not in words and "top" not in words:
        return
    rows = [t for t in found.readings if t.reading.quantity == "voltage" and t.reading.state == "value"]
    last: tuple[Taken, str, str | None] | None = None
    for i, t in enumerate(rows):
        r = t.reading
        if r.derived or (0 < (r.value or 0.0) < _LIVE):
            last = None
            continue
        begin = rows[i - 1].end if i else 0
        behind = _behind(t, words)
        told = behind or _before(t, words, begin)
        if told is None and last is not None and _row(last[0], t, words):
            side, switch = last[1], last[2]
        elif told is not None:
            switch = _switch(words, t.start)
            if switch is None:
                last = None
                continue
            side = "line" if told == "top" else "load"
        else:
            last = None
            continue
        pairs = (r.point or "").startswith("L")
        lead = set(words[max(begin, t.start - 6) : t.start])
        if not (pairs and (side == "line" or behind or _PAIR & lead)):
            r.point = side
        if r.component not in _SWITCHES.values() or (r.component == "fuse" and switch is not None):
            r.component = switch
        last = (t, side, switch)


def _word(words: Sequence[str], k: int) -> str | None:
    """Return "top" or "bottom" where the word at k is a side."""
    if words[k] not in {"top", "bottom"}:
        return None
    after = words[k + 1] if k + 1 < len(words) else "."
    return words[k] if not after.isalpha() or after in word_list("top_and_bottom_behind") else None


def _behind(t: Taken, words: Sequence[str]) -> str | None:
    """Read "240 on the bottom", "479 at the bottom now", "208, top side"."""
    k = t.end
    k += words[k : k + 1] in (["volts"], ["volt"], ["v"])
    near = k
    while k < len(words) and k - near < 4 and words[k] in _LEADS:
        k += 1
    if k == near and words[k : k + 1] == [","]:
        k += 1
        if words[k + 1 : k + 2] not in (["side"], ["of"]):
            return None
        stop = words[k + 2] if k + 2 < len(words) else "."
        return _word(words, k) if words[k + 1] == "of" or stop in {".", ",", ";"} else None
    return _word(words, k) if near < k < len(words) else None


def _before(t: Taken, words: Sequence[str], begin: int) -> str | None:
    """Read "top two forty", "bottom side zero", "at the disconnect top, two eleven" before a value."""
    for k in range(t.start - 1, max(begin, t.start - 8) - 1, -1):
        if words[k] in _ENDS:
            return None
        told = _word(words, k)
        if told is not None:
            return (
                told if k >= begin and not set(words[k + 1 : t.start]) & {"volt", "volts", "line"} else None
            )
    return None


def _row(a: Taken, b: Taken, words: Sequence[str]) -> bool:
    """Tell whether a value goes on the row of the one before."""
    gap = words[a.end : b.start]
    return b.sentence == a.sentence and len(gap) <= 4 and set(gap) <= {",", "and", "then", "volts"}


def _switch(words: Sequence[str], at: int) -> str | None:
    """Return the switch named right behind a value in its sentence, else the last one before it."""
    behind = list(words[at : at + 9])
    behind = behind[: next((k for k, w in enumerate(behind) if w in _ENDS), len(behind))]
    named = [w for w in behind if w in _SWITCHES] or [
        words[k] for k in range(at - 1, max(-1, at - _WITHIN), -1) if words[k] in _SWITCHES
    ]
    return _SWITCHES[named[0]] if named else None


__all__ = ["top_and_bottom"]
