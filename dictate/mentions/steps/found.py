"""One step as it was found, before what is said twice is joined."""

from __future__ import annotations

from dataclasses import dataclass, replace

from dictate.mentions.tense import Status
from dictate.vocabulary.load import word_set

# Steps that are counted once for each part they are done to.
BY_PART = frozenset({"part_replaced", "cleaned", "adjusted"})
TAKES_BACK = word_set("takes_a_step_back")


@dataclass(frozen=True, slots=True)
class Found:
    """A step, what became of it, and the words [start, end) that say so."""

    code: str
    status: Status
    start: int
    end: int
    component: str | None
    again: bool = False
    why: str | None = None

    def asked(self, why: str) -> Found:
        """Return the same step with a reason to look at it."""
        return replace(self, why=why)
