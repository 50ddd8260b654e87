"""A scale read aloud while gas goes in or comes out, one number a breath: the last one is the amount.

    "Goin' in liquid... two... four... five... five pound seven, shut it."     5 lb 7 oz went in
    "Recover. One forty grams, one seventy, one eighty-five. That's the lot."  185 g came out
    "Charge. 1 kilo. 2. 2.9. 3.2, closing."                                    3.2 kg went in

The numbers rise and follow a word that opens the weighing, with asides between them but no word of another
quantity, save for a gauge that is looked at on the way ("nine ounces. Head's two fifty. Fifteen"). Their unit
is said with one of them, or is that of an amount of this size said elsewhere. What comes on top is added
("eight... and three and a half, eleven and a half"), and a pause ends nothing where the last number comes to
what the plate tells ("A hundred and ten, stopped drawing. Plug her in. One ninety. Two thirty").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from dictate.mentions.labels import labels_by_start
from dictate.mentions.narration import Narration
from dictate.mentions.not_values.identities import identity_spans
from dictate.mentions.not_values.plates_told import PlateTold, plates_told
from dictate.mentions.not_values.scale_heads import (
    MARKS,
    SENTENCE_ENDS,
    TO_A_PLATE,
    WEIGHTS,
    headed_by,
    heads_of,
    unit_alike,
    way_of,
    words_beside,
)
from dictate.mentions.quantities import Quantity, find_quantities, mass_of
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.word_lists import word_list
from dictate.units import convert

_TO_FIRST = 9
"""Tokens between the word that opens a weighing and the first number of it."""
_APART = 7
"""Tokens between two numbers of a weighing, full stops and commas aside."""
_ASIDE = 16
"""The same where the sentence between them speaks of something else altogether."""
_STEEPEST = 6.0
"""One reading of a scale is at most so many times the one before."""
_CLOSED_WITHIN = 5
_BESIDE = 4
"""Words that stand before or behind a number in its clause at most, where only the scale was named."""
_ASIDES = 2
"""Numbers of a gauge that may stand between two of a weighing."""
_WEIGHED_AGAIN = 1.25
"""What is read off the scale once more when all is shut is at most so many times the last number."""
_PAUSE = 20
"""Words between two numbers of a weighing that is held up on the way, marks aside."""
_PARTS = 3
"""Parts that are added before their sum is told."""
_EXACT = 1e-3
_KILOS = 30.0
"""A number below this that goes on from grams is of kilos."""
KILOS = "kilos were not said: grams were read before it"
HUNDREDS = "the hundreds were not said: the numbers beside it have them"
ADDED = "what came on top was added: its sum was not said"
OUNCES = "pounds and ounces were not said: taken as {0:g} lb {1:g} oz"


@dataclass(frozen=True, slots=True)
class ScaleRun:
    """The readings of one weighing."""

    direction: str
    """`charged` or `recovered`."""
    head: int
    """The token that opens it."""
    first: int
    """The first token of its first number."""
    start: int
    """The first token of its last number, which is the amount."""
    end: int
    value: float
    unit: str
    numbers: frozenset[int]
    """The first tokens of all its numbers."""
    reasons: tuple[str, ...] = ()
    proven: bool = False
    """Its parts, their sum and a plate tell the same."""


_Option = tuple[float, tuple[str, ...]]


@dataclass(slots=True)
class _Step:
    number: Number
    value: float
    unit: str | None
    end: int
    reasons: tuple[str, ...] = ()
    parts: tuple[int, ...] = ()
    """The first tokens of the numbers that add up to it."""


def scale_runs(narration: Narration) -> tuple[ScaleRun, ...]:
    """Return the weighings of a narration that were read aloud number by number; computed once."""
    done: tuple[ScaleRun, ...] | None = narration.found.get("scale runs")
    if done is None:
        done = narration.found["scale runs"] = tuple(_Finder(narration).runs())
    return done


class _Finder:
    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers
        named = {t for s, e in identity_spans(narration) for t in range(s, e)}
        self.numbers = [x for x in find_numbers(narration) if not x.pronoun and x.start not in named]
        self.plates = {p.start: p for p in plates_told(narration)}
        self.parted = any(q.parts and q.unit in WEIGHTS for q in find_quantities(narration))
        """Pounds and ounces were said together somewhere."""
        self.by_start: dict[int, Quantity] = {q.start: q for q in find_quantities(narration)}

    def runs(self) -> list[ScaleRun]:
        out: list[ScaleRun] = []
        end = 0
        for head, at, way in heads_of(self.words, self.plates.values()):
            if head < end:
                continue
            run = self._from(head, at, way)
            if run is not None:
                out.append(run)
                end = run.end
        return out

    def _alone(self, number: Number, since: int) -> bool:
        """Tell whether few words stand beside a number: a scale that is only named opens no tale."""
        q = self.by_start.get(number.start)
        end = q.end if q is not None else number.end
        return max(words_beside(self.words, number.start, end, since)) <= _BESIDE

    def _of_a_plate(self, number: Number) -> int | None:
        """Return where the words end that tell a number of a plate: "nine fifty's on the sticker"."""
        if number.start in self.plates:
            return self.plates[number.start].end
        end = next((t for t in range(number.end, len(self.words)) if self.words[t] in SENTENCE_ENDS), None)
        if end is None:
            return None
        following = next((x.start for x in self.numbers if x.start > number.start), end)
        if not word_list("scale_plates") & set(self.words[number.end : min(end, following)]):
            return None
        return end

    def _from(self, head: int, at: int, direction: str) -> ScaleRun | None:
        steps: list[_Step] = []
        reach = _TO_FIRST
        gauge: list[float] = []
        asides = 0
        paused: int | None = None
        k = next((i for i, x in enumerate(self.numbers) if x.start >= at), len(self.numbers))
        while k < len(self.numbers):
            number = self.numbers[k]
            k += 1
            if number.start < at:
                continue
            if steps and asides < _ASIDES and self._of_a_gauge(at, number, gauge, steps[-1]):
                if not word_list("scale_pauses").isdisjoint(self.words[at : number.start]):
                    paused = paused or len(steps)
                gauge.append(number.value)
                at, reach, asides = number.end, _APART, asides + 1
                continue
            if steps and self._weighed_again(at, number, steps[-1]):
                steps.append(self._step(number, steps) or steps[-1])
                break
            plate = self._of_a_plate(number) if not steps else None
            if plate is not None:
                at = plate
                continue
            if self._breaks(at, number, reach, steps[-1] if steps else None):
                if not steps or not self._pauses(at, number):
                    break
                paused = paused or len(steps)
            if not steps and number.value == 0:
                at = number.end  # "scales at zero"
                continue
            weighed = bool(steps) and number.start in self.by_start
            if direction == "either" and not weighed and not self._alone(number, at if steps else head):
                break
            on_top = self._on_top(k - 1, steps) if steps else None
            if on_top is not None:
                step, k = on_top
            else:
                found = self._step(number, steps)
                if found is None:
                    break
                step = found
            steps.append(step)
            at, reach, asides = step.end, _APART, 0
        if paused is not None and not self._by_the_plate(steps):
            steps = steps[:paused]
        return self._run(head, steps, direction)

    def _pauses(self, at: int, number: Number) -> bool:
        """Tell whether the words between two numbers may only hold a weighing up: "Stop, let it settle"."""
        between = [w for w in self.words[at : number.start] if w not in MARKS]
        ends = word_list("scale_ends") - word_list("scale_pauses")
        return len(between) <= _PAUSE and ends.isdisjoint(between) and not self._labelled(at, number.start)

    def _labelled(self, first: int, last: int) -> bool:
        """Tell whether a value is named in the words; "liquid..." alone is what goes in, and no pressure."""
        labels, alone = labels_by_start(self.n), word_list("scale_lets_in")
        return any(
            k in labels
            and not labels[k].label.weak
            and not (self.words[k] in alone and self.words[k + 1] in MARKS)
            for k in range(first, last)
        )

    def _by_the_plate(self, steps: Sequence[_Step]) -> PlateTold | None:
        """Return the plate whose charge a weighing came to."""
        unit = next((s.unit for s in reversed(steps) if s.unit), None)
        for plate in self.plates.values():
            value = plate.value
            if unit is not None and plate.unit is not None and plate.unit != unit:
                value = convert(value, plate.unit, unit)
            if abs(value - steps[-1].value) <= _EXACT * value:
                return plate
        return None

    def _on_top(self, k: int, steps: Sequence[_Step]) -> tuple[_Step, int] | None:
        """Return the sum that the parts from number k on come to, and the number behind it.

        "Eight. And three and a half. Eleven and a half": the sum proves them. "Another four" needs none.
        """
        last, first = steps[-1], self.numbers[k]
        added = self.words[first.start - 1] in word_list("scale_adds")
        q = self.by_start.get(first.start)
        end = q.end if q is not None else first.end
        added = added or not word_list("scale_added").isdisjoint(self.words[end : end + 1])
        if not added and first.value >= last.value:
            return None
        total, unit = last.value, next((s.unit for s in reversed(steps) if s.unit), None)
        for j in range(k, min(k + _PARTS, len(self.numbers))):
            part = self._step(self.numbers[j], ())
            if part is None or (part.unit or unit) != (unit or part.unit):
                break
            total, unit = total + part.value, unit or part.unit
            following = self.numbers[j + 1] if j + 1 < len(self.numbers) else None
            if following is None or not self._pauses(part.end, following):
                break
            whole = self._step(following, (*steps, part)) if part.value >= last.value else None
            whole = whole or self._step(following, steps)
            if whole is not None and abs(whole.value - total) <= _EXACT * total:
                parts = tuple(x.start for x in self.numbers[k : j + 1])
                return _Step(following, total, whole.unit, whole.end, whole.reasons, parts), j + 2
        if not added:
            return None
        part = self._step(first, ())
        if part is None or (part.unit or unit) != (unit or part.unit):
            return None
        return _Step(first, last.value + part.value, part.unit, end, (ADDED,)), k + 1

    def _of_a_gauge(self, at: int, number: Number, gauge: list[float], last: _Step) -> bool:
        """Tell whether a number between two of a weighing is of a gauge that was looked at meanwhile.

        It is named with its gauge, or nearer to what that gauge showed before than to what the scale did.
        """
        between = [w for w in self.words[at : number.start] if w not in MARKS]
        others = word_list("scale_ends") - word_list("scale_gauges") - word_list("scale_pauses")
        if number.start in self.by_start or len(between) > _APART // 2 or not others.isdisjoint(between):
            return False
        if not word_list("scale_gauges").isdisjoint(between):
            return True
        return bool(gauge) and _apart(number.value, gauge[-1]) < _apart(number.value, last.value)

    def _weighed_again(self, at: int, number: Number, last: _Step) -> bool:
        """Tell whether all was shut, and the amount is read off once more: "shut. Four ninety-five gram"."""
        q = self.by_start.get(number.start)
        mass = mass_of(q) if q is not None else None
        between = [w for w in self.words[at : number.start] if w not in MARKS]
        if (
            mass is None
            or number.start in self.plates
            or len(between) > _APART
            or word_list("scale_shut").isdisjoint(between)
        ):
            return False
        same = last.unit in (None, mass[1])
        return same and last.value <= mass[0] <= _WEIGHED_AGAIN * last.value and self._alone(number, at)

    def _breaks(self, at: int, number: Number, reach: int, last: _Step | None) -> bool:
        """Tell whether the words between two numbers end the weighing."""
        start, begun = number.start, last is not None
        between = self.words[at:start]
        said = [w for w in between if w not in MARKS]
        aside = begun and any(w in MARKS for w in between[-1:])
        if len(said) > (_ASIDE if aside else reach):
            return True
        if last is not None and (word_list("scale_shut") & set(between[:_CLOSED_WITHIN])):
            bare = start not in self.by_start
            # "that's her", and a number of something else
            return len(said) > 1 or (bare and number.value < last.value)
        ended = max((k for k, w in enumerate(between, at) if w in SENTENCE_ENDS), default=at)
        return not word_list("scale_ends").isdisjoint(between) or self._labelled(ended, start)

    def _step(self, number: Number, steps: Sequence[_Step]) -> _Step | None:
        """Return the number as the next reading of the scale; None where it is none."""
        q = self.by_start.get(number.start)
        before = steps[-1].value if steps else None
        unit = next((s.unit for s in reversed(steps) if s.unit), None)
        if q is not None:
            mass = mass_of(q)
            if mass is None or q.value <= 0:
                return None
            value, own = mass
            if before is not None and unit not in (None, own):
                before = convert(before, unit, own)  # "nine hundred grams, one point six kilos"
            if before is not None and not before <= value <= _STEEPEST * before:
                return None
            return _Step(number, value, own, q.end)
        behind = self.words[number.end : number.end + 1]
        if number.form in {"ordinal", "counted"} or (behind and behind[0] in word_list("scale_counts")):
            return None
        options = self._options(number, unit, before)
        if before is None:
            value, reasons = options[0]
            return _Step(number, value, None, number.end, reasons) if value > 0 else None
        whole, ounces = int(before), before % 1 * 16
        pounds = any(r not in (KILOS, HUNDREDS) for r in steps[-1].reasons)
        if pounds and ounces < number.value < 16 and number.value == int(number.value):
            why = OUNCES.format(whole, number.value)  # "eight eleven, twelve": the ounces go on
            return _Step(number, whole + number.value / 16, None, number.end, (why,))
        if unit == "g" and number.value < _KILOS and before <= number.value * 1000 <= _STEEPEST * before:
            # "nine hundred grams, one point six"
            return _Step(number, number.value, "kg", number.end, (KILOS,))
        fitting = [o for o in options if before <= o[0] <= _STEEPEST * max(before, 1.0)]
        if not fitting:
            return None
        value, reasons = min(fitting, key=lambda o: o[0])
        return _Step(number, value, None, number.end, reasons)

    def _options(self, number: Number, unit: str | None, before: float | None) -> list[_Option]:
        """Return what a number without a unit can show, the likeliest first, each with its reasons."""
        if number.form == "clock":  # "200 grams, 400, 6:10"
            return [(int(number.value) * 100.0 + round((number.value % 1) * 60), ())]
        options: list[_Option] = [(number.value, ())]
        whole = number.value == int(number.value) and 2 <= number.value < 10
        if before is not None and before >= 100 and whole and unit in (None, "g"):
            options.append((number.value * 100, (HUNDREDS,)))  # "three hundred... six... eight..."
        options += [(o.values[0], ()) for o in number.alternatives if len(o.values) == 1]
        pair, short = number.form == "pair", number.form == "two_digits" and self.parted
        if unit in (None, "lb") and (pair or short):
            # "two eleven", "six nine": pounds and ounces
            digits, base = (number.value, 100) if pair else (number.value * 10, 10)
            pounds, ounces = divmod(round(digits), base)
            if ounces < 16 and pounds:
                options.append((pounds + ounces / 16, (OUNCES.format(pounds, ounces),)))
        return options

    def _run(self, head: int, steps: Sequence[_Step], direction: str) -> ScaleRun | None:
        """Return the weighing of these readings; None where they are too few or have no unit."""
        rises = sum(a.value != b.value for a, b in pairwise(steps))  # less only where the unit changes
        if rises < 1 or len(steps) < 2:
            return None
        last, first = steps[-1], steps[0].number.start
        closed = self._closed(last) or steps[-2].value == last.value
        said = [s.unit for s in steps if s.unit]
        plate = self._by_the_plate(steps)
        if direction == TO_A_PLATE and (plate is None or self._drawn(head, first)):
            return None
        if rises < 2 and not closed and plate is None and not (said and self._bare(last)):
            return None
        taken = {k for q in self.by_start.values() for k in range(q.start, q.end)}
        headed = headed_by(self.words, head, first, taken)
        said += [headed] if headed is not None and not said else []
        unit = said[-1] if said else plate.unit if plate is not None else None
        if unit is None and direction != TO_A_PLATE:
            unit = unit_alike(self.by_start.values(), last.value, bool(last.reasons))
        if unit is None:
            return None
        reasons = last.reasons if unit == "lb" or {KILOS, HUNDREDS, ADDED} & set(last.reasons) else ()
        proven = bool(last.parts) and plate is not None
        if not said and not proven:
            reasons = (*reasons, f"the unit was not said; {unit} is that of an amount of this size")
        vessel = self.words[head:first]
        lets_in = not word_list("scale_lets_in").isdisjoint(vessel) and not self._drawn(
            head, last.number.start
        )
        if direction == "either" or (direction == "recovered" and lets_in):
            direction, why = way_of(self.words, head, first)
            told = proven and "charged" in self.words[max(0, head - 3) : head]  # "charged by weight"
            reasons = reasons if told else (*reasons, why)
        if word_list("scale_recovers") & set(vessel):
            direction = "recovered"  # "goes in the recovery jug"
        direction = "charged" if direction == TO_A_PLATE else direction
        numbers = {t for s in steps for t in (s.number.start, *s.parts)} | self._said_again(last)
        return ScaleRun(
            direction, head, first, last.number.start, last.end, last.value, unit,
            frozenset(numbers), reasons, proven,
        )  # fmt: skip

    def _said_again(self, last: _Step) -> set[int]:
        """Return where the amount is said once more: "it's stopped, valves closed, so two point three"."""
        return {
            x.start
            for x in self.numbers
            if last.end < x.start <= last.end + _ASIDE
            and x.value == last.number.value
            and x.start not in self.by_start
            and not {"so", "noted", "that's"}.isdisjoint(self.words[x.start - 2 : x.start])
        }

    def _drawn(self, first: int, last: int) -> bool:
        """Tell whether words speak of drawing out."""
        return not word_list("scale_draws_out").isdisjoint(self.words[first:last])

    def _bare(self, last: _Step) -> bool:
        """Tell whether nothing stands beside the last number: "two kilos... three point four."."""
        behind = self.words[last.end : last.end + 1]
        return self.words[last.number.start - 1] in MARKS and (not behind or behind[0] in MARKS)

    def _closed(self, last: _Step) -> bool:
        behind = [w for w in self.words[last.end : last.end + _CLOSED_WITHIN] if w not in MARKS]
        before = self.words[max(0, last.number.start - 2) : last.number.start]
        return (
            bool(word_list("scale_shut") & set(behind[:3]))
            or list(before) == ["call", "it"]
            or behind[:2] == ["it", "is"]
        )


def _apart(a: float, b: float) -> float:
    """Return how many times the greater of two values is the other."""
    return max(a, b) / min(a, b) if min(a, b) > 0 else float("inf")


def numbers_of_scales(narration: Narration) -> frozenset[int]:
    """Return the first tokens of all numbers that a scale was read aloud in."""
    done: frozenset[int] | None = narration.found.get("numbers of scales")
    if done is None:
        done = frozenset(t for run in scale_runs(narration) for t in run.numbers)
        narration.found["numbers of scales"] = done
    return done


__all__ = ["ScaleRun", "numbers_of_scales", "scale_runs", "words_beside"]
