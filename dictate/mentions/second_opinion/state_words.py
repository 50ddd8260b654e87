"""Words that may be all that a meter said: "nothing", "open", "dead", "no continuity"."""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.word_lists import first_words, phrase_at

LIST = "state_words"


def state_places(narration: Narration) -> list[tuple[int, int]]:
    """Return the tokens [start, end) of each that is no part of a number; computed once a narration."""
    done: list[tuple[int, int]] | None = narration.found.get("state words")
    if done is None:
        numbers = {t for x in find_numbers(narration) for t in range(x.start, x.end)}
        words, done, behind = narration.lowers, [], 0
        for at in narration.starting(first_words(LIST)):
            size = phrase_at(LIST, words, at) if at >= behind else 0
            if size and (size > 1 or at not in numbers):
                done.append((at, at + size))
            behind = max(behind, at + size)
        narration.found["state words"] = done
    return done


__all__ = ["LIST", "state_places"]
