"""What is read on a drive that feeds a motor: what comes into it, its bus, and the hertz that it gives.

"Supply fan's on a drive. Incoming, 1 to 2 is 482 ... Bus is 678 volts DC." Hardly anybody names the drive
again beside each of them.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

_DRIVE = "variable frequency drive"
_STOPS = frozenset((".", "?", "!", ";"))
_LEAD = 24  # words of a sentence in front of a value


def settle_drives(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give what was read at a drive to it, in place."""
    words = narration.lowers
    if word_list("drives_signs").isdisjoint(words) or not _has_drive(words):
        return
    for r in readings:
        if r.role != MEASURED or r.quantity not in {"voltage", "frequency"}:
            continue
        start = next(tokens_at(narration, r.at), None)
        if start is None:
            continue
        first = start
        while first > 0 and words[first - 1] not in _STOPS and start - first < _LEAD:
            first -= 1
        lead = [*words[first:start], *words[start : start + 1]]
        if r.quantity == "frequency" or "bus" in lead[-6:]:
            if r.component is None and words[start + 2 : start + 3] not in (["supply"], ["mains"]):
                r.component = _DRIVE
            if "bus" in lead[-6:]:
                r.component, r.which, r.point = _DRIVE, None, None
        elif not word_list("drives_inputs").isdisjoint(lead):
            since = max(i for i, w in enumerate(words[first : start + 1]) if w in word_list("drives_inputs"))
            named = any(first + since < c.start < start for c in find_components(narration))
            if not named:
                r.component, r.which = _DRIVE, None


def _has_drive(words: Sequence[str]) -> bool:
    """Tell whether a drive that feeds a motor is named, and no belt drive or drive to the site."""
    if not word_list("drives_named").isdisjoint(words):
        return True
    return any(
        w == "drive"
        and words[i - 1] in word_list("drives_led_by")
        and not word_list("drives_not_behind").intersection(words[i + 1 : i + 2])
        for i, w in enumerate(words)
    )


__all__ = ["settle_drives"]
