"""What leaked away: an amount that nobody moved, however near to a recovery it is told.

"Got thirty-eight grams, so seventy-two were gone", "three pounds had leaked out", "the other forty missing".
"""

from __future__ import annotations

from dictate.mentions.movements.surroundings import phrase_length
from dictate.mentions.movements.talk import Talk
from dictate.vocabulary.load import word_set

_BEHIND = 8
"""Words behind an amount in which its loss may be told."""


def leaked_away(talk: Talk, start: int, end: int) -> bool:
    """Tell whether the words right behind an amount say that it was lost.

    "Two pounds gone in", "back home" and the like are a charge.
    """
    _, s1 = talk.scopes.sentence(start)
    rest = talk.words[end : min(s1, end + _BEHIND)]
    k = 0
    while k < len(rest) and rest[k] in word_set("between_amount_and_loss"):
        k += 1
    found = phrase_length(rest[k:], "gone_behind")
    if not found:
        return False
    behind = rest[k + found : k + found + 1]
    timed = not word_set("lengths_of_time").isdisjoint(rest[k + found :])
    return timed or behind == () or behind[0] not in word_set("leads_back_in")


__all__ = ["leaked_away"]
