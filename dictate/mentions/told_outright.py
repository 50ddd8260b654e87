"""Bare numbers whose frame says outright what they are, so that the words further off weigh nothing.

    tell_outright(narration, number)     noted where the number is taken
    tell_proved(narration, number)       noted where the frame proves a target's quantity, too
    tell_stage_outright(narration, at)   noted where a heading tells how it was found, or how it was left
    tell_moved_outright(narration, number)  noted where it is said of a plate's charge that it went in
    is_told_outright(narration, number)  asked where its value would be doubted by the words around it

"In is 24, out is 14" are two sides of something and no amps, whatever was drawn in the same breath.
"""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.record.base import At

_NAME = "told_outright"
_PROVED = "proved outright"
_ROLE = "role told outright"
_STAGE = "stage told outright"
_MOVED = "moved told outright"


def tell_outright(narration: Narration, start: int) -> None:
    """Note that the number at a token needs no other words to be what it is."""
    narration.found.setdefault(_NAME, set()).add(start)


def is_told_outright(narration: Narration, start: int) -> bool:
    """Tell whether a number was noted so."""
    return start in narration.found.get(_NAME, ())


def tell_proved(narration: Narration, start: int) -> None:
    """Note that the number at a token is what it is, whatever every judge of its words thinks."""
    tell_outright(narration, start)
    narration.found.setdefault(_PROVED, set()).add(start)


def is_proved(narration: Narration, start: int) -> bool:
    """Tell whether a number was noted so."""
    return start in narration.found.get(_PROVED, ())


def tell_role_outright(narration: Narration, start: int) -> None:
    """Note that the words leave no doubt of the role of the number at a token."""
    narration.found.setdefault(_ROLE, set()).add(start)


def is_role_told_outright(narration: Narration, start: int) -> bool:
    """Tell whether the role of a number was noted so."""
    return start in narration.found.get(_ROLE, ())


def tell_moved_outright(narration: Narration, start: int) -> None:
    """Note that the words leave no doubt that the amount at a token moved: "that's what went in"."""
    narration.found.setdefault(_MOVED, set()).add(start)


def is_moved_told_outright(narration: Narration, start: int) -> bool:
    """Tell whether the amount at a token was noted so."""
    return start in narration.found.get(_MOVED, ())


def tell_stage_outright(narration: Narration, at: At) -> None:
    """Note that a heading leaves no doubt of the stage of the value said there."""
    narration.found.setdefault(_STAGE, set()).add((at.segment, at.first_word))


def is_stage_told_outright(narration: Narration, at: At) -> bool:
    """Tell whether the stage of the value said there was noted so."""
    return (at.segment, at.first_word) in narration.found.get(_STAGE, ())


__all__ = [
    "is_moved_told_outright",
    "is_proved",
    "is_role_told_outright",
    "is_stage_told_outright",
    "is_told_outright",
    "tell_moved_outright",
    "tell_outright",
    "tell_proved",
    "tell_role_outright",
    "tell_stage_outright",
]
