"""What was measured again, named without its number: "cans were actually 62", "the middle one is 14.1"."""

from __future__ import annotations

from dictate.mentions.corrections.correction_words import CUTS
from dictate.mentions.corrections.named_again import LONGEST, Name, again_words
from dictate.mentions.corrections.points_back import PointsBack
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.whose.taken import Taken


class MeasuredAgain(PointsBack):
    """Puts right what is named by what it is of, or by its place in a row."""

    def _by_name(self, y: Number, a: int) -> None:
        if self.counts(y):
            return
        names = self.names(max(a, y.start - 14), y.start)
        if not names:
            return
        topic = self._topic(names, y, a)
        if topic is not None:
            names = [topic]
        gap = self.words[names[-1].end : y.start]
        behind = self.words[self.unit_end(y) : self.unit_end(y) + 3]
        if again_words("changes") & set(gap) or again_words("now") & {*gap, *behind}:
            return
        if any(names[-1].end <= x.end <= y.start for x in self.between(names[-1].end - LONGEST, y.start)):
            return
        if any(self.old(x, a, y.end) is not None for x in self.between(a, y.start)):
            return  # it is named by its number, too
        first = names[0].start
        so = not {"should", "supposed"} & set(gap) and any(
            names[-1].end <= p and y.start - q <= 1 and q <= y.start for p, q in self.so
        )
        so = so or (
            bool({"that", "it", "that's", "it's"} & set(gap))
            and bool({"was", "is", "'s", "that's", "it's", "were"} & set(gap[-2:]))
            and behind[:1] in (["actually"], ["really"])
        )
        called = any(w in {"call", "make"} for w in gap) and bool({"that", "it", "them"} & set(gap[-2:]))
        if called and any(a <= t.start and t.end < y.start and self._just_said(t, y) for t in self.taken):
            return  # "9.8 amps, compressor, make that 9.3" puts right the one before it
        recalled = any(first <= p and q <= y.start for p, q in self.told)
        ordered = any(
            self.words[k] in again_words("orders")
            and (k == a or self.words[k - 1] in CUTS | again_words("opens"))
            and not self._purpose(k, a)
            for k in range(a, first)
        )
        leads = again_words("presents") & set(gap) or (ordered and gap[-1:] == ["to"])
        verbs = {"take", "taking", "do", "redo"} & set(self.words[a:first])
        anew = (
            gap[:1] == ["again"]
            and gap[1:2] in ([","], [":"])
            and bool(
                verbs or {"that's", "that"} & set(gap) or any(y.end <= p <= y.end + 3 for p, _ in self.erred)
            )
        )
        erred = any(a <= p and q <= first + 1 and first - q <= 2 for p, q in self.erred)
        figure = again_words("figure") & set(gap)
        odd = bool(figure and leads and {"wrong", "off", "mistaken", "out"} & set(gap))
        bare = set(gap) <= again_words("figure") | {",", ":"}
        told = topic is not None or ((recalled or ordered) and (leads or (ordered and bare)))
        if not (so or called or anew or odd or (erred and (leads or bare)) or told):
            return
        phrase = unit_phrases(self.n).get(y.end)
        means = dict(unit_words()[phrase.key].means) if phrase is not None else {}
        old = next(
            (
                t
                for t in reversed(self.taken)
                if t.end <= a
                and t.reading.role in {"measured", "rated"}
                and t.value.state == "value"
                and all(n.fits(t) for n in names[-1:])
                and (not means or t.reading.unit in means)
                and t.value.value
                and 0.2 <= y.value / t.value.value <= 5
                and abs(t.value.value - y.value) > 1e-9
            ),
            None,
        )
        if old is None or (so and old.reading.role != "measured"):
            return
        if not means and self._nearer(old, y, a):
            return
        here = next((t for t in self.taken if t.start <= y.start < t.end), None)
        if here is not None and here.label_here and here.reading.quantity != old.reading.quantity:
            return  # "Correction, before I condemn it: suction pipe's seventy-one" is of the pipe
        self.apply(old, None, y)

    def _purpose(self, k: int, a: int) -> bool:
        """Tell whether "to make" says what for: "four ounces more to make my subcooling", and no order."""
        return self.words[k - 1] == "to" and k - 2 >= a and self.words[k - 2] not in again_words("wants_to")

    @staticmethod
    def _just_said(t: Taken, y: Number) -> bool:
        """Tell whether "call it 141" is of this value of its sentence: right in front, or nearly the same."""
        return y.start - 6 <= t.end or 0.9 <= y.value / (t.value.value or 1.0) <= 1.1

    def _nearer(self, old: Taken, y: Number, a: int) -> bool:
        """Tell whether a value of another kind stands right before, and the old one far off.

        As in "probe says 8.5 ... suction 2.6. Correction, that's the rack, the case is 2.8".
        """
        near = next((t for t in reversed(self.taken) if t.end <= a and t.reading.role == "measured"), None)
        if near is None or near is old or a - near.end > 3 or near.start - old.end < 25:
            return False
        like = 0.5 <= y.value / (near.value.value or 1.0) <= 2
        return like and near.reading.quantity != old.reading.quantity

    def _topic(self, names: list[Name], y: Number, a: int) -> Name | None:
        """Return what a sentence opens with: "The return, I had the probe in the wrong duct, it's 76"."""
        for n in names:
            if n.start - a > 2 or self.words[n.end : n.end + 1] != [","]:
                continue
            if self.words[y.start - 1] not in again_words("presents") | {"at"}:
                continue
            if any(n.end <= p and q <= y.start for p, q in self.mistakes):
                return n
        return None

    def _by_place(self, y: Number, a: int, b: int) -> bool:
        """Put "the middle one is really 14.1", "sorry, the last one is 1.9" right: one of a row."""
        places = again_words("places")
        at = next(
            (
                k
                for k in range(y.start - 1, max(a, y.start - 16), -1)
                if self.words[k] in again_words("ones") and self.words[k - 1] in places
            ),
            None,
        )
        if at is None or not (self.words[at - 2] in again_words("the") or at - 1 == a):
            return False
        gap = self.words[at + 1 : y.start]
        behind = self.words[self.unit_end(y) : self.unit_end(y) + 3]
        ordered = gap in ([], [","], [":"]) and self.words[at - 3] in again_words("orders")
        if not (ordered or again_words("presents") & set(gap)) or again_words("changes") & set(gap):
            return False
        if again_words("now") & {*gap, *behind}:
            return False
        told = ordered or any(a <= p < b for p, _ in (*self.why, *self.so, *self.told, *self.mistakes))
        if not told:
            return False
        before = [t for t in self.taken if t.end <= at - 2 and t.reading.role in {"measured", "retracted"}]
        row: list[Taken] = []
        for t in reversed(before):
            if row and (t.reading.quantity != row[0].reading.quantity or t.sentence != row[0].sentence):
                break
            row.insert(0, t)
        if len(row) < 2:
            return False
        word = self.words[at - 1]
        order = {"first": 0, "second": 1, "third": 2, "fourth": 3, "last": -1, "middle": len(row) // 2}
        n = order[word]
        if n >= len(row) or row[n].reading.role != "measured" or row[n].value.value == y.value:
            return False
        if {"they", "he", "she"} & set(gap) or not 0.2 <= y.value / (row[n].value.value or 1.0) <= 5:
            return False  # "about the third leg and they said they'd come out by 4"
        return self.apply(row[n], None, y)
