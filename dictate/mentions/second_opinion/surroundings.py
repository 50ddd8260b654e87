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
from functools import cache, lru_cache
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

    def __hash__(self) -> int:
        """Each is itself only: what is made of it once is kept with it."""


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


class _Tables:
    """The rows that are asked for again and again, of one source of rows."""

    def __init__(self, rows: Rows) -> None:
        table, row = rows.table, rows.row
        self.row = row
        sides = {
            (number, mark): f"{'n' if number else ''}{'m' if mark else ''}"
            for number in (False, True)
            for mark in (False, True)
        }
        self.left = [table(f"l{_far(steps)}:") for steps in range(_BEFORE)]
        self.left_any, self.left_bare = table("l:"), table("bl:")
        self.left_of_size = {size: table(f"{size} l:") for size in ("neg", *map(str, range(len(_SIZES) + 1)))}
        self.left_sides = {past: table(f"l{side}:") for past, side in sides.items()}
        self.left_number = [row(f"l number {steps}") for steps in range(6)]
        self.left_mark = [row(f"l mark {steps}") for steps in range(5)]
        self.right = {
            past: [table(f"r{side}{_far(steps)}:") for steps in range(_BEHIND)]
            for past, side in sides.items()
        }
        self.right_sides = {past: table(f"r{side}:") for past, side in sides.items()}
        self.right_two = table("r2:")
        self.openings = [table(f"s{steps}:") for steps in range(3)]
        self.next, self.around = table("next:"), table("w:")
        self.many = [row(f"many:{numbers}") for numbers in range(7)]
        self.size, self.form, self.unit, self.kind = (
            table(beginning) for beginning in ("size:", "form:", "unit:", "kind:")
        )
        self.span, self.unit_behind = table("span:"), table("nv:")
        self.unit_before, self.ratio = table("pv:"), table("pv ratio:")


@lru_cache(maxsize=4)
def _tables(rows: Rows) -> _Tables:
    """Return the tables of a source of rows: those of the trained weights are made once."""
    return _Tables(rows)


class _Surroundings:
    """The words of a narration with what is known of each, to describe the place of a number."""

    def __init__(self, narration: Narration, rows: Rows) -> None:
        self.narration = narration
        self.tables = _tables(rows)
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
        around = self.tables.around
        self.around = [
            [row for tag in self.tags[token] if (row := around.get(tag)) is not None] for token in self.tagged
        ]
        """The rows of what each tagged token is named by, for the numbers that stand further behind."""

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
        tables = self.tables
        _put(seen, tables.size.get(size))
        _put(seen, tables.size.get(size if float(number.value).is_integer() else f"{size}d"))
        _put(seen, tables.form.get(number.form))
        _put(seen, tables.unit.get(unit))
        _put(seen, tables.unit.get(f"{unit} {size}"))
        if said is not None:
            _put(seen, tables.kind.get(said.kind))
        if number.pronoun:
            _put(seen, tables.row("pronoun"))
        if number.start in self.names:
            _put(seen, tables.row("refrigerant"))
        self._before(seen, number.start, first, size, said is None)
        self._behind(seen, number.end, last)
        self._further(seen, number.start, sentence)
        self._sentence(seen, i, number.start, first, last)
        if i:
            self._beside(seen, self.numbers[i - 1], number, size)
        if i + 1 < len(self.numbers) and self.numbers[i + 1].start - number.end < 7:
            following = self.units.get(self.numbers[i + 1].start)
            _put(seen, tables.unit_behind.get(following.word if following is not None else "bare"))
        return seen

    def _sentence(self, seen: dict[int, float], i: int, at: int, first: int, last: int) -> None:
        """Tell of the whole sentence: how it begins, how many numbers it holds, whose role it is all in."""
        for role in self.roles.get(at, ()):
            _put(seen, self.tables.span.get(role))
        begin, end = i, i + 1
        while begin and self.numbers[begin - 1].start >= first:
            begin -= 1
        while end < len(self.numbers) and self.numbers[end].start < last:
            end += 1
        _put(seen, self.tables.many[min(end - begin, 6)])
        if self.raw[last - 1] == "?":
            _put(seen, self.tables.row("question"))
        for steps, table in enumerate(self.tables.openings):
            t = first + steps
            if t < last and t not in self.number_at and (row := table.get(self.words[t])) is not None:
                seen[row] = 1.0

    def _before(self, seen: dict[int, float], at: int, first: int, size: str, bare: bool) -> None:
        steps, t = 0, at - 1
        past_number = past_mark = False
        tables = self.tables
        left, any_step, of_size = tables.left, tables.left_any, tables.left_of_size[size]
        of_bare = tables.left_bare if bare else None
        number_at, words, raw, tags_at = self.number_at, self.words, self.raw, self.tags
        while t >= first and steps < _BEFORE:
            i = number_at.get(t)
            if i is not None:
                if not past_number:
                    _put(seen, tables.left_number[min(steps, 5)])
                past_number, t, steps = True, self.numbers[i].start - 1, steps + 1
                continue
            word = words[t]
            if raw[t] in _MARKS:
                if not past_mark:
                    _put(seen, tables.left_mark[min(steps, 4)])
                past_mark, t = True, t - 1
                continue
            near = _NEAR_BEFORE[steps]
            if (row := left[steps].get(word)) is not None:
                seen[row] = 1.0
            if (row := any_step.get(word)) is not None:
                seen.setdefault(row, near)  # the nearest comes first, and weighs most
            if of_bare is not None and (row := of_bare.get(word)) is not None:
                seen.setdefault(row, near)
            tags = tags_at.get(t)
            if tags is not None:
                side = tables.left_sides[past_number, past_mark]
                for tag in tags:
                    if (row := side.get(tag)) is not None:
                        seen.setdefault(row, near)
                    if (row := of_size.get(tag)) is not None:
                        seen.setdefault(row, near)
            t, steps = t - 1, steps + 1
        if not steps:
            _put(seen, tables.row("first"))

    def _behind(self, seen: dict[int, float], at: int, last: int) -> None:
        steps, t = 0, at
        past_number = past_mark = False
        tables, number_at, words, raw, tags_at = self.tables, self.number_at, self.words, self.raw, self.tags
        while t < last and steps < _BEHIND:
            i = number_at.get(t)
            if i is not None:
                if not past_number:
                    _put(seen, tables.row(f"r number {min(steps, 3)}"))
                past_number, t, steps = True, self.numbers[i].end, steps + 1
                continue
            word = words[t]
            if raw[t] in _MARKS:
                past_mark, t = True, t + 1
                continue
            near = _NEAR_BEHIND[steps]
            if (row := tables.right[past_number, past_mark][steps].get(word)) is not None:
                seen[row] = 1.0
            any_step = tables.right_sides[past_number, past_mark]
            if (row := any_step.get(word)) is not None:
                seen.setdefault(row, near)
            for tag in tags_at.get(t, ()):
                if (row := any_step.get(tag)) is not None:
                    seen.setdefault(row, near)
            t, steps = t + 1, steps + 1
        if at + 1 < last:
            _put(seen, tables.right_two.get(f"{words[at]} {words[at + 1]}"))

    def _further(self, seen: dict[int, float], at: int, sentence: int) -> None:
        tagged, around = self.tagged, self.around
        place = bisect_left(tagged, at)
        while place and tagged[place - 1] > at - _AROUND:
            place -= 1
            near = _NEAR_AROUND[at - tagged[place]]
            for known in around[place]:
                if known not in seen:
                    seen[known] = near  # the nearest comes first
        if sentence + 1 < len(self.narration.sentences):
            first, last = self.narration.sentences[sentence + 1]
            table = self.tables.next
            for t in range(first, min(last, first + 8)):
                if t not in self.number_at and (row := table.get(self.words[t])) is not None:
                    seen[row] = 0.5

    def _beside(self, seen: dict[int, float], other: Number, number: Number, size: str) -> None:
        said = self.units.get(other.start)
        unit = said.word if said is not None else "bare"
        ratio = abs(number.value / other.value) if other.value else 0.0
        apart = str(round(2 * math.log2(ratio))) if 0.25 < ratio < 4 else "far"
        before, ratios = self.tables.unit_before, self.tables.ratio
        _put(seen, before.get(unit))
        _put(seen, before.get(f"{unit} {size}"))
        _put(seen, before.get(f"{size_of(other)} to {size}"))
        _put(seen, ratios.get(apart))
        _put(seen, ratios.get(f"{unit} {apart}"))


def _put(seen: dict[int, float], row: int | None) -> None:
    """Note a feature, where anything is known of it."""
    if row is not None:
        seen[row] = 1.0


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
