"""One doing: who did what to which part."""

from __future__ import annotations

from dataclasses import dataclass

from dictate.mentions.handled.vocabulary import part_words
from dictate.mentions.tense import Status
from dictate.mentions.whose.things import Thing


@dataclass(slots=True)
class Handled:
    """One doing: the action, what became of it, the parts, and the words [start, end) that say so."""

    action: str
    status: Status
    things: list[Thing]
    start: int
    end: int
    verb: int | None
    new: bool = False
    unknown: str | None = None
    """The thing's own words where it is in no vocabulary."""
    pronoun: bool = False
    why: str | None = None
    """A reason to look at it."""


def handled_parts(things: list[Thing]) -> list[Thing]:
    """Return the things that can be a handled part: all but what is only opened or moved on the way."""
    return [t for t in things if t.name not in part_words("no_part") or t.name in part_words("switchgear")]
