"""Values that a later sentence names again in order to put them right.

    "the 13 bar head from before was 11 bar"         the number again, and what it was
    "that 230 I read at the start, it's 238"         ... with a verb of saying behind it
    "minus thirty eight is really minus forty one"   ... with a word that says what is so
    "swap the three nine five for three nine nine"   ... with what is to be done with it
    "cans were actually 62"                          what was measured again, without the number
    "scratch the locked rotor I read you, that's 77"

A number that stands with "the" or "that", or with "I said", and that was said before of something, points
back at it. What counts is whether the words say that it was wrong: "the 68 is 74 now" is a change, and "the
119 at the plug sags to 111" is another moment, and neither takes anything back.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from operator import attrgetter
from typing import TypeVar

from dictate.mentions.corrections.alike import reason_once
from dictate.mentions.corrections.back import Back
from dictate.mentions.corrections.mistakes import find_mistakes
from dictate.mentions.corrections.swaps import Swaps
from dictate.mentions.labels import (
    ComponentAt,
    LabelAt,
    PointAt,
    find_components,
    find_labels,
    find_points,
)
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.taken import Taken
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.vocabulary.load import table

_STOPS = frozenset({".", "?", "!"})
_CUTS = _STOPS | {",", ";", ":"}
_LONGEST = 12
"""No number has more tokens: how far back one may begin that ends at a place."""

Make = Callable[[Taken, Number], "Taken | None"]
"""Makes a value out of a number that nothing else took for one, after the value that it puts right."""


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("corrections")["again"][name])


@cache
def _phrases(name: str) -> Phrases:
    return Phrases({name: table("corrections")["again"][name]})


_Placed = TypeVar("_Placed", LabelAt, ComponentAt, PointAt)


def _within(found: list[_Placed], a: int, b: int) -> list[_Placed]:
    """Return what begins in the tokens [a, b), of a list in the order of the words."""
    start = attrgetter("start")
    return found[bisect_left(found, a, key=start) : bisect_left(found, b, key=start)]


@dataclass(slots=True)
class _Name:
    """Something named at the tokens [start, end): what a value of it looks like."""

    start: int
    end: int
    fits: Callable[[Taken], bool]


class Restated:
    """Takes back what is named again and put right; `back` holds the values of the visit in order."""

    def __init__(self, narration: Narration, back: Back, make: Make) -> None:
        self.n = narration
        self.words = narration.lowers
        self.back = back
        self.taken = back.taken
        self.make = make
        self.numbers = [
            x
            for x in find_numbers(narration)
            if not x.pronoun and self.words[x.start] not in _words("ordinals")
        ]
        self.starts = [x.start for x in self.numbers]
        self.by_value: dict[float, list[Taken]] = {}
        self.indexed = -1
        self.told = [(p.start, p.end) for p in _phrases("told").find(narration)]
        self.erred = [(p.start, p.end) for p in _phrases("erred").find(narration)]
        self.so = [(p.start, p.end) for p in _phrases("so").find(narration)]
        self.other = [(p.start, p.end) for p in _phrases("other").find(narration)]
        self.why = [(p.start, p.end) for p in _phrases("why").find(narration)]
        self.swaps = list(Swaps(narration))
        self.mistakes = [(m.start, m.end) for m in find_mistakes(narration)]

    def run(self) -> None:
        """Take back, sentence by sentence."""
        for i, (a, b) in enumerate(self.n.sentences):
            here = self._between(a, b)
            if not here or not self._telling(a, b, i):
                continue
            done: set[int] = set()
            for x in here:
                if x.start in done:
                    continue
                pair = self._by_number(x, a, b)
                if pair is None and self._of_other(x, a, b):
                    break
                if pair is not None:
                    done.update(p.start for p in pair)
            for y in here:
                if y.start not in done and not self._by_place(y, a, b):
                    self._by_name(y, a)

    def _between(self, a: int, b: int) -> list[Number]:
        """Return the numbers that begin in the tokens [a, b)."""
        return self.numbers[bisect_left(self.starts, a) : bisect_left(self.starts, b)]

    def _telling(self, a: int, b: int, i: int) -> bool:
        """Tell whether a sentence holds any word that points back or puts right: most hold none."""
        if i == 0:
            return False
        said = set(self.words[a:b])
        return bool(said & _words("hints"))

    # -- the number again

    def _by_number(self, x: Number, a: int, b: int) -> tuple[Number, Number] | None:
        definite, recalled = self._definite(x, a), self._recalled(x, a, b)
        ordered = self._ordered(x, a)
        found = self._right(x)
        denied = self.words[a] == "not" and x.start == a + 1
        if found is None or not (definite or recalled or ordered or denied or self._so_behind(x)):
            return None
        y, before = found
        small = 0 <= x.value < 10 and float(x.value).is_integer() and not x.places
        if small and self._unit_end(x) == x.end and not recalled:
            return None  # "the five" may count or name something
        old = self._old(x, a, b)
        if old is None or old.value.state != "value":
            return None
        if not self._put_right(x, y, before, a, b, definite or recalled, ordered):
            return None
        return (x, y) if self._apply(old, x, y) else None

    def _of_other(self, x: Number, a: int, b: int) -> bool:
        """Handle "the supply was 55; 52 was the other unit": the number of before, and what it was of."""
        behind = self.words[self._unit_end(x) : self._unit_end(x) + 2]
        odd = any(x.end <= p <= x.end + 4 for p, _ in (*self.mistakes, *self.why, *self.other))
        if behind[:1] not in (["was"], ["is"], ["were"], ["belongs"]) or not odd:
            return False
        old = self._old(x, a, b)
        if old is None or old.reading.role != "measured":
            return False
        for y in reversed(self._between(a, x.start)):
            if abs(y.value - x.value) < 1e-9:
                continue
            names = self._names(max(a, y.start - 8), y.start)
            if names and any(n.fits(old) for n in names) and self.words[y.start - 1] in _words("copulas"):
                return self._apply(old, x, y)
        return False

    def _definite(self, x: Number, a: int) -> bool:
        """Tell whether "the" or "that" stands in front: "the 230", "that first suction, 68"."""
        named = self._named_tokens()
        for k in range(x.start - 1, max(a, x.start - 7) - 1, -1):
            word = self.words[k]
            if word in _words("the"):
                return True
            if word == "," and k == x.start - 1 and self.words[k - 1] in _words("figure"):
                continue
            if word not in _words("between") and k not in named:
                return False
        return False

    def _named_tokens(self) -> frozenset[int]:
        done: frozenset[int] | None = self.n.found.get("named_tokens")
        if done is None:
            spans = [(x.start, x.end) for x in find_labels(self.n)]
            spans += [(x.start, x.end) for x in find_components(self.n)]
            spans += [(x.start, x.end) for x in find_points(self.n)]
            done = frozenset(k for start, end in spans for k in range(start, end))
            self.n.found["named_tokens"] = done
        return done

    def _recalled(self, x: Number, a: int, b: int) -> bool:
        """Tell whether it is spoken of as said: "I said two inches", "two inches I said"."""
        end = self._unit_end(x)
        for p, q in self.told:
            if end <= p <= end + 3 and p < b and not _STOPS & set(self.words[end:p]):
                return True
            if not (a <= p and q <= x.start <= q + 4):
                continue
            gap = {self.words[k] for k in range(q, x.start) if k not in self._named_tokens()}
            if not _STOPS & gap:
                return gap <= _words("between") | _words("the") | {","}
        return False

    def _ordered(self, x: Number, a: int) -> bool:
        """Tell whether the sentence says what to do with it: "swap 395 for 399", "fix this, ..."."""
        for k in range(max(a, x.start - 14), x.start):
            opens = k == a or self.words[k - 1] in _CUTS | _words("opens")
            near = self.words[k] != "make" or x.start - k <= 4
            if opens and near and self.words[k] in _words("orders"):
                return True
        return False

    def _so_behind(self, x: Number) -> bool:
        """Tell whether "is really", "was actually" or the like stands right behind: "38 is really 41"."""
        end = self._unit_end(x)
        return any(end <= p <= end + 1 for p, _ in self.so)

    def _unit_end(self, x: Number) -> int:
        phrase = unit_phrases(self.n).get(x.end)
        return phrase.end if phrase is not None else x.end

    def _right(self, x: Number) -> tuple[Number, bool] | None:
        """Return the number that may be the right one, and whether it stands in front."""
        for y in self._between(self._unit_end(x), x.end + 25):
            gap = self.words[x.end : y.start]
            if abs(y.value - x.value) < 1e-9 or sum(w in _STOPS for w in gap) > 1:
                return None
            if self.words[y.start - 1] in _words("counted") or self._counts(y):
                continue
            return y, False
        for y in reversed(self._between(x.start - 6 - _LONGEST, x.start)):
            if y.end <= x.start and x.start - y.end <= 6 and abs(y.value - x.value) > 1e-9:
                gap = self.words[y.end : x.start]
                if _words("not") & set(gap) and not _STOPS & set(gap):
                    return y, True
        return None

    def _counts(self, y: Number) -> bool:
        """Tell whether a number tells how long or how many, and no value of the kind."""
        phrase = unit_phrases(self.n).get(y.end)
        if phrase is None:
            return False
        return unit_words()[phrase.key].id in {"minute", "hour", "second", "day"}

    def _put_right(
        self, x: Number, y: Number, before: bool, a: int, b: int, pointed: bool, ordered: bool
    ) -> bool:
        if before:
            return pointed
        end = self._unit_end(x)
        gap = self.words[end : y.start]
        behind = self.words[self._unit_end(y) : self._unit_end(y) + 3]
        if _words("changes") & set(gap) or _words("now") & {*behind, *gap}:
            return False
        presents = bool(_words("presents") & set(gap))
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
        if set(gap) <= {",", "it", "it's", "'s", "that", "that's", "was"} and self._recalled(x, a, y.end):
            return True  # "I called the low side 68, it's 58"
        if not (_CUTS | {"and", "but"}) & set(gap) and gap and gap[-1] in _words("copulas"):
            return True  # "the 13 bar head from before was 11 bar"
        told = any(a <= p < y.end + 12 for p, _ in (*self.mistakes, *self.why, *self.so))
        return told or (bool({"was", "were"} & set(gap[:4])) and bool(_words("found") & set(gap[-4:])))

    def _old(self, x: Number, a: int, b: int) -> Taken | None:
        """Return the value of before that a number points back at."""
        phrase = unit_phrases(self.n).get(x.end)
        means = dict(unit_words()[phrase.key].means) if phrase is not None else {}
        found = [
            t
            for t in self._taken_as(x.value)
            if t.end <= a
            and t.reading.role != "retracted"
            and t.value.state == "value"
            and (not means or t.reading.unit in means or not t.said_unit or t.value.word == phrase.key)  # type: ignore[union-attr]
        ]
        here = next((t for t in self._taken_as(x.value) if t.start <= x.start < t.end), None)
        if here is not None and (here.said_unit or here.label_here):
            alike = [t for t in found if t.reading.quantity == here.reading.quantity]
            # "I called the low side 68": a bare number may have been taken for something else of that place
            found = alike if here.said_unit or alike or not self._recalled(x, a, b) else found
        if not found:
            return None
        names = [n for n in self._names(max(a, x.start - 8), min(b, x.end + 6)) if n.start < x.start + 6]
        named = [t for t in found if any(n.fits(t) for n in names)]
        return (named or found)[-1]

    def _taken_as(self, value: float) -> list[Taken]:
        """Return what was taken with this number, in order."""
        if len(self.taken) != self.indexed:
            self.indexed = len(self.taken)
            self.by_value = {}
            for t in self.taken:
                self.by_value.setdefault(round(t.value.value, 9), []).append(t)
        return self.by_value.get(round(value, 9), [])

    # -- what was measured again

    def _by_name(self, y: Number, a: int) -> None:
        if self._counts(y):
            return
        names = self._names(max(a, y.start - 14), y.start)
        if not names:
            return
        topic = self._topic(names, y, a)
        if topic is not None:
            names = [topic]
        gap = self.words[names[-1].end : y.start]
        behind = self.words[self._unit_end(y) : self._unit_end(y) + 3]
        if _words("changes") & set(gap) or _words("now") & {*gap, *behind}:
            return
        if any(names[-1].end <= x.end <= y.start for x in self._between(names[-1].end - _LONGEST, y.start)):
            return
        if any(self._old(x, a, y.end) is not None for x in self._between(a, y.start)):
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
        if called and any(a <= t.start and y.start - 6 <= t.end < y.start for t in self.taken):
            return  # "9.8 amps, compressor, make that 9.3" puts right the one before it
        recalled = any(first <= p and q <= y.start for p, q in self.told)
        ordered = any(
            self.words[k] in _words("orders") and (k == a or self.words[k - 1] in _CUTS | _words("opens"))
            for k in range(a, first)
        )
        leads = _words("presents") & set(gap) or (ordered and gap[-1:] == ["to"])
        verbs = {"take", "taking", "do", "redo"} & set(self.words[a:first])
        anew = (
            gap[:1] == ["again"]
            and gap[1:2] in ([","], [":"])
            and bool(verbs or {"that's", "that"} & set(gap))
        )
        erred = any(a <= p and q <= first + 1 and first - q <= 2 for p, q in self.erred)
        figure = _words("figure") & set(gap)
        odd = bool(figure and leads and {"wrong", "off", "mistaken", "out"} & set(gap))
        bare = set(gap) <= _words("figure") | {",", ":"}
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
        self._apply(old, None, y)

    def _topic(self, names: list[_Name], y: Number, a: int) -> _Name | None:
        """Return what a sentence opens with: "The return, I had the probe in the wrong duct, it's 76"."""
        for n in names:
            if n.start - a > 2 or self.words[n.end : n.end + 1] != [","]:
                continue
            if self.words[y.start - 1] not in _words("presents") | {"at"}:
                continue
            if any(n.end <= p and q <= y.start for p, q in self.mistakes):
                return n
        return None

    def _by_place(self, y: Number, a: int, b: int) -> bool:
        """Put "the middle one is really 14.1", "sorry, the last one is 1.9" right: one of a row."""
        places = _words("places")
        at = next(
            (
                k
                for k in range(y.start - 1, max(a, y.start - 16), -1)
                if self.words[k] in _words("ones") and self.words[k - 1] in places
            ),
            None,
        )
        if at is None or self.words[at - 2] not in _words("the"):
            return False
        gap = self.words[at + 1 : y.start]
        behind = self.words[self._unit_end(y) : self._unit_end(y) + 3]
        ordered = gap in ([], [","], [":"]) and self.words[at - 3] in _words("orders")
        if not (ordered or _words("presents") & set(gap)) or _words("changes") & set(gap):
            return False
        if _words("now") & {*gap, *behind}:
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
        return self._apply(row[n], None, y)

    def _names(self, a: int, b: int) -> list[_Name]:
        """Return what is named at the tokens [a, b), in order."""
        out: list[_Name] = []
        for x in _within(find_labels(self.n), a, b):
            if x.end <= b:
                label = x.label
                if label.point or label.mode or label.rated:
                    fits = _of_label(label)
                    out.append(_Name(x.start, x.end, fits))
                elif label.quantity and not label.weak:
                    out.append(_Name(x.start, x.end, _of_quantity(label.quantity)))
        for k in range(a, b):
            if self.words[k] in _words("plate"):
                out.append(_Name(k, k + 1, _rated))
        for c in _within(find_components(self.n), a, b):
            if c.end <= b:
                out.append(_Name(c.start, c.end, _of_component(c.name, c.which)))
        for p in _within(find_points(self.n), a, b):
            if p.end <= b:
                out.append(_Name(p.start, p.end, _of_point(p.name)))
        out.sort(key=lambda n: (n.start, n.end))
        return out

    # -- what is done

    def _apply(self, old: Taken, x: Number | None, y: Number) -> bool:
        new = next((t for t in self.taken if t.start <= y.start < t.end), None)
        if new is None:
            new = self.make(old, y)
            if new is None:
                return False
            self.taken.append(new)
            self.taken.sort(key=lambda t: t.start)
        elif new.reading.quantity != old.reading.quantity and (
            new.said_unit or (new.label_here and self._labelled(old, y))
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

    def _labelled(self, old: Taken, y: Number) -> bool:
        """Tell whether something else than the old value was of is named in the clause of the new one."""
        a = y.start
        while a > 0 and self.words[a - 1] not in _CUTS:
            a -= 1
        return any(not n.fits(old) for n in self._names(a, y.start))


def _of_label(label: object) -> Callable[[Taken], bool]:
    def fits(t: Taken) -> bool:
        point = getattr(label, "point", None)
        if t.label is label:
            return True
        return point is not None and t.reading.point == point and label.fits(t.reading.quantity)  # type: ignore[attr-defined]

    return fits


def _of_quantity(quantity: str) -> Callable[[Taken], bool]:
    return lambda t: t.reading.quantity == quantity


def _of_component(name: str, which: str | None) -> Callable[[Taken], bool]:
    def fits(t: Taken) -> bool:
        r = t.reading
        return r.component == name and (which is None or r.which is None or r.which == which)

    return fits


def _rated(t: Taken) -> bool:
    return t.reading.role == "rated"


def _of_point(name: str) -> Callable[[Taken], bool]:
    return lambda t: t.reading.point == name


__all__ = ["Restated"]
