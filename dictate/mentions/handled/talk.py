"""What the modules of this folder know of one narration: its words, cues and parts, and the doings so far."""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.handled.doing import Handled
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.tense import Scopes, scopes_of
from dictate.mentions.whose.things import Thing, things_of


class Talk:
    """One narration while its doings are read."""

    def __init__(self, narration: Narration) -> None:
        self.w: Words = words_of(narration)
        self.words = self.w.words
        self.scopes: Scopes = scopes_of(self.w)
        self.things = things_of(self.w)
        self.starts = [t.start for t in self.things]
        self.out: list[Handled] = []

    def thing_from(self, i: int) -> Thing | None:
        """Return the part whose name begins at word i."""
        k = bisect_left(self.starts, i)
        return self.things[k] if k < len(self.things) and self.things[k].start == i else None

    def thing_over(self, i: int) -> Thing | None:
        """Return the part to whose name word i belongs."""
        k = bisect_left(self.starts, i + 1) - 1
        return self.things[k] if k >= 0 and self.things[k].end > i else None
