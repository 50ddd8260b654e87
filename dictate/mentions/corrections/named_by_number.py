"""A value of before, named by its number alone: "forget the 11.2", "twelve, not eleven"."""

from __future__ import annotations

from dictate.mentions.corrections.alike import alike, reason_once, same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_words
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.values import Value, find_values
from dictate.mentions.whose.taken import Taken


class NumbersNamed(TakesOver):
    """Takes back a value whose number is said again, or denied."""

    def by_number(self) -> None:
        """Handle "forget the 11.2, that was startup, it runs at 8.4" and "that 260 was wrong, it's 206"."""
        verbs, odd = correction_words("set", "verbs"), correction_words("recall", "at_odds")
        for v in find_values(self.n):
            if v.state != "value":
                continue
            if self._not_to_be_written(v.start):
                self._strike(v)
                continue
            if self.words[v.start - 1 : v.start] not in (["the"], ["that"], ["my"]):
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
            if "take" in before and v.word in {"hour", "minute"}:
                continue  # "take the half hour out for lunch" is of the working time
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
                    # "take the half hour out for lunch" speaks of no vacuum of a half
                    and (v.quantity is None or t.reading.unit in [unit for unit, _ in v.quantity.means])
                ),
                None,
            )
            if old is None:
                self._still_struck(v.start, v.value)
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
                if here is not None and not here.said_unit:
                    self._same_as(here, old)
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

    def no_good(self) -> None:
        """Handle "the 4.1 and the 5.7 are garbage"."""
        for v in find_values(self.n):
            led = self.words[v.start - 1 : v.start] in (["the"], ["that"], ["my"])
            if led and v.state == "value" and not self.handled(v.start, v.end):
                self._together(v)

    def _together(self, first: Value) -> None:
        """Strike what is said to be no good by its numbers: "the 4.1 and the 5.7 are garbage".

        Each is a number said before; what stands in their place was said already or follows on its own.
        """
        named, at = [first], first.end
        starts = {v.start: v for v in find_values(self.n) if v.state == "value"}
        while self.words[at : at + 1] in ([","], ["and"]) and len(named) < 4:
            at += 1 + (self.words[at : at + 2] == [",", "and"])
            at += self.words[at : at + 1] in (["the"], ["that"], ["my"])
            if at not in starts:
                return
            named.append(starts[at])
            at = starts[at].end
        at += self.words[at : at + 1] in (["both"], ["all"])
        if self.words[at : at + 1] not in (["are"], ["were"], ["'re"], ["is"], ["was"], ["'s"]):
            return
        at += 1
        while self.words[at : at + 1] and self.words[at] in correction_words("disowned", "stressed"):
            at += 1
        bad = correction_words("disowned", "bad" if len(named) > 1 else "no_good")
        behind = self.words[at + 1 : at + 2]
        if self.words[at] not in bad or (behind and behind[0] in correction_words("disowned", "about")):
            return
        before = [[t for t in self.taken if t.end <= v.start and self._is(t, v)] for v in named]
        if not all(before):
            return
        for v, olds in zip(named, before, strict=True):
            here = next((t for t in self.taken if t.start <= v.start < t.end), None)
            olds[-1].reading.role = "retracted"
            if here is not None and not here.said_unit:
                self._same_as(here, olds[-1])
        self.done.append((first.start, at + 1))

    @staticmethod
    def _is(t: Taken, v: Value) -> bool:
        """Tell whether a value was said with this number."""
        return t.value.state == "value" and abs(t.value.value - v.value) < 1e-9

    def _not_to_be_written(self, at: int) -> bool:
        """Tell whether a number stands behind "don't write", "don't put down"."""
        k = at - 1
        while k > 0 and self.words[k] in {"down", "in", "it", "as", "that", "the", "at"} and at - k < 4:
            k -= 1
        keeps = correction_words("disowned", "keeps") - {"keep", "believe", "trust", "count"}
        return self.words[k] in keeps and self.words[k - 1] in {"don't", "dont", "not", "never"}

    def _strike(self, v: Value) -> None:
        """Take back every value just said with the number of "don't write 3.4"."""
        for t in self.taken:
            near = t.start <= v.start < t.end or 0 <= v.start - t.end <= 40
            if near and t.reading.role == "measured" and abs(t.value.value - v.value) < 1e-9:
                t.reading.role = "retracted"
                self.done.append((v.start - 3, v.end))

    def _still_struck(self, at: int, value: float) -> None:
        """Keep a number struck that is spoken of again: "the two thirty was the other box"."""
        here = next((t for t in self.taken if t.start <= at < t.end), None)
        if here is None or here.said_unit:
            return
        for t in self.taken:
            struck = t.reading.role == "retracted" and abs(t.value.value - value) < 1e-9
            if struck and 0 <= at - t.end <= 30:
                self._same_as(here, t)

    def _same_as(self, here: Taken, old: Taken) -> None:
        """Take a number that is only spoken of again for what it was, and not for a value of its own."""
        a, b = old.reading, here.reading
        b.role = "retracted"
        b.quantity, b.unit, b.ucum, b.value = a.quantity, a.unit, a.ucum, a.value
        b.component, b.point = a.component, a.point
        b.review = [r for r in b.review if "outside of" not in r and "unusual" not in r]

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
