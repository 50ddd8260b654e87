"""Differences that were reckoned with a value that was taken back."""

from __future__ import annotations

from dictate.mentions.corrections.alike import reason_once
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.whose.taken import DIFFERENCES


class Differences(TakesOver):
    """Takes back, or doubts, what rests on a value that was taken back."""

    def differences(self) -> None:
        """Take back, or doubt, a difference that was reckoned with a value that was taken back."""
        for old, new in self.repaired:
            if old.reading.value is None or new.reading.value is None or new.start - old.end < 12:
                continue
            place = next((k for k, t in enumerate(self.taken) if t is old), -1)
            if place < 0:
                continue
            for t in self.taken[place + 1 : place + 6]:
                d = t.reading
                if t.start >= new.start or d.role != "measured" or d.value is None:
                    continue
                others = [
                    o.reading.value
                    for o in self.taken[max(0, place - 3) : place + 4]
                    if o is not old
                    and o is not t
                    and o.reading.quantity == old.reading.quantity
                    and o.reading.value is not None
                ]
                level = d.quantity == old.reading.quantity == "temperature" and t.sentence == old.sentence
                if level:  # "54 in, 44 out, ten degrees": the difference follows the two
                    others = [o for o in others if o != d.value]
                    level = place + 2 <= self.taken.index(t) <= place + 3 and d.value < 40
                if d.quantity not in DIFFERENCES and not d.derived and not level:
                    continue
                if not any(abs(abs(old.reading.value - o) - abs(d.value)) < 0.06 for o in others):
                    continue
                anew = any(
                    n.start > new.start
                    and n.start - new.end < 20
                    and n.reading.value is not None
                    and any(abs(abs(new.reading.value - o) - abs(n.reading.value)) < 0.06 for o in others)
                    for n in self.taken
                )
                if anew:
                    d.role = "retracted"
                else:
                    reason_once(t, "it was reckoned with a value that was taken back")
