"""Values that the speaker doubts aloud, and slips that he mends at once.

"twenty-four volts at the plug? No, this is a line voltage one."   asked, and denied
"Four reads six hundred. Six hundred? My clip was on the paint."   asked again, and why it was misread
"Run to start ten, ten point one."                                 the same value with its tenth
"head 2.45, 245 I mean"                                            the same digits, the point moved
"""

from __future__ import annotations

from dictate.mentions.corrections.alike import same_number
from dictate.mentions.corrections.cues import Corrections
from dictate.mentions.whose.taken import Taken

_DENIES = frozenset({"no", "nope", "nah", "wrong", "can't"})
_MEANT = (["i", "mean"], ["i", "meant"])


class Asked(Corrections):
    """Takes back what was asked and denied, and what was said anew at once."""

    def _asked(self) -> None:
        ends = self.n.sentences
        for t in self.taken:
            if t.reading.role != "measured" or t.movement or t.sentence + 1 >= len(ends):
                continue
            last = ends[t.sentence][1]
            if last < 1 or "?" not in self.words[last - 1 : last + 1]:
                continue
            a, b = ends[t.sentence + 1]
            denied = self.words[a] in _DENIES and self.words[a + 1 : a + 2] in ([","], ["."])
            misread = any(m.cue and a <= m.start < b for m in self.mistakes)
            if not denied and not misread:
                continue
            t.reading.role = "retracted"
            for other in self.taken:
                if other is not t and 0 < t.start - other.end <= 12 and same_number(other, t):
                    other.reading.role = (
                        "retracted" if other.reading.role == "measured" else other.reading.role
                    )

    def _said_at_once(self) -> None:
        for k in range(len(self.taken) - 1):
            old, new = self.taken[k], self.taken[k + 1]
            if old.reading.role != "measured" or new.reading.role != "measured" or old.movement:
                continue
            if self.words[old.end : new.start] != [","] or old.reading.quantity != new.reading.quantity:
                continue
            if self._moved_point(old, new) or self._with_its_tenth(old, new):
                old.reading.role = "retracted"
                new.reading.review = [r for r in new.reading.review if "nothing was taken back" not in r]
                new.reading.component = new.reading.component or old.reading.component
                new.reading.point = new.reading.point or old.reading.point
                self._link(old, new)

    def _moved_point(self, old: Taken, new: Taken) -> bool:
        """Tell whether the same digits were said with the point elsewhere: "2.45, 245 I mean"."""
        behind = self.words[new.end : new.end + 3]
        behind = behind[1:] if behind[:1] == [","] else behind[:2]
        digits = [f"{t.value.value:g}".replace(".", "").strip("0") for t in (old, new)]
        moved = behind in _MEANT and digits[0] == digits[1] and not same_number(old, new)
        if moved:
            self.back.done.append((new.end, new.end + 3))
        return moved

    def _with_its_tenth(self, old: Taken, new: Taken) -> bool:
        """Tell whether a value is said anew with its tenth: "run to start ten, ten point one"."""
        x, y = old.reading, new.reading
        if x.quantity != "resistance" or x.point is None or x.point != y.point or x.which != y.which:
            return False
        if old.sentence != new.sentence or not old.place_said or old.said_unit:
            return False
        return old.value.value == int(old.value.value) == int(new.value.value) != new.value.value


__all__ = ["Asked"]
