"""Switches that were only worked and not measured on: "breaker back on", "threw the disconnect".

    only_switched(words, start, end) -> bool

What was thrown, locked or closed is no place of the volts that are told next.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import word_list


def only_switched(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether the switch named at the tokens [start, end) was only turned on, off or out."""
    at = end
    while at < len(words) and at - end < 2 and words[at] in word_list("switched_between"):
        at += 1
    if at < len(words) and words[at] in word_list("switched_behind"):
        after = words[at + 1] if at + 1 < len(words) else "."
        at += after in word_list("switched_behind")
        after = words[at + 1] if at + 1 < len(words) else "."
        timed = after == "at" and ":" in (words[at + 2] if at + 2 < len(words) else "")
        if timed or after in word_list("switched_stops"):
            return True
    i = start - 1
    while i >= 0 and start - i <= 3 and words[i] in word_list("switched_articles"):
        i -= 1
    return i >= 0 and words[i] in word_list("switched_by")


__all__ = ["only_switched"]
