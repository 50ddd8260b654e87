"""The value at which a gauge comes to rest behind what it showed on the way: "suction 12, 15, settles | 14".

A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link
from dictate.mentions.word_lists import word_list

_MARKS = frozenset((".", ",", ";", ":", "-", "...", "…"))
_MOVES = frozenset(("pressure", "temperature", "current", "superheat", "subcooling"))
_FAR = 8  # tokens between what the gauge showed and where it came to rest
_APART = 2.0  # it comes to rest at so much of that, or so many times as much
_DEGREES = 20.0


class ComeToRest(Compared):
    """Tells the bare numbers at which something settles."""

    def _comes_to_rest(self, v: Value) -> Link | None:
        """Read "head 14.2, 13.1, settles | 12.8" as another value of the same gauge."""
        last = self.r.last(before=v.start, within=_FAR)
        if last is None or not v.bare or v.clock or v.range or last.reading.quantity not in _MOVES:
            return None
        between = {w for w in self.words[last.end : v.start] if w not in _MARKS}
        settled = between & word_list("comes_to_rest")
        if not settled or not between - settled <= word_list("comes_to_rest_beside"):
            return None
        before, here = last.reading.value, self._scaled(v, last)
        if before is None:
            return None
        if last.reading.quantity == "temperature":
            near = abs(here - before) <= _DEGREES
        else:
            near = before * here > 0 and 1 / _APART <= here / before <= _APART
        if not near:
            return None
        tell_outright(self.r.narration, v.start)
        return self._like(v, last)


__all__ = ["ComeToRest"]
