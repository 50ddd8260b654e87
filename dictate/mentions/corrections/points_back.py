"""Values of before that are named again: what a number points back at, and what is done with it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable

from dictate.mentions.corrections.alike import reason_once
from dictate.mentions.corrections.back import Back
from dictate.mentions.corrections.correction_words import CUTS, STOPS, correction_phrases
from dictate.mentions.corrections.mistakes import find_mistakes
from dictate.mentions.corrections.named_again import (
    Name,
    again_phrases,
    again_words,
    of_a_plate,
    of_component,
    of_label,
    of_point,
    of_quantity,
    within,
)
from dictate.mentions.corrections.swaps import Swaps
from dictate.mentions.labels import find_components, find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.whose.taken import Taken

Make = Callable[[Taken, Number], "Taken | None"]
"""Makes a value out of a number that nothing else took for one, after the value that it puts right."""


class PointsBack:
    """Tells what a number points back at, and puts it right; `back` holds the values in order."""

    def __init__(self, narration: Narration, back: Back, make: Make) -> None:
        self.n = narration
        self.words = narration.lowers
        self.back = back
        self.taken = back.taken
        self.make = make
        self.gases = {
            r.start for r in find_refrigerants(narration)
        }  # "that's four oh four A" puts nothing right
        self.numbers = [
            x
            for x in find_numbers(narration)
            if not x.pronoun
            and x.start not in self.gases
            and self.words[x.start] not in again_words("ordinals")
        ]
        self.starts = [x.start for x in self.numbers]
        self.by_value: dict[float, list[Taken]] = {}
        self.indexed = -1
        self.told = [(p.start, p.end) for p in again_phrases("told").find(narration)]
        self.told_starts = [start for start, _ in self.told]
        self.both = [p.start for p in correction_phrases("both", "phrases").find(narration)]
        self.erred = [(p.start, p.end) for p in again_phrases("erred").find(narration)]
        self.so = [(p.start, p.end) for p in again_phrases("so").find(narration)]
        self.other = [(p.start, p.end) for p in again_phrases("other").find(narration)]
        self.why = [(p.start, p.end) for p in again_phrases("why").find(narration)]
        self.swaps = list(Swaps(narration))
        self.mistakes = [(m.start, m.end) for m in find_mistakes(narration)]

    def between(self, a: int, b: int) -> list[Number]:
        """Return the numbers that begin in the tokens [a, b)."""
        return self.numbers[bisect_left(self.starts, a) : bisect_left(self.starts, b)]

    def named_tokens(self) -> frozenset[int]:
        """Return the tokens with which a thing, a quantity or a place is named."""
        done: frozenset[int] | None = self.n.found.get("named_tokens")
        if done is None:
            spans = [(x.start, x.end) for x in find_labels(self.n)]
            spans += [(x.start, x.end) for x in find_components(self.n)]
            spans += [(x.start, x.end) for x in find_points(self.n)]
            done = frozenset(k for start, end in spans for k in range(start, end))
            self.n.found["named_tokens"] = done
        return done

    def recalled(self, x: Number, a: int, b: int) -> bool:
        """Tell whether it is spoken of as said: "I said two inches", "two inches I said"."""
        end = self.unit_end(x)
        near = slice(
            bisect_left(self.told_starts, min(a, end)), bisect_left(self.told_starts, min(b, end + 4))
        )
        for p, q in self.told[near]:
            if self.words[p - 1 : p] in (["like"], ["as"]) or self._both_kept(p):
                continue  # "it was 8.8 like I said", "I said 52, the left was 49, keep both"
            if end <= p <= end + 3 and p < b and not STOPS & set(self.words[end:p]):
                return True
            if not (a <= p and q <= x.start <= q + 4):
                continue
            gap = {self.words[k] for k in range(q, x.start) if k not in self.named_tokens()}
            if not STOPS & gap:
                return gap <= again_words("between") | again_words("the") | {","}
        return False

    def _both_kept(self, i: int) -> bool:
        """Tell whether both values are said to hold behind the token i."""
        return any(i < p <= i + 28 for p in self.both)

    def unit_end(self, x: Number) -> int:
        """Return where a number ends with its unit."""
        phrase = unit_phrases(self.n).get(x.end)
        return phrase.end if phrase is not None else x.end

    def counts(self, y: Number) -> bool:
        """Tell whether a number tells how long or how many, and no value of the kind."""
        phrase = unit_phrases(self.n).get(y.end)
        if phrase is None:
            return False
        return unit_words()[phrase.key].id in {"minute", "hour", "second", "day"}

    def old(self, x: Number, a: int, b: int) -> Taken | None:
        """Return the value of before that a number points back at."""
        phrase = unit_phrases(self.n).get(x.end)
        means = dict(unit_words()[phrase.key].means) if phrase is not None else {}
        found = [
            t
            for t in self.taken_as(x.value)
            if t.end <= a
            and t.reading.role != "retracted"
            and t.value.state == "value"
            and (not means or t.reading.unit in means or not t.said_unit or t.value.word == phrase.key)  # type: ignore[union-attr]
        ]
        here = next((t for t in self.taken_as(x.value) if t.start <= x.start < t.end), None)
        if here is not None and (here.said_unit or here.label_here):
            alike = [t for t in found if t.reading.quantity == here.reading.quantity]
            # "I called the low side 68": a bare number may have been taken for something else of that place
            found = alike if here.said_unit or alike or not self.recalled(x, a, b) else found
        if not found:
            return None
        names = [n for n in self.names(max(a, x.start - 8), min(b, x.end + 6)) if n.start < x.start + 6]
        named = [t for t in found if any(n.fits(t) for n in names)]
        return (named or found)[-1]

    def taken_as(self, value: float) -> list[Taken]:
        """Return what was taken with this number, in order."""
        if len(self.taken) != self.indexed:
            self.indexed = len(self.taken)
            self.by_value = {}
            for t in self.taken:
                self.by_value.setdefault(round(t.value.value, 9), []).append(t)
        return self.by_value.get(round(value, 9), [])

    def names(self, a: int, b: int) -> list[Name]:
        """Return what is named at the tokens [a, b), in order."""
        out: list[Name] = []
        for x in within(find_labels(self.n), a, b):
            if x.end <= b:
                label = x.label
                if label.point or label.mode or label.rated:
                    fits = of_label(label)
                    out.append(Name(x.start, x.end, fits))
                elif label.quantity and not label.weak:
                    out.append(Name(x.start, x.end, of_quantity(label.quantity)))
        for k in range(a, b):
            if self.words[k] in again_words("plate"):
                out.append(Name(k, k + 1, of_a_plate))
        for c in within(find_components(self.n), a, b):
            if c.end <= b:
                out.append(Name(c.start, c.end, of_component(c.name, c.which)))
        for p in within(find_points(self.n), a, b):
            if p.end <= b:
                out.append(Name(p.start, p.end, of_point(p.name)))
        out.sort(key=lambda n: (n.start, n.end))
        return out

    def apply(self, old: Taken, x: Number | None, y: Number) -> bool:
        """Take a value of before back for what was said at `y`; `x` is its number said again, if it was."""
        new = next((t for t in self.taken if t.start <= y.start < t.end), None)
        if new is None:
            new = self.make(old, y)
            if new is None:
                return False
            self.taken.append(new)
            self.taken.sort(key=lambda t: t.start)
        elif new.reading.quantity != old.reading.quantity and (
            new.said_unit or (new.label_here and self.labelled(old, y))
        ):
            return False
        if new is old or new.reading.role == "earlier":
            return False
        role = old.reading.role
        here = None
        if x is not None:
            here = next((t for t in self.taken if t.start <= x.start < t.end and t is not new), None)
        for t in self.taken:  # the same value, said twice over
            twice = t is not old and t is not here and t.end <= old.start and old.start - t.end < 40
            same = t.reading.unit == old.reading.unit and t.reading.value == old.reading.value
            if twice and same and x is not None and t.reading.role == "measured":
                if old.sentence - t.sentence <= 1 and "so" in self.words[t.end : old.start]:
                    t.reading.role = "retracted"  # "it reads 21, so the secondary is at 21"
                reason_once(t, "the same number was put right later, and it may be this one that was meant")
        self.back.take_over(old, old, new)
        new.reading.review = [r for r in new.reading.review if "outside of" not in r and "unusual" not in r]
        new.reading.role = role
        old.reading.role = "retracted"
        if here is not None:
            a, h = old.reading, here.reading
            if not here.said_unit and (h.quantity, h.unit) != (a.quantity, a.unit):
                h.quantity, h.unit, h.ucum, h.value = a.quantity, a.unit, a.ucum, a.value
            h.role = "retracted"
        self.back.repaired.append((old, new))
        self.back.done.append(((x or y).start - 10, max(y.end, (x or y).end)))
        return True

    def labelled(self, old: Taken, y: Number) -> bool:
        """Tell whether something else than the old value was of is named in the clause of the new one."""
        a = y.start
        while a > 0 and self.words[a - 1] not in CUTS:
            a -= 1
        return any(not n.fits(old) for n in self.names(a, y.start))
