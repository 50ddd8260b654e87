"""Parts that only tell when or why something was measured on another one: "while the board was calling".

    is_backdrop(words, start, end) -> bool

"With the compressor on", "when the relay pulls in", "so the board's doing its part" name a part that no value
of the clause is of, as long as the sentence names another.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import word_list


def is_backdrop(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether the part named at the tokens [start, end) is only told to do something meanwhile."""
    if _unplugged_at(words, start):
        return True
    states = word_list("backdrop_states")
    if end >= len(words) or (words[end] not in states and words[end - 1] != "'s"):
        return False
    i = start - 1
    while i >= 0 and start - i <= 2 and words[i] in word_list("backdrop_articles"):
        i -= 1
    return i >= 0 and words[i] in word_list("backdrop_leads")


def _unplugged_at(words: Sequence[str], start: int) -> bool:
    """Tell whether a part is only where another one was unplugged: "box probe disconnected at the board"."""
    i = start
    while i > 0 and start - i < 2 and words[i - 1] in {"the", "its", "that", "control"}:
        i -= 1
    return i > 1 and words[i - 1] in {"at", "from"} and words[i - 2] in word_list("backdrop_unplugged")
