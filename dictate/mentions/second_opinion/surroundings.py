"""What stands around each number of a narration, as features with weights: what the second opinion looks at.

    features(narration) -> [(number, {feature: weight 0 to 1})]
    described(narration, rows) -> [(number, {row of the feature: weight 0 to 1})]

The words before and behind, how far away and past what; the names of things, points and labels; the cues of
roles, corrections and relations; units, sizes and forms of the number and of the ones beside it; and how the
sentence begins.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from functools import cache
from typing import Protocol

from dictate.mentions.labels import find_components, find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.roles.cues import find_correction_cues, find_cues, find_relations
from dictate.mentions.roles.spans import find_spans
from dictate.mentions.spoken_numbers import Number, find_numbers

_SIZES = (0, 1e-9, 1, 4, 10, 20, 32, 45, 70, 105, 130, 195, 250, 370, 500, 1000)
"""Where the sizes of numbers are parted: box and line temperatures, suctions, heads and mains lie apart."""
_MARKS = frozenset(",;:-.")
_BEFORE, _BEHIND, _AROUND = 16, 8, 60
"""How many words before and behind a number are looked at, and how far back the names of things count."""
_NEAR_BEFORE = [1 / (1 + 0.12 * steps) for steps in range(_BEFORE)]
_NEAR_BEHIND = [1 / (1 + 0.15 * steps) for steps in range(_BEHIND)]
_NEAR_AROUND = [1 / (1 + tokens / 12) for tokens in range(_AROUND)]
"""How much a word counts, by how many words or tokens stand between it and the number."""


def described(narration: Narration, rows: Rows) -> list[tuple[Number, dict[int, float]]]:
    """Return every number of a narration with the rows of its features, each with its weight, 0 to 1."""
    return _Surroundings(narration, rows).all()


def features(narration: Narration) -> list[tuple[Number, dict[str, float]]]:
    """Return every number of a narration with what stands around it, each feature with its weight, 0 to 1."""
    every = _Every()
    return [
        (number, {every.names[row]: weight for row, weight in seen.items()})
        for number, seen in described(narration, every)
    ]


class Rows(Protocol):
    """The rows of the features: `row` of a whole name, and of a beginning its table from rest to row.

    A feature of which nothing is known has no row. The tables save the making of very many names.
    """

    def row(self, name: str) -> int | None:
        """Return the row of a feature."""

    def table(self, beginning: str) -> Table:
        """Return the table of the features that begin so."""


class Table(Protocol):
    """The rows of the features with one beginning, by the rest of their names."""

    def get(self, rest: str, /) -> int | None:
        """Return the row of the feature that ends so."""


class _Every:
    """Rows for whatever is asked for, numbered as it comes: to learn from."""

    def __init__(self) -> None:
        self.rows: dict[str, int] = {}

    @property
    def names(self) -> list[str]:
        """Return the names of the rows, in their order."""
        return list(self.rows)

    def row(self, name: str) -> int:
        return self.rows.setdefault(name, len(self.rows))

    def table(self, beginning: str) -> Table:
        return _EveryOf(self, beginning)


class _EveryOf:
    def __init__(self, every: _Every, beginning: str) -> None:
        self.every, self.beginning = every, beginning

    def get(self, rest: str, /) -> int:
        return self.every.row(self.beginning + rest)


class _Surroundings:
    """The words of a narration with what is known of each, to describe the place of a number."""

    def __init__(self, narration: Narration, rows: Rows) -> None:
        self.narration = narration
        self.row, self.table = rows.row, cache(rows.table)
        self.left = [self.table(f"l{_far(steps)}:") for steps in range(_BEFORE)]
        sides = {
            (number, mark): f"{'n' if number else ''}{'m' if mark else ''}"
            for number in (False, True)
            for mark in (False, True)
        }
        self.left_sides = {past: self.table(f"l{side}:") for past, side in sides.items()}
        self.right_sides = {past: self.table(f"r{side}:") for past, side in sides.items()}
        self.openings = [self.table(f"s{steps}:") for steps in range(3)]
        self.right = {
            past: [self.table(f"r{side}{_far(steps)}:") for steps in range(_BEHIND)]
            for past, side in sides.items()
        }
        self.raw = narration.lowers
        self.words = [_stem(w) for w in self.raw]
        self.numbers = find_numbers(narration)
        self.number_at = {t: i for i, x in enumerate(self.numbers) for t in range(x.start, x.end)}
        self.units: dict[int, Quantity] = {}
        for q in find_quantities(narration):
            for t in range(q.start, q.end):
                self.units.setdefault(t, q)
        self.names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
        self.tags: dict[int, list[str]] = {}
        for label in find_labels(narration):
            about = label.label
            tags = [f"L:{about.quantity or about.default or 'any'}"]
            tags += [f"Lp:{about.point}"] if about.point else []
            tags += ["L:rated"] if about.rated else []
            self._tag(label.start, label.end, tags)
        for c in find_components(narration):
            tags = [f"C:{c.name}", *(f"Cm:{m}" for m in sorted(c.component.measures))]
            tags += [f"Cb:{c.component.bare}"] if c.component.bare else []
            self._tag(c.start, c.end, tags)
        for p in find_points(narration):
            self._tag(p.start, p.end, [f"P:{p.name}", f"Pk:{p.kind}"])
        for cue in find_cues(narration):
            self._tag(cue.start, cue.end, [f"R:{cue.role}", f"Rw:{cue.role} {cue.where}"])
        for back in find_correction_cues(narration):
            self._tag(back.start, back.end, ["X:back"])
        for phrases in find_relations(narration).values():
            for sign in phrases:
                self._tag(sign.start, sign.end, [f"Y:{sign.key}"])
        self.roles: dict[int, list[str]] = {}
        for span in find_spans(narration):
            for t in range(span.start, span.end):
                self.roles.setdefault(t, []).append(span.role)
        self.tagged = sorted(self.tags)
        self.around: dict[int, list[int]] = {}

    def _tag(self, start: int, end: int, tags: Iterable[str]) -> None:
        for t in range(start, end):
            self.tags.setdefault(t, []).extend(tags)

    def all(self) -> list[tuple[Number, dict[int, float]]]:
        """Return every number with the rows of its features, each with its weight."""
        out = []
        sentence = 0
        sentences = self.narration.sentences
        for i, number in enumerate(self.numbers):
            while sentences[sentence][1] <= number.start:
                sentence += 1
            out.append((number, self._describe(i, number, sentence)))
        return out

    def _describe(self, i: int, number: Number, sentence: int) -> dict[int, float]:
        seen: dict[int, float] = {}
        first, last = self.narration.sentences[sentence]
        size = size_of(number)
        said = self.units.get(number.start)
        unit = said.word if said is not None else "bare"
        for name in (
            f"size:{size}", f"size:{size}{'' if float(number.value).is_integer() else 'd'}",
            f"form:{number.form}", f"unit:{unit}", f"unit:{unit} {size}",
        ):  # fmt: skip
            self._put(seen, name)
        if said is not None:
            self._put(seen, f"kind:{said.kind}")
        if number.pronoun:
            self._put(seen, "pronoun")
        if number.start in self.names:
            self._put(seen, "refrigerant")
        self._before(seen, number.start, first, size, said is None)
        self._behind(seen, number.end, last)
        self._further(seen, number.start, sentence)
        self._sentence(seen, i, number.start, first, last)
        if i:
            self._beside(seen, "pv", self.numbers[i - 1], number, size)
        if i + 1 < len(self.numbers) and self.numbers[i + 1].start - number.end < 7:
            following = self.units.get(self.numbers[i + 1].start)
            self._put(seen, f"nv:{following.word if following is not None else 'bare'}")
        return seen

    def _sentence(self, seen: dict[int, float], i: int, at: int, first: int, last: int) -> None:
        """Tell of the whole sentence: how it begins, how many numbers it holds, whose role it is all in."""
        for role in self.roles.get(at, ()):
            self._put(seen, f"span:{role}")
        begin, end = i, i + 1
        while begin and self.numbers[begin - 1].start >= first:
            begin -= 1
        while end < len(self.numbers) and self.numbers[end].start < last:
            end += 1
        self._put(seen, f"many:{min(end - begin, 6)}")
        if self.raw[last - 1] == "?":
            self._put(seen, "question")
        for steps, table in enumerate(self.openings):
            t = first + steps
            if t < last and t not in self.number_at and (row := table.get(self.words[t])) is not None:
                seen[row] = 1.0

    def _put(self, seen: dict[int, float], name: str) -> None:
        row = self.row(name)
        if row is not None:
            seen[row] = 1.0

    def _before(self, seen: dict[int, float], at: int, first: int, size: str, bare: bool) -> None:
        steps, t = 0, at - 1
        past_number = past_mark = False
        any_step, of_size = self.table("l:"), self.table(f"{size} l:")
        of_bare = self.table("bl:") if bare else None
        number_at, words, raw, tags_at = self.number_at, self.words, self.raw, self.tags
        while t >= first and steps < _BEFORE:
            i = number_at.get(t)
            if i is not None:
                if not past_number:
                    self._put(seen, f"l number {min(steps, 5)}")
                past_number, t, steps = True, self.numbers[i].start - 1, steps + 1
                continue
            word = words[t]
            if raw[t] in _MARKS:
                if not past_mark:
                    self._put(seen, f"l mark {min(steps, 4)}")
                past_mark, t = True, t - 1
                continue
            near = _NEAR_BEFORE[steps]
            if (row := self.left[steps].get(word)) is not None:
                seen[row] = 1.0
            if (row := any_step.get(word)) is not None:
                seen.setdefault(row, near)  # the nearest comes first, and weighs most
            if of_bare is not None and (row := of_bare.get(word)) is not None:
                seen.setdefault(row, near)
            tags = tags_at.get(t)
            if tags is not None:
                side = self.left_sides[past_number, past_mark]
                for tag in tags:
                    if (row := side.get(tag)) is not None:
                        seen.setdefault(row, near)
                    if (row := of_size.get(tag)) is not None:
                        seen.setdefault(row, near)
            t, steps = t - 1, steps + 1
        if not steps:
            self._put(seen, "first")

    def _behind(self, seen: dict[int, float], at: int, last: int) -> None:
        steps, t = 0, at
        past_number = past_mark = False
        while t < last and steps < _BEHIND:
            i = self.number_at.get(t)
            if i is not None:
                if not past_number:
                    self._put(seen, f"r number {min(steps, 3)}")
                past_number, t, steps = True, self.numbers[i].end, steps + 1
                continue
            word = self.words[t]
            if self.raw[t] in _MARKS:
                past_mark, t = True, t + 1
                continue
            near = _NEAR_BEHIND[steps]
            if (row := self.right[past_number, past_mark][steps].get(word)) is not None:
                seen[row] = 1.0
            any_step = self.right_sides[past_number, past_mark]
            for said in (word, *self.tags.get(t, ())):
                if (row := any_step.get(said)) is not None:
                    seen.setdefault(row, near)
            t, steps = t + 1, steps + 1
        if at + 1 < last:
            self._put(seen, f"r2:{self.words[at]} {self.words[at + 1]}")

    def _further(self, seen: dict[int, float], at: int, sentence: int) -> None:
        place = bisect_left(self.tagged, at)
        while place and self.tagged[place - 1] > at - _AROUND:
            place -= 1
            token = self.tagged[place]
            near = _NEAR_AROUND[at - token]
            for known in self._around(token):
                seen.setdefault(known, near)  # the nearest comes first
        if sentence + 1 < len(self.narration.sentences):
            first, last = self.narration.sentences[sentence + 1]
            table = self.table("next:")
            for t in range(first, min(last, first + 8)):
                if t not in self.number_at and (row := table.get(self.words[t])) is not None:
                    seen[row] = 0.5

    def _around(self, token: int) -> list[int]:
        """Return the rows of what a token is named by, for the numbers that stand further behind."""
        rows = self.around.get(token)
        if rows is None:
            table = self.table("w:")
            found = [table.get(tag) for tag in self.tags[token]]
            rows = self.around[token] = [known for known in found if known is not None]
        return rows

    def _beside(self, seen: dict[int, float], side: str, other: Number, number: Number, size: str) -> None:
        said = self.units.get(other.start)
        unit = said.word if said is not None else "bare"
        ratio = abs(number.value / other.value) if other.value else 0.0
        apart = str(round(2 * math.log2(ratio))) if 0.25 < ratio < 4 else "far"
        for name in (
            f"{side}:{unit}", f"{side}:{unit} {size}", f"{side}:{size_of(other)} to {size}",
            f"{side} ratio:{apart}", f"{side} ratio:{unit} {apart}",
        ):  # fmt: skip
            self._put(seen, name)


def _far(steps: int) -> str:
    return "1" if steps == 0 else "2" if steps == 1 else "3" if steps < 4 else "5"


def size_of(number: Number) -> str:
    """Return which size a number is of: "neg", or "1" to "16" from the smallest on."""
    value = -abs(number.value) if number.negative else number.value
    if value < 0:
        return "neg"
    return str(bisect_right(_SIZES, value))


@cache
def _stem(word: str) -> str:
    """Return a word without its commonest endings: one form for "pull", "pulls", "pulled" and "pulling"."""
    for ending in ("'s", "'re", "'d", "'ve", "'ll"):
        word = word.removesuffix(ending)
    if len(word) > 4:
        for ending in ("ing", "ed", "es"):
            if word.endswith(ending):
                return word[: -len(ending)]
        if word.endswith("s") and not word.endswith("ss"):
            return word[:-1]
        return word.removesuffix("e")
    return word


__all__ = ["Rows", "Table", "described", "features", "size_of"]
