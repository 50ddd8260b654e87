"""Where the next of several machines begins: "Third's the walk-in freezer", "Next, the prep table".

    next_machines(narration) -> tokens

What was under talk on one machine is not what is measured on the next.
"""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import machine_lexicon
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import words_of

_IN_TURN = frozenset(("second", "third", "fourth", "fifth", "next", "last", "other"))
_SMALL = frozenset(("and", "then", "so", "now", "okay", "ok", ",", "right", "the", "well", "alright"))
_BEHIND = frozenset(
    ("one", "'s", "is", ",", ":", "was", "up", "the", "a", "machine", "unit", "job", "call", "stop")
)
_HEAD = 12  # words of a sentence in which the machine is named


def next_machines(narration: Narration) -> list[int]:
    """Return the tokens at which sentences begin that go on to the next machine."""
    words = words_of(narration)
    row = words.words
    if _IN_TURN.isdisjoint(row):
        return []
    lexicon, longest = machine_lexicon()
    out: list[int] = []
    for start, end in words.sentences:
        k = start
        while k < end and row[k] in _SMALL:
            k += 1
        if k + 1 >= end or k - start > 4 or row[k] not in _IN_TURN or row[k + 1] not in _BEHIND:
            continue
        stop = min(end, k + _HEAD)
        if any(
            row[i : i + n] in lexicon and not lexicon[row[i : i + n]].weak
            for i in range(k + 1, stop)
            for n in range(1, longest.get(row[i], 0) + 1)
        ):
            out.append(words.tokens[start])
    return out
