"""The size of a fuse told behind it, which is no current: "control fuse blown, two amp"."""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.vocabulary.load import table, word_set

_BETWEEN = frozenset((",", "was", "is", "had", "'s", "a", "that", "blown", "popped", "tripped", "out"))
_REACH = 5


def is_fuse_size(narration: Narration, start: int, end: int) -> bool:
    """Tell whether amps in the singular, at the tokens [start, end), are the size of the fuse before."""
    words = narration.lowers
    if words[end - 1] != "amp":
        return False
    for k in range(start - 1, max(-1, start - 1 - _REACH), -1):
        if words[k] in table("plausible")["words"]["sized"]:
            return True
        if words[k] not in _BETWEEN and words[k] not in word_set("failed"):
            return False
    return False


def is_pump_size(narration: Narration, end: int) -> bool:
    """Tell whether cubic feet a minute are the size of what follows: "my six CFM pump"."""
    return not word_set("moves_air").isdisjoint(narration.lowers[end : end + 2])


__all__ = ["is_fuse_size", "is_pump_size"]
