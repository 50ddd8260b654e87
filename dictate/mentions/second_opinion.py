"""A second opinion on what a number is: a linear model over the words around it.

    opinions(narration) -> {token at which a number starts: Opinion}

It errs in other ways than the grammar of the readers does: it knows no order, no scope and no rule, only
which words, names of things, units and sizes of numbers stood near the values of the labelled narrations
(`tests/narrations/develop`). So it overrules nothing that was said. Where a value was tied to nothing beside
it, it is asked whether the words around look like one of that kind; where a number was carried on to what it
cannot be, or was left out, and the words leave little doubt, it is taken with a reason to look at it.

The weights are data, made by `python -m tests.benchmarks.second_opinion --write`: `second_opinion.npz` beside
this file holds the names of the features, their weights in steps of a scale (signed bytes) and the classes.
"""

from __future__ import annotations

import io
import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.labels import find_components, find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.refrigerants import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers

NONE = "none"
"""The class of a number that is no value: a count, a name, a time of day."""
MEASURED = "measured"

_SIZES = (0, 1e-9, 1, 4, 10, 20, 32, 45, 70, 105, 130, 195, 250, 370, 500, 1000)
"""Where the sizes of numbers are parted: box and line temperatures, suctions, heads and mains lie apart."""
_MARKS = frozenset(",;:-.")
_BEFORE, _BEHIND, _AROUND = 16, 8, 60
"""How many words before and behind a number are looked at, and how far back the names of things count."""


@dataclass(frozen=True, slots=True)
class Opinion:
    """How likely a number is a value of each quantity, and of now (the chance that it was measured)."""

    quantities: dict[str, float]
    measured: float

    def of(self, quantity: str) -> float:
        """Return the chance that the number is a measured value of a quantity, 0 to 1."""
        return self.quantities.get(quantity, 0.0) * self.measured

    @property
    def best(self) -> str:
        """Return the likeliest quantity, or `NONE`."""
        return max(self.quantities, key=self.quantities.__getitem__)


def opinions(narration: Narration) -> dict[int, Opinion]:
    """Return an opinion on every number of a narration, by its first token; computed once per narration."""
    done: dict[int, Opinion] | None = narration.found.get("second opinion")
    if done is None:
        described = features(narration)
        judged = _model().judge([seen for _, seen in described])
        done = {number.start: opinion for (number, _), opinion in zip(described, judged, strict=True)}
        narration.found["second opinion"] = done
    return done


def features(narration: Narration) -> list[tuple[Number, dict[str, float]]]:
    """Return every number of a narration with what stands around it, each feature with its weight, 0 to 1."""
    return _Surroundings(narration).all()


class _Surroundings:
    """The words of a narration with what is known of each, to describe the place of a number."""

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
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
            tags = [f"C:{c.name}", *(f"Cm:{m}" for m in c.component.measures)]
            tags += [f"Cb:{c.component.bare}"] if c.component.bare else []
            self._tag(c.start, c.end, tags)
        for p in find_points(narration):
            self._tag(p.start, p.end, [f"P:{p.name}", f"Pk:{p.kind}"])
        self.tagged = sorted(self.tags)

    def _tag(self, start: int, end: int, tags: Iterable[str]) -> None:
        for t in range(start, end):
            self.tags.setdefault(t, []).extend(tags)

    def all(self) -> list[tuple[Number, dict[str, float]]]:
        out = []
        sentence = 0
        sentences = self.narration.sentences
        for i, number in enumerate(self.numbers):
            while sentences[sentence][1] <= number.start:
                sentence += 1
            out.append((number, self._describe(i, number, sentence)))
        return out

    def _describe(self, i: int, number: Number, sentence: int) -> dict[str, float]:
        seen: dict[str, float] = {}
        first, last = self.narration.sentences[sentence]
        size = _size(number)
        said = self.units.get(number.start)
        unit = said.word if said is not None else "bare"
        for name in (
            f"size:{size}", f"size:{size}{'' if float(number.value).is_integer() else 'd'}",
            f"form:{number.form}", f"unit:{unit}", f"unit:{unit} {size}",
        ):  # fmt: skip
            seen[name] = 1.0
        if said is not None:
            seen[f"kind:{said.kind}"] = 1.0
        if number.pronoun:
            seen["pronoun"] = 1.0
        if number.start in self.names:
            seen["refrigerant"] = 1.0
        self._before(seen, number.start, first, size, said is None)
        self._behind(seen, number.end, last)
        self._further(seen, number.start, sentence)
        if i:
            self._beside(seen, "pv", self.numbers[i - 1], number, size)
        if i + 1 < len(self.numbers) and self.numbers[i + 1].start - number.end < 7:
            following = self.units.get(self.numbers[i + 1].start)
            seen[f"nv:{following.word if following is not None else 'bare'}"] = 1.0
        return seen

    def _before(self, seen: dict[str, float], at: int, first: int, size: str, bare: bool) -> None:
        steps, t = 0, at - 1
        past_number = past_mark = False
        while t >= first and steps < _BEFORE:
            i = self.number_at.get(t)
            if i is not None:
                if not past_number:
                    seen[f"l number {min(steps, 5)}"] = 1.0
                past_number, t, steps = True, self.numbers[i].start - 1, steps + 1
                continue
            word = self.words[t]
            if self.raw[t] in _MARKS:
                if not past_mark:
                    seen[f"l mark {min(steps, 4)}"] = 1.0
                past_mark, t = True, t - 1
                continue
            near = 1 / (1 + 0.12 * steps)
            seen[f"l{_far(steps)}:{word}"] = 1.0
            seen.setdefault(f"l:{word}", near)  # the nearest comes first, and weighs most
            if bare:
                seen.setdefault(f"bl:{word}", near)
            side = f"l{'n' if past_number else ''}{'m' if past_mark else ''}"
            for tag in self.tags.get(t, ()):
                seen.setdefault(f"{side}:{tag}", near)
                seen.setdefault(f"{size} l:{tag}", near)
            t, steps = t - 1, steps + 1
        if not steps:
            seen["first"] = 1.0

    def _behind(self, seen: dict[str, float], at: int, last: int) -> None:
        steps, t = 0, at
        past_number = past_mark = False
        while t < last and steps < _BEHIND:
            i = self.number_at.get(t)
            if i is not None:
                if not past_number:
                    seen[f"r number {min(steps, 3)}"] = 1.0
                past_number, t, steps = True, self.numbers[i].end, steps + 1
                continue
            word = self.words[t]
            if self.raw[t] in _MARKS:
                past_mark, t = True, t + 1
                continue
            near = 1 / (1 + 0.15 * steps)
            side = f"r{'n' if past_number else ''}{'m' if past_mark else ''}"
            seen[f"{side}{_far(steps)}:{word}"] = 1.0
            seen.setdefault(f"{side}:{word}", near)
            for tag in self.tags.get(t, ()):
                seen.setdefault(f"{side}:{tag}", near)
            t, steps = t + 1, steps + 1
        if at + 1 < last:
            seen[f"r2:{self.words[at]} {self.words[at + 1]}"] = 1.0

    def _further(self, seen: dict[str, float], at: int, sentence: int) -> None:
        place = bisect_left(self.tagged, at)
        while place and self.tagged[place - 1] > at - _AROUND:
            place -= 1
            near = 1 / (1 + (at - self.tagged[place]) / 12)
            for tag in self.tags[self.tagged[place]]:
                seen.setdefault(f"w:{tag}", near)  # the nearest comes first
        if sentence + 1 < len(self.narration.sentences):
            first, last = self.narration.sentences[sentence + 1]
            for t in range(first, min(last, first + 8)):
                if t not in self.number_at:
                    seen[f"next:{self.words[t]}"] = 0.5

    def _beside(self, seen: dict[str, float], side: str, other: Number, number: Number, size: str) -> None:
        said = self.units.get(other.start)
        unit = said.word if said is not None else "bare"
        ratio = abs(number.value / other.value) if other.value else 0.0
        apart = str(round(2 * math.log2(ratio))) if 0.25 < ratio < 4 else "far"
        for name in (
            f"{side}:{unit}", f"{side}:{unit} {size}", f"{side}:{_size(other)} to {size}",
            f"{side} ratio:{apart}", f"{side} ratio:{unit} {apart}",
        ):  # fmt: skip
            seen[name] = 1.0


def _far(steps: int) -> str:
    return "1" if steps == 0 else "2" if steps == 1 else "3" if steps < 4 else "5"


def _size(number: Number) -> str:
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


class _Model:
    """The weights: one row a feature; the columns are the quantities, then how a value is meant."""

    def __init__(self, data: dict[str, Any]) -> None:
        names = bytes(data["features"]).decode("utf-8").split("\n")
        self.row = {name: i for i, name in enumerate(names)}
        self.quantities = bytes(data["quantities"]).decode("utf-8").split("\n")
        self.meanings = bytes(data["meanings"]).decode("utf-8").split("\n")
        self.weights = data["weights"].astype("float32") * data["scale"]
        self.bias = data["bias"]
        if self.weights.shape != (len(names), len(self.quantities) + len(self.meanings)):
            raise RecordError("second_opinion.npz does not fit together.", "Reinstall the package.")

    def judge(self, described: Sequence[dict[str, float]]) -> list[Opinion]:
        """Return the opinions on numbers from what stands around each; all at once, which is faster."""
        import numpy as np

        row_of = self.row.get
        rows: list[int] = []
        weights: list[float] = []
        begins: list[int] = []
        for seen in described:
            begins.append(len(rows))
            rows.append(0)
            weights.append(0.0)  # one for each number, so that none is without a row
            known = [(row, weight) for name, weight in seen.items() if (row := row_of(name)) is not None]
            rows += [row for row, _ in known]
            weights += [weight for _, weight in known]
        if not rows:
            return []
        parts = self.weights[rows] * np.asarray(weights, dtype="float32")[:, None]
        scores = np.add.reduceat(parts, begins, axis=0) + self.bias
        cut = len(self.quantities)
        measured = self.meanings.index(MEASURED)
        meant = _shares(scores[:, cut:])[:, measured].tolist()
        shares = _shares(scores[:, :cut]).tolist()
        return [
            Opinion(dict(zip(self.quantities, share, strict=True)), chance)
            for share, chance in zip(shares, meant, strict=True)
        ]


def _shares(scores: Any) -> Any:
    import numpy as np

    grown = np.exp(scores - scores.max(axis=1, keepdims=True))
    return grown / grown.sum(axis=1, keepdims=True)


@cache
def _model() -> _Model:
    import numpy as np

    file = resources.files("dictate.mentions") / "second_opinion.npz"
    try:
        content = file.read_bytes()
    except FileNotFoundError:
        raise RecordError("second_opinion.npz is missing.", "Reinstall the package.") from None
    with np.load(io.BytesIO(content), allow_pickle=False) as data:
        return _Model({name: data[name] for name in data.files})


__all__ = ["MEASURED", "NONE", "Opinion", "features", "opinions"]
