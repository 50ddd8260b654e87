"""Numbers that were begun, broken off and said again in full: "eight, eight... eight point six amps"."""

from __future__ import annotations

from dictate.mentions.narration import DOTS, Narration
from dictate.mentions.spoken_numbers import Number, numbers_by_start

_BREAKS = frozenset((",", "-", "uh", "um", "er", "erm", "ah"))
_LONGEST = 4


def is_false_start(narration: Narration, number: Number) -> bool:
    """Tell whether a bare number is only the beginning of the next one, behind which the speaker stopped.

    The pause ("...") or a word such as "uh" is what shows it: "seven, seven point two" may be two of a row.
    """
    return _false_start(narration, number, 0)


def _false_start(narration: Narration, number: Number, times: int) -> bool:
    words, tokens = narration.lowers, narration.tokens
    if number.written or number.places or number.negative:
        return False
    k = number.end
    while k < len(words) and k - number.end < _LONGEST and words[k] in _BREAKS:
        k += 1
    stopped = any(tokens[j].text in DOTS or words[j] not in {",", "-"} for j in range(number.end, k))
    following = numbers_by_start(narration).get(k)
    if k == number.end or following is None:
        return False
    said, goes_on = words[number.start : number.end], words[following.start : following.end]
    if goes_on[: len(said)] != said:
        return False
    if goes_on == said:  # the same beginning again: both are, where that one is
        return times < _LONGEST and _false_start(narration, following, times + 1)
    return stopped


__all__ = ["is_false_start"]
