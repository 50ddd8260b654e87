"""A value of before, named by its number: "the 13 bar head from before was 11", "swap the 395 for 399"."""

from __future__ import annotations

from dictate.mentions.corrections.correction_words import CUTS, STOPS
from dictate.mentions.corrections.named_again import LONGEST, again_words
from dictate.mentions.corrections.points_back import PointsBack
from dictate.mentions.spoken_numbers import Number


class NumbersAgain(PointsBack):
    """Puts right what is named by the number that was said before."""

    def _by_number(self, x: Number, a: int, b: int) -> tuple[Number, Number] | None:
        definite, recalled = self._definite(x, a), self.recalled(x, a, b)
        ordered = self._ordered(x, a)
        found = self._right(x)
        denied = self.words[a] == "not" and x.start == a + 1
        if found is None or not (definite or recalled or ordered or denied or self._so_behind(x)):
            return None
        y, before = found
        small = 0 <= x.value < 10 and float(x.value).is_integer() and not x.places
        if small and self.unit_end(x) == x.end and not recalled:
            return None  # "the five" may count or name something
        old = self.old(x, a, b)
        if old is None or old.value.state != "value":
            return None
        if not self._put_right(x, y, before, a, b, definite or recalled, ordered):
            return None
        return (x, y) if self.apply(old, x, y) else None

    @staticmethod
    def _was_of(gap: list[str]) -> bool:
        """Tell whether it is said between two numbers what the first one was of: "that was the lights"."""
        return (
            any(
                w in {"that", "which", "it", "but"}
                and gap[k + 1 : k + 2] in (["was"], ["is"], ["'s"])
                and gap[k + 2 : k + 3]
                in (["the"], ["my"], ["on"], ["from"], ["for"], ["off"], ["with"], ["at"])
                for k, w in enumerate(gap)
            )
            or "that's" in gap
        )

    def _of_other(self, x: Number, a: int, b: int) -> bool:
        """Handle "the supply was 55; 52 was the other unit": the number of before, and what it was of."""
        behind = self.words[self.unit_end(x) : self.unit_end(x) + 2]
        if behind[:1] not in (["was"], ["is"], ["were"], ["belongs"]):
            return False
        if not any(x.end <= p <= x.end + 4 for p, _ in (*self.mistakes, *self.why, *self.other)):
            return False
        old = self.old(x, a, b)
        if old is None or old.reading.role != "measured":
            return False
        for y in reversed(self.between(a, x.start)):
            if abs(y.value - x.value) < 1e-9:
                continue
            names = self.names(max(a, y.start - 8), y.start)
            if (
                names
                and any(n.fits(old) for n in names)
                and self.words[y.start - 1] in again_words("copulas")
            ):
                return self.apply(old, x, y)
        return False

    def _definite(self, x: Number, a: int) -> bool:
        """Tell whether "the" or "that" stands in front: "the 230", "that first suction, 68"."""
        named = self.named_tokens()
        for k in range(x.start - 1, max(a, x.start - 7) - 1, -1):
            word = self.words[k]
            if word in again_words("the"):
                return True
            if word == "," and k == x.start - 1 and self.words[k - 1] in again_words("figure"):
                continue
            if word not in again_words("between") and k not in named:
                return False
        return False

    def _ordered(self, x: Number, a: int) -> bool:
        """Tell whether the sentence says what to do with it: "swap 395 for 399", "fix this, ..."."""
        opens = CUTS | again_words("opens")
        return any(
            self.words[k] in again_words("orders")
            and (k == a or self.words[k - 1] in opens)
            and (self.words[k] != "make" or x.start - k <= 4)
            for k in range(max(a, x.start - 14), x.start)
        )

    def _so_behind(self, x: Number) -> bool:
        """Tell whether "is really", "was actually" or the like stands right behind: "38 is really 41"."""
        end = self.unit_end(x)
        return any(end <= p <= end + 1 for p, _ in self.so)

    def _right(self, x: Number) -> tuple[Number, bool] | None:
        """Return the number that may be the right one, and whether it stands in front."""
        for y in self.between(self.unit_end(x), x.end + 25):
            gap = self.words[x.end : y.start]
            if abs(y.value - x.value) < 1e-9 or sum(w in STOPS for w in gap) > 1:
                return None
            if not self.gases.isdisjoint(range(x.end, y.start)):
                return None  # "the bulb forty one. That's four oh four A so, eleven saturated"
            if self.words[y.start - 1] in again_words("counted") or self.counts(y):
                continue
            return y, False
        for y in reversed(self.between(x.start - 6 - LONGEST, x.start)):
            if y.end <= x.start and x.start - y.end <= 6 and abs(y.value - x.value) > 1e-9:
                gap = self.words[y.end : x.start]
                if again_words("not") & set(gap) and not STOPS & set(gap):
                    return y, True
        return None

    def _put_right(
        self, x: Number, y: Number, before: bool, a: int, b: int, pointed: bool, ordered: bool
    ) -> bool:
        if before:
            return pointed
        end = self.unit_end(x)
        gap = self.words[end : y.start]
        behind = self.words[self.unit_end(y) : self.unit_end(y) + 3]
        if again_words("changes") & set(gap) or again_words("now") & {*behind, *gap}:
            return False
        presents = bool(again_words("presents") & set(gap))
        if self._so_behind(x):
            return True
        if any(a <= p < b for p, _ in self.swaps):
            return False
        if ordered:
            return presents or bool({"to", "for", "with", "into", "a"} & set(gap[-2:]))
        if any(end <= p <= end + 2 for p, _ in self.told) and presents and len(gap) <= 12:
            return True  # "seventeen, I said? It's seventy one"
        if self.words[a] == "not" and x.start == a + 1 and set(gap) <= {",", "it", "'s", "it's", "but"}:
            return True  # "Not 76, 74."
        if not pointed or not presents:
            return False
        if set(gap) <= {",", "it", "it's", "'s", "that", "that's", "was"} and self.recalled(x, a, y.end):
            return True  # "I called the low side 68, it's 58"
        if not (CUTS | {"and", "but"}) & set(gap) and gap and gap[-1] in again_words("copulas"):
            return True  # "the 13 bar head from before was 11 bar"
        if self.recalled(x, a, y.end) and self._was_of(gap) and gap[-1] in again_words("copulas"):
            return True  # "I wrote 117 on the order and that was the lights circuit, the fan plug is 119"
        told = any(a <= p < y.end + 12 for p, _ in (*self.mistakes, *self.why, *self.so))
        return told or (bool({"was", "were"} & set(gap[:4])) and bool(again_words("found") & set(gap[-4:])))
