"""Words of correction that were said to somebody else, to the noise around, or of what was looked at.

"three hundred psi, hold on somebody's truck is beeping, four fifty"   to the noise
"22 degrees on the balcony, dogs are barking, sorry"                    of it
"510, hey, no, not now, dude. 340"                                      to somebody who came by
"3000 in it, soapy water, nothing, nothing, no hang on, nothing"        of the bubbles that are looked for
"Two hundred. Wait a bit. Four hundred."                                a pause while it fills
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.corrections.correction_words import CUTS, STOPS, correction_words
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import numbers_by_start
from dictate.mentions.word_lists import phrase_at

_REACH = 9
"""Words on either side of a cue in which a noise or somebody is named."""


def said_aside(narration: Narration, start: int, end: int) -> bool:
    """Tell whether the words of a cue at the tokens [start, end) speak of something around.

    >>> said_aside(Narration.from_text("300, hold on somebody's truck is beeping, 450"), 2, 4)
    True
    """
    words = narration.lowers
    return (
        _waits(words, start, end)
        or _looks_again(words, start, end)
        or _to_somebody(narration, end)
        or _of_noise(narration, start, end)
    )


def _waits(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether one only waits, in a sentence of its own: "Wait a bit.", "Wait for it."."""
    if words[start:end] != ["wait"] or (start and words[start - 1] not in STOPS):
        return False
    size = phrase_at("aside_waits", words, end)
    return bool(size) and (end + size == len(words) or words[end + size] in STOPS | {","})


def _looks_again(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether the same verdict stands on both sides: "nothing, no hang on, | nothing"."""
    before, behind = start - 1, end
    while before >= 0 and words[before] in CUTS:
        before -= 1
    while behind < len(words) and words[behind] in CUTS:
        behind += 1
    if before < 0 or behind >= len(words):
        return False
    verdicts = correction_words("aside", "verdicts")
    return words[before] in verdicts and words[behind] in verdicts


def _to_somebody(narration: Narration, end: int) -> bool:
    """Tell whether a noise, or somebody who is put off, is spoken to between a cue and the next number."""
    words, starts = narration.lowers, numbers_by_start(narration)
    for at in range(end, min(len(words), end + _REACH)):
        if at in starts or words[at] in STOPS:
            return False
        if words[at] in correction_words("aside", "noises") or phrase_at("aside_put_off", words, at):
            return True
    return False


def _of_noise(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a noise is told in the clause that a "sorry" ends: "dogs are barking, sorry"."""
    words, starts = narration.lowers, numbers_by_start(narration)
    if words[end - 1] != "sorry" or end in starts or (words[end : end + 1] == [","] and end + 1 in starts):
        return False  # "dog's barking, sorry, seventy-two" may put a value right
    first = start - (words[start - 1 : start] == [","])
    begin = first
    while begin and words[begin - 1] not in CUTS and first - begin < _REACH:
        begin -= 1
    return not correction_words("aside", "noises").isdisjoint(words[begin:first])


__all__ = ["said_aside"]
