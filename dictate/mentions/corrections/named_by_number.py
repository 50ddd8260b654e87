"""A value of before, named by its number alone: "forget the 11.2", "twelve, not eleven"."""

from __future__ import annotations

from dictate.mentions.corrections.alike import alike, reason_once, same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_words
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.values import find_values


class NumbersNamed(TakesOver):
    """Takes back a value whose number is said again, or denied."""

    def by_number(self) -> None:
        """Handle "forget the 11.2, that was startup, it runs at 8.4" and "that 260 was wrong, it's 206"."""
        verbs, odd = correction_words("set", "verbs"), correction_words("recall", "at_odds")
        for v in find_values(self.n):
            if v.state != "value" or self.words[v.start - 1 : v.start] not in (["the"], ["that"], ["my"]):
                continue
            if self.handled(v.start, v.end):
                continue
            before = self.words[max(0, v.start - 4) : v.start - 1]
            taken_off = bool({*verbs, "change", "take", "correct", "fix", "amend"} & set(before))
            nxt = [t for t in self.taken if t.start >= v.end][:1]
            behind = self.words[v.end : min(v.end + 10, nxt[0].start if nxt else len(self.words))]
            for k, w in enumerate(behind):
                if w in STOPS:
                    behind = behind[:k]
                    break
            if not taken_off and not (odd & set(behind) and {"was", "is", "'s", "were"} & set(behind)):
                continue
            if taken_off and {"change", "take"} & set(before) and not {"to", "off", "out"} & set(behind):
                continue
            old = next(
                (
                    t
                    for t in reversed(self.taken)
                    if t.end <= v.start
                    and t.reading.role != "retracted"
                    and abs(t.value.value - v.value) < 1e-9
                    and t.value.state == "value"
                ),
                None,
            )
            if old is None:
                continue
            here = next((t for t in self.taken if t.start <= v.start < t.end), None)
            new = next(
                (
                    t
                    for t in nxt
                    if t.start - v.end <= 16
                    and (t.reading.quantity == old.reading.quantity or not t.said_unit)
                    and (alike(t, old) or not (t.label_here or t.said_unit))
                    and not same_number(t, old)
                ),
                None,
            )
            role = old.reading.role
            if new is None and not taken_off:
                for t in (old, here):
                    if t is not None:
                        reason_once(t, "it was said to be not right, and nothing says what is right")
                continue
            if here is not None:
                here.reading.role = "retracted"
            if new is None:
                old.reading.role = "retracted"
                reason_once(old, "it was said to be not right, and nothing says what is right")
                continue
            old.reading.role = "retracted"
            self.take_over(old, here or old, new)
            new.reading.role = role
            self.repaired.append((old, new))
            self.done.append((v.start - 4, new.start))

    def denials(self) -> None:
        """Handle "looking at my photo the head was twelve, not eleven": eleven was said before."""
        for i, t in enumerate(self.taken):
            before = self.words[max(0, t.start - 3) : t.start]
            if not before or before[-1] not in correction_words("not", "words") or t.reading.role not in {
                "measured", "retracted"
            }:  # fmt: skip
                continue
            near = [
                o
                for o in self.taken[max(0, i - 1) : i] + self.taken[i + 1 : i + 2]
                if o.sentence == t.sentence
                and (o.reading.quantity == t.reading.quantity or not t.said_unit)
                and min(abs(o.start - t.end), abs(t.start - o.end)) <= 9
                and not same_number(o, t)
            ]
            if not near:
                continue
            right = near[0]
            t.reading.role = "retracted"
            old = next(
                (
                    o
                    for o in reversed(self.taken[: max(0, i - 1) if self.taken[i - 1] is right else i])
                    if o is not right
                    and same_number(o, t)
                    and alike(o, right)
                    and o.reading.role == "measured"
                    and o.reading.quantity == right.reading.quantity
                ),
                None,
            )
            if old is not None:
                old.reading.role = "retracted"
                self.take_over(old, old, right)
                self.repaired.append((old, right))
