"""Bare speeds of a fan or a motor, told by the verb in front of them: "blower's turning | ten sixty".

A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link
from dictate.mentions.word_lists import word_list

_FAR = 80  # words within which a speed or a wheel was told
_LEAST, _MOST = 200, 4000  # revolutions a minute of fans, blowers and motors of induction


class SpeedsTold(Compared):
    """Tells the bare numbers that a wheel turns at."""

    def _turning_at(self, v: Value) -> Link | None:
        """Read "it's turning | 840" as revolutions a minute where a wheel or a speed is under talk."""
        if not v.bare or v.clock or v.range or v.marking or not _LEAST <= v.value <= _MOST:
            return None
        lead = self.words[max(self.first, v.start - 4) : v.start]
        if self._headed(v, lead):
            return self._assume(v, "speed", None, "row")
        while lead and lead[-1] in {
            "at",
            "about",
            "around",
            "only",
            "just",
            "now",
            "like",
            "roughly",
            "exactly",
        }:
            lead.pop()
        if not lead or lead[-1] not in word_list("speeds_told_verbs"):
            return None
        last = self.r.last("speed", before=v.start, within=_FAR)
        wheels = word_list("speeds_told_wheels")
        if last is None and wheels.isdisjoint(self.words[max(0, v.start - 12) : v.start]):
            return None
        return self._assume(v, "speed", None, "row")

    def _headed(self, v: Value, lead: list[str]) -> bool:
        """Tell whether the unit stands in front: "RPM | 1450 low, | 2200 high"."""
        heads = word_list("speeds_told_heads")
        if lead and (
            lead[-1] in heads or (lead[-1] in {"'s", "is", "at"} and lead[-2:-1] and lead[-2] in heads)
        ):
            return True
        last = self.r.last(before=v.start, within=4)
        return (
            last is not None
            and last.reading.quantity == "speed"
            and not heads.isdisjoint(self.words[max(0, last.start - 2) : last.start])
            and self.words[v.start - 1] == ","
        )


__all__ = ["SpeedsTold"]
