"""How far an instrument is out, and the value that is right: "the dial reads two high, so it's really 36".

The number that says how far is no value. The one of before is taken back where the right one is said and the
sum bears it out; where none is said, the value read on that instrument gets a reason to look.
"""

from __future__ import annotations

from dictate.mentions.corrections.alike import reason_once, same_number
from dictate.mentions.corrections.correction_words import CUTS, STOPS, correction_words
from dictate.mentions.corrections.cues import SMALL
from dictate.mentions.corrections.made_values import MakesValues
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.whose.taken import DIFFERENCES, Taken

_LARGEST = 15
"""No instrument that is still read from is out by more, in any unit that is spoken of in tens."""


def _word(name: str) -> frozenset[str]:
    return correction_words("offset", name)


class Offsets(MakesValues):
    """Puts right what was read on an instrument that is out."""

    def offsets(self) -> None:
        """Handle "this gauge is off two pounds, so 68 true" and "add half an ohm to each: 18.5, 12.5"."""
        self._ranges()
        said = set(self.words)
        if not said & _word("out") and not said & _word("adds"):
            return
        numbers = [x for x in find_numbers(self.n) if not x.pronoun]
        for i, x in enumerate(numbers):
            if self._out(x):
                self._put_right(x, numbers[i + 1 : i + 2])
            elif (end := self._added(x)) is not None:
                self._added_to_each(x, end)

    def _ranges(self) -> None:
        """Take "my clamp was on the 200 amp range" for a setting of the meter."""
        for t in self.taken:
            behind = self.words[t.end : t.end + 1]
            led = self.words[max(0, t.start - 3) : t.start]
            if behind and behind[0] in _word("ranges") and {"on", "in", "to"} & set(led):
                t.reading.role = "rated"

    def _end(self, x: Number) -> int:
        phrase = unit_phrases(self.n).get(x.end)
        return phrase.end if phrase is not None else x.end

    def _out(self, x: Number) -> bool:
        """Tell whether a number says how far an instrument is out: "my probe reads two high"."""
        if not 0 < abs(x.value) <= _LARGEST:
            return False
        end = self._end(x)
        at = end + (self.words[end : end + 1] == ["too"])
        behind = self.words[at : at + 1]
        front = self.words[max(0, x.start - 2) : x.start]
        after = bool(behind) and behind[0] in _word("out")
        before = bool(front) and (
            front[-1] in _word("off") or (front[-1] == "by" and front[0] in _word("out"))
        )
        if not after and not before:
            return False
        a = x.start
        while a > 0 and self.words[a - 1] not in CUTS and x.start - a < 9:
            a -= 1
        clause = self.words[a : x.start]
        tool = next((k for k, w in enumerate(clause) if w in _word("tools")), None)
        return tool is not None and bool(_word("reads") & set(clause[tool + 1 :]))

    def _put_right(self, x: Number, following: list[Number]) -> None:
        for t in [t for t in self.taken if t.start <= x.start < t.end]:
            self.taken.remove(t)
        before = [t for t in self.taken if t.end <= x.start and t.reading.role == "measured"]
        here = self.back.sentence_at[x.start]
        low = max(self.n.sentences[here][0], x.start - 16)
        again = {y.value for y in find_numbers(self.n) if low <= y.start < x.start and not y.pronoun}
        before = [
            t
            for t in before
            if t.value.state == "value" and (here - t.sentence <= 1 or t.value.value in again)
        ]
        before.sort(key=lambda t: (t.value.value in again, t.start))  # "where I said 42, that sits 4 high"
        if not before:
            return
        if following:
            y, end = following[0], self._end(x)
            gap = [w for w in self.words[end : y.start] if w not in _word("out")]
            if y.start - end <= 12 and set(gap) <= SMALL | _word("leads") and not STOPS & set(gap[1:]):
                for old in reversed(before):
                    if abs(abs(old.value.value - y.value) - abs(x.value)) < 0.051 and self._repair(old, y):
                        return
        own = self.words[max(0, x.start - 9) : x.start]
        if _word("own") & set(own):
            said = self.n.heard(x.start, self._end(x))
            reason_once(before[-1], f"the instrument was said to be out by {said!r}")

    def _repair(self, old: Taken, y: Number) -> bool:
        new = next((t for t in self.taken if t.start <= y.start < t.end), None)
        if new is None:
            new = self._of_number(old, y)
            if new is None:
                return False
            self.taken.append(new)
            self.taken.sort(key=lambda t: t.start)
        elif new is old or (
            new.said_unit and new.reading.quantity not in {old.reading.quantity, *DIFFERENCES}
        ):
            return False
        a, b = old.reading, new.reading
        if (b.quantity, b.unit) != (a.quantity, a.unit):
            b.quantity, b.unit, b.ucum, b.value = a.quantity, a.unit, a.ucum, new.value.value
            b.review = []
        self.back.take_over(old, old, new)
        b.review = [r for r in b.review if "beside it speaks" not in r]
        a.role, b.role = "retracted", "measured"
        self.back.repaired.append((old, new))
        self.back.done.append((max(old.end, new.start - 20), new.end))
        for t in self.taken:  # "where I said 42, that gauge sits 4 high, so call it 38"
            again = t is not old and same_number(t, old) and t.end <= new.start and new.start - t.end <= 20
            if again and t.reading.role == "measured" and t.reading.quantity == a.quantity:
                t.reading.role = "retracted"
        return True

    def _added(self, x: Number) -> int | None:
        """Return where "add half an ohm to each" ends, None where it is none."""
        front = self.words[max(0, x.start - 3) : x.start]
        if not _word("adds") & set(front):
            return None
        end = self._end(x)
        while self.words[end : end + 1] in (["a"], ["an"], ["of"]):
            end += 1
            phrase = unit_phrases(self.n).get(end)
            end = phrase.end if phrase is not None else end
        at = end
        while at < len(self.words) and at - end < 6 and self.words[at] in _word("each"):
            at += 1
        return at if at - end >= 2 else None

    def _added_to_each(self, x: Number, end: int) -> None:
        here = self.back.sentence_at[x.start]
        for t in [t for t in self.taken if t.start <= x.start < t.end and not t.label_here]:
            self.taken.remove(t)
        before = [
            t
            for t in self.taken
            if t.end <= x.start and t.reading.role == "measured" and t.value.state == "value"
        ]
        before = [t for t in before if here - t.sentence <= 3]
        after = [t for t in self.taken if t.start >= end and t.start - end <= 40]
        pairs: list[tuple[Taken, Taken]] = []
        for new in after:
            rest = [t for t in before if all(t is not o for o, _ in pairs)]
            old = next(
                (t for t in rest if abs(abs(t.value.value - new.value.value) - abs(x.value)) < 0.051), None
            )
            if old is not None and (new.reading.quantity == old.reading.quantity or not new.said_unit):
                pairs.append((old, new))
        for old, new in pairs:
            a, b = old.reading, new.reading
            if (b.quantity, b.unit) != (a.quantity, a.unit):
                b.quantity, b.unit, b.ucum, b.value = a.quantity, a.unit, a.ucum, new.value.value
            self.back.take_over(old, old, new)
            a.role, b.role = "retracted", "measured"
            self.back.repaired.append((old, new))
            self.back.done.append((x.start, new.end))
        if not pairs and before:
            last = before[-1].reading.quantity
            for t in reversed(before):
                if t.reading.quantity != last:
                    break
                reason_once(t, "something was said to be added to it or taken from it")


__all__ = ["Offsets"]
