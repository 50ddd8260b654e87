"""Whose values are that name their part by a word of it only: banks of heaters, a bus, three legs once more.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.running_amps import RunningAmps
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_NEAR, _BUS = 6, 16
"""Words in front of a value within which banks, and a bus, are named."""
_TOLD = 400
"""Words since the heaters were named."""


class BanksAndRows(RunningAmps):
    """Which part a value is of that a word of it tells."""

    def _by_a_word_of_it(self, v: Value, link: Link) -> str | None:
        """Return the part; an empty name for a place that is of no part; None where no such word was said."""
        if link.quantity == "voltage":
            return self._of_a_bus(v)
        return self._of_banks(v, link) or self._of_the_legs_before(v, link)

    def _of_a_bus(self, v: Value) -> str | None:
        """Read "DC bus after five minutes, | 11 volts" as volts of no motor."""
        led = self.words[max(self.first, v.start - _BUS) : v.start]
        at = max(
            (k for k, w in enumerate(led) if w in {"bus", "electrolytic", "electrolytics"}), default=None
        )
        if at is None:
            return None
        begin = v.start - len(led) + at
        return None if any(begin <= c.start < v.start for c in self.components) else ""

    def _of_banks(self, v: Value, link: Link) -> str | None:
        """Read "ohmed the three banks, | 21" as ohms of the heaters that were spoken of."""
        if {"bank", "banks"}.isdisjoint(self.words[max(self.first, v.start - _NEAR) : v.start]):
            return None
        for c in reversed(self.r.components):
            if c.start < v.start and v.start - c.end <= _TOLD and c.name in word_list("places_heaters"):
                return c.name if link.quantity in c.component.measures else None
        return None

    def _of_the_legs_before(self, v: Value, link: Link) -> str | None:
        """Read "Run it again. | 6, 6.1, 6 amps" as the motor whose three legs were read before."""
        if link.quantity != "current" or len(self._group_of(v)) != 3:
            return None
        begin = self.r.narration.sentences[self.number - 1][0] if self.number else self.first
        if any(begin <= c.start < v.start and "current" in c.component.measures for c in self.r.components):
            return None
        row: list[Taken] = []
        for t in reversed(self.r.found.readings):
            if t.reading.quantity != "current" or t.reading.role != "measured" or t.movement:
                continue
            same = row and (t.sentence, t.reading.component) == (row[0].sentence, row[0].reading.component)
            row = [*row, t] if same else [t]
            if len(row) == 3 and row[0].reading.component:
                return row[0].reading.component
        return None
