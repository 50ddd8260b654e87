"""Self-corrections: what the speaker took back, with the value he took back kept as `retracted`.

Shapes that are known:

* restart: "six eight, no wait, seven eight", "208, make that 218", "eighteen, I mean twenty-eight";
* the unit alone: "forty psi, I mean inches", "4.7 ohms, correction, kilohms";
* the place alone: "208 on the line side, sorry, load side";
* the last digits alone: "two oh eight, no, oh seven" is 207; "118, sorry, 19" may be 119 or 19, so both are
  kept;
* a denial: "208, not 280";
* a wrong instrument noticed afterwards: "..., I was reading the wrong ring", with the right value beside it;
* a later sentence: "I said nine ounces before, it was eight", "correction on the head pressure, that was
  230".

The repair takes label, place and unit of what it repairs, unless it brings its own.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import cast

from dictate.mentions.labels import find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase, Phrases
from dictate.mentions.plausible import fits, reason
from dictate.mentions.quantities import tidy
from dictate.mentions.restated import Restated
from dictate.mentions.roles import find_correction_cues
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.taken import DIFFERENCES, LOOSE, Found, Taken
from dictate.mentions.taken_back import (
    Back,
    alike,
    clear_loose,
    find_mistakes,
    same_number,
    words_of_correction,
)
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.values import Value, find_values
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.visit import Candidate, Reading
from dictate.units import UCUM
from dictate.vocabulary.load import table

_SMALL = word_list("self_correction_small")
_STRONG = word_list("self_correction_strong")
_MAKERS = (
    ["i"],
    ["we"],
    ["which"],
    ["would"],
    ["will"],
    ["'ll"],
    ["i'll"],
    ["you"],
    ["to"],
    ["should"],
    ["i'd"],
)
_ENDS = frozenset({".", "?", "!"})


@cache
def _behind() -> Phrases:
    return Phrases({"behind": table("corrections")["behind"]["said"]})


@dataclass(slots=True)
class _Cue:
    start: int
    end: int
    strong: bool
    only_clause: bool = False
    """True for a clause that may tell of a misreading and may tell of something else."""


class _Corrector:
    def __init__(self, narration: Narration, found: Found) -> None:
        self.n = narration
        self.words = narration.lowers
        self.taken = found.readings
        # "correction on the head pressure" names what it corrects: that is for `_by_name`.
        self.cues = [
            self._cue(p)
            for p in find_correction_cues(narration)
            if self.words[p.end : p.end + 1] not in (["on"], ["to"], ["about"], ["for"])
            and not (
                self.words[p.start] in {"scratch", "strike", "correct"}
                and self.words[p.end : p.end + 1] == ["the"]
            )
            # "so I make that seven kelvin across it" reckons, it does not correct
            and not (self.words[p.start] == "make" and self.words[p.start - 1 : p.start][:1] in _MAKERS)
        ]
        self.mistakes = find_mistakes(narration)
        self.cues += [_Cue(m.start, m.end, True, not m.clear) for m in self.mistakes if m.cue]
        self.cues.sort(key=lambda c: (c.start, -c.end))
        self.behind = {p.start: p.end for p in _behind().find(narration)}
        self.loose: list[Value] = []
        self.back = Back(narration, self.taken)

    def _cue(self, p: Phrase) -> _Cue:
        text = " ".join(self.words[p.start : p.end]).replace(" 's", "'s")
        return _Cue(p.start, p.end, text in _STRONG)

    def run(self) -> list[Reading]:
        Restated(self.n, self.back, self._of_number).run()
        self.back.recalls()
        self.back.by_number()
        self._by_name()
        self.taken += self.back.swaps()
        self.taken.sort(key=lambda t: t.start)
        self.back.sets()
        self.cues = [c for c in self.cues if not self.back.handled(c.start, c.end)]
        self._other_side()
        self._adopt()
        self._adopt_before()
        self._neighbours()
        self._units_and_places()
        self._denials()
        self.back.denials()
        self._that_is_the_plate()
        self._hesitations()
        self.back.differences()
        self.taken.sort(key=lambda t: t.start)
        return [t.reading for t in self.taken if not t.movement]

    # -- value, cue, value

    def _neighbours(self) -> None:
        for i in range(len(self.taken) - 1):
            old = self.taken[i]
            j = i + 1
            while j < len(self.taken) and self.taken[j].start < old.end:
                j += 1
            if j >= len(self.taken):
                continue
            new = self.taken[j]
            if old.reading.role == "retracted" and new.reading.retracts == old.reading.heard:
                continue
            cue = self._between(old, new) or self._actually(old, new) or self._said_behind(old, new, j)
            if cue is None:
                cue = self._correction_between(old, new)
                if cue is None or self._same_place(i, old, new, cue) is old:
                    continue
            old = self._better(self._same_place(i, old, new, cue), new)
            if not self._same_thing(old, new, cue):
                continue
            if self._said_again(old, new):
                # "18.6, oh wait, that's the fan column, no, it's right, 18.6"
                if new.reading.role in {"rated", "target"} and old.reading.role == "measured":
                    old.reading.role = new.reading.role  # "superheat 10, no, 10 is the target"
                elif old.reading.role in {"rated", "target"} or not new.place_said:
                    new.reading.role = old.reading.role
                    new.reading.component = old.reading.component
                continue
            self._replace(old, new, cue)

    def _actually(self, old: Taken, new: Taken) -> _Cue | None:
        """Take "ninety-two, actually ninety-four" as put right: nothing else stands between the two."""
        between = self.words[old.end : new.start]
        if "actually" not in between or not set(between) <= word_list("self_correction_actually"):
            return None
        at = old.end + between.index("actually")
        return _Cue(at, at + 1, True)

    def _correction_between(self, old: Taken, new: Taken) -> _Cue | None:
        """Return the cue of "Correction, suction 58." behind values of other things."""
        if not new.label_here:
            return None
        for cue in self.cues:
            if old.end <= cue.start and cue.end <= new.start and cue.strong and not cue.only_clause:
                head = self.n.sentences[self.back.sentence_at[cue.start]][0]
                opens = set(self.words[head : cue.start]) <= {"ah", "oh", "uh", "um", "er", ",", "and"}
                far = 14 if new.reading.point and new.reading.point == old.reading.point else 6
                near = opens and head >= old.end and head - old.end <= far and new.start - cue.end <= 5
                return cue if near and not _ENDS & set(self.words[cue.end + 1 : new.start]) else None
        return None

    def _same_place(self, i: int, old: Taken, new: Taken, cue: _Cue) -> Taken:
        """Return the value that "Correction. Common to start, fifty two." is of: it names its place anew."""
        if not ((new.place_said or new.label_here) and new.reading.point):
            return old
        if new.reading.point == old.reading.point:
            return old
        if not self._opens_sentence(cue) or self._misled(old, new):
            return old
        for t in reversed(self.taken[max(0, i - 8) : i]):
            if alike(t, new) and t.reading.point == new.reading.point and t.reading.role == "measured":
                return t
        return old

    def _better(self, old: Taken, new: Taken) -> Taken:
        """Return what a bare repair puts right: "32,650 at 32 degrees, no, 9,795" is not of the degrees."""
        i = self.taken.index(old)
        before = self.taken[i - 1] if i else None
        if old.reading.role in {"target", "rated"} and before is not None and self._misread(new):
            # "it's at eighteen, needs to be ten. Make that twenty, I read the wrong line"
            like = (
                alike(before, old) and before.reading.role == "measured" and before.sentence == old.sentence
            )
            return before if like else old
        if (
            new.said_unit
            or before is None
            or before.sentence != old.sentence
            or before.reading.role == "retracted"
        ):
            return old
        if before.reading.quantity == old.reading.quantity or fits(
            old.reading.quantity, old.reading.point, new.value.value, old.reading.unit
        ):
            return old
        near = before.value.value and 0.1 <= new.value.value / before.value.value <= 10
        possible = fits(before.reading.quantity, before.reading.point, new.value.value, before.reading.unit)
        return before if near and possible else old

    def _misread(self, new: Taken) -> bool:
        """Tell whether a reading is said to have been taken wrongly right behind a repair."""
        after = [m for m in self.mistakes if new.end <= m.start <= new.end + 10]
        return any(
            {"i", "wrong", "misread"} & set(self.words[max(new.end, m.start - 4) : m.end]) for m in after
        )

    def _said_again(self, old: Taken, new: Taken) -> bool:
        """Tell whether the second value is the first one once more, and nothing is put right."""
        a, b = old.reading, new.reading
        same = a.value == b.value and a.unit == b.unit and a.state == b.state
        return same and (a.point == b.point or not new.place_said)

    def _said_behind(self, old: Taken, new: Taken, j: int) -> _Cue | None:
        """Return the cue behind the repair: "six point five, nought point six five I should say"."""
        gap = self.words[old.end : new.start]
        if len(gap) > 10 or not set(gap) <= _SMALL | {","} or self._something_new(old.end, new, old):
            return None
        if any(t is not old and 0 <= old.start - t.end <= 2 for t in self.taken[max(0, j - 3) : j]):
            return None  # the third of a list: nothing tells which one is meant
        at = new.end + (self.words[new.end : new.end + 1] == [","])
        if at in self.behind:
            return _Cue(at, self.behind[at], True)
        if at == new.end or self.words[at : at + 1] not in (["sorry"], ["rather"], ["correction"]):
            return None
        # "three eighty, three one eight, sorry, supply ninety four": the next value has a name of its own
        if self.words[at + 1 : at + 2] not in ([","], ["."], []):
            return None
        nxt = self.taken[j + 1] if j + 1 < len(self.taken) else None
        if nxt is not None and nxt.start - at < 6 and not (nxt.label_here or _ENDS & {self.words[at + 1]}):
            return None
        return _Cue(at, at + 1, True) if gap == [","] and new.value.bare else None

    def _another(self, old: Taken, cue: _Cue, new: Taken) -> bool:
        """Tell whether a number nearer to the cue is put right: "18.6, the third 19, make that 19.4"."""
        return any(
            old.end <= x.start
            and x.end <= cue.start <= x.end + 3
            and not x.pronoun
            and x.form != "ordinal"
            and x.value >= 10
            and 0.8 <= x.value / (new.value.value or 1.0) <= 1.25
            for x in find_numbers(self.n)
        )

    def _unheard(self, start: int, end: int) -> bool:
        """Tell whether a value that was not taken for one stands between two tokens."""
        at = bisect_left(self.loose, start, key=lambda v: v.start)
        return at < len(self.loose) and self.loose[at].end <= end

    def _adopt(self) -> None:
        """Take the number behind a cue for the repair that it is, where nothing else made it a value."""
        self.loose = self._loose()
        for cue in self.cues:
            if cue.only_clause:
                continue
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if old is None or cue.start - old.end > 12 or old.reading.role == "retracted":
                continue
            if not cue.strong and self.words[old.end : cue.start] != [","]:
                continue
            if self._unheard(old.end, cue.start):
                continue
            at = bisect_left(self.loose, cue.end, key=lambda v: v.start)
            new = self.loose[at] if at < len(self.loose) else None
            if (
                new is None
                or new.start - cue.end > 14
                or any(cue.end <= t.start < new.start for t in self.taken)
            ):
                continue
            if _ENDS & set(self.words[old.end : cue.start]) and not self._opens_sentence(cue):
                continue
            if not self._repair_words(cue.end, new.start) or not self._stands_alone(new):
                continue
            made = self._made(old, new)
            if made is not None:
                self.loose.remove(new)
                self.taken.append(made)
                self.taken.sort(key=lambda t: t.start)

    def _other_side(self) -> None:
        """Handle "draws 6.1, no, sorry, that's the right, left is 5.8, right is 6.1"."""
        sides = word_list("self_correction_sides")
        for cue in self.cues:
            at = cue.end + (self.words[cue.end : cue.end + 1] == [","])
            if self.words[at : at + 3] not in (["that", "'s", "the"], ["that", "was", "the"]):
                continue
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if old is None or cue.start - old.end > 2 or not sides & set(self.words[at + 3 : at + 5]):
                continue
            again = next(
                (
                    t
                    for t in self.taken
                    if at < t.start <= at + 30
                    and same_number(t, old)
                    and t.reading.quantity == old.reading.quantity
                ),
                None,
            )
            if again is not None:
                old.reading.role = "retracted"
                self._link(old, again)
                clear_loose(again)

    def _adopt_before(self) -> None:
        """Take the number in front of a cue for what was taken back: "two thirteen, no, fourteen volts"."""
        for cue in self.cues:
            if cue.only_clause or self.words[cue.start - 1 : cue.start] not in ([","], ["."]):
                continue
            if not cue.strong and self.words[cue.end : cue.end + 1] != [","]:
                continue
            new = next((t for t in self.taken if t.start >= cue.end), None)
            if new is None or not set(self.words[cue.end : new.start]) <= _SMALL | {","}:
                continue
            at = bisect_left(self.loose, cue.start - 1, key=lambda v: v.end)
            old = self.loose[at] if at < len(self.loose) else None
            if old is None or old.end != cue.start - 1 or old.quantity is not None or new.movement:
                continue
            if any(t.start < cue.start and t.end > old.start for t in self.taken):
                continue
            made = self._made(new, old)
            if made is not None and made.reading.value != new.reading.value:
                self.loose.remove(old)
                self.taken.append(made)
                self.taken.sort(key=lambda t: t.start)

    def _loose(self) -> list[Value]:
        covered = {k for t in self.taken for k in range(t.start, t.end)}
        return [
            v
            for v in find_values(self.n)
            if v.state == "value"
            and not v.clock
            and not v.marking
            and v.numbers
            and not v.numbers[0].pronoun
            and covered.isdisjoint(range(v.start, v.end))
        ]

    def _repair_words(self, start: int, end: int) -> bool:
        """Tell whether the words lead to a repair only: small ones, or a clause of how it was misread."""
        spoken = [k for k in range(start, end) if not any(m.start <= k < m.end for m in self.mistakes)]
        words = {self.words[k] for k in spoken}
        return words <= _SMALL | _ENDS or (
            end - start <= 12 and self.words[end - 1] == "," and not _ENDS & words
        )

    def _stands_alone(self, v: Value) -> bool:
        """Tell whether the number counts nothing: it ends its clause, or a unit was said."""
        return v.quantity is not None or self.words[v.end : v.end + 1] in ([","], ["."], [], ["and"], ["?"])

    def _of_number(self, old: Taken, x: Number) -> Taken | None:
        """Make a value out of a number that puts another one right, after that one."""
        made = self._made(old, Value(x.start, x.end, x.value, (x,)))
        if made is not None and (phrase := unit_phrases(self.n).get(x.end)) is not None:
            made.end = phrase.end
            made.reading.heard = self.n.heard(x.start, phrase.end)
            made.reading.at = self.n.at(x.start, phrase.end)
        return made

    def _made(self, old: Taken, v: Value) -> Taken | None:
        a = old.reading
        unit, quantity, value = a.unit, a.quantity, v.value
        if v.quantity is not None:
            means = dict(v.quantity.means)
            said = v.quantity.word
            named = self._meaning(said, means, old) if means else None
            if named is None and said == "degree":
                named = a.unit if a.quantity in {"temperature", *DIFFERENCES} else None
            found = _quantity_of(named, old) if named is not None else None
            if named is None or found is None:
                return None
            like = {found, a.quantity}
            if len(like) > 1 and not like <= {"pressure", "vacuum"} and old.said_unit:
                return None
            unit, quantity, value = named, found, tidy(v.value * means.get(named, 1.0))  # type: ignore[assignment]
        elif not 0.05 <= (abs(v.value) or 1.0) / (abs(old.value.value) or 1.0) <= 20:
            return None
        reading = a.model_copy(
            deep=True,
            update={
                "quantity": quantity, "unit": unit, "ucum": UCUM.get(unit), "value": value, "review": [],
                "candidates": [], "confidence": 1.0 if not a.review else a.confidence,
                "at": self.n.at(v.start, v.end), "heard": self.n.heard(v.start, v.end),
                "unit_assumed": v.quantity is None and not old.said_unit,
            },
        )  # fmt: skip
        if quantity != a.quantity or unit != a.unit:
            reading.reference = (
                None if quantity != "pressure" else ("vacuum_depth" if unit == "inHg" else "gauge")
            )
        why = reason(quantity, reading.point, value, unit)
        if why is not None:
            reading.review.append(why)
            reading.confidence = 0.5
        said_unit = v.quantity is not None
        return Taken(
            reading,
            v,
            v.start,
            v.end,
            old.sentence,
            old.label,
            said_unit,
            said_unit,
            False,
            movement=old.movement,
        )

    def _between(self, old: Taken, new: Taken) -> _Cue | None:
        """Return the cue between two values when the words around it say nothing else."""
        for cue in self.cues:
            if cue.start < old.end or cue.end > new.start:
                continue
            before = self.words[old.end : cue.start]
            after = self.words[cue.end : new.start]
            if len(before) > 12 or len(after) > 14 or self._unheard(old.end, cue.start):
                continue
            if cue.only_clause and not self._told_between(old, new, cue):
                continue
            if self._another(old, cue, new):
                continue
            if "." in before[:-1] and not cue.strong:
                continue
            plain = " ".join(self.words[cue.start : cue.end])
            # "three point one amps, no, that's the label, it's pulling two point four"
            parted = before == [","] and after[:1] == [","] and plain in {"no", "nope"}
            alone = before == ["."] and after[:1] in ([","], ["."]) and plain in {"no", "nope"}
            parted = parted or (alone and self._repair_words(cue.end, new.start))
            lonely = not cue.strong and not (parted and self._one_thing(old, new))
            if lonely:
                # "no leaks", "wrong part": a lone word corrects only between commas or before the repair
                parted = after[:1] == [","] or self.words[cue.start - 1] in {",", "-", "uh", "um", "oh"}
                named = after[:1] and after[0] in word_list("self_correction_between")
                if plain in {"no", "nope"} and not (parted or named):
                    continue  # "no 24 volts at the terminal" denies, it does not correct
                if not set(after) <= _SMALL or len(before) > 4:
                    continue
                if plain in {"wrong", "rather", "more like", "er"} and len(before) > 2:
                    continue
            if self._something_new(cue.end, new, old):
                continue
            if {".", "?", "!"} & set(before) and not self._opens_sentence(cue):
                continue
            told = [k for m in self.mistakes for k in range(max(m.start, cue.end), min(m.end, new.start))]
            lead = after[max((k for k, w in enumerate(after) if w in _ENDS), default=-1) + 1 :]
            leads = set(lead) <= _SMALL | word_list("self_correction_lead")
            if _ENDS & set(after) and len(after) - len(told) > 6 and not leads:
                continue
            return cue
        return None

    def _one_thing(self, old: Taken, new: Taken) -> bool:
        """Tell whether two values are of one quantity and neither words nor places set them apart."""
        like = alike(old, new) or not new.said_unit or self._brings_unit(old, new)
        return new.reading.role in {"measured", old.reading.role} and like

    def _brings_unit(self, old: Taken, new: Taken) -> bool:
        """Tell whether the repair says the unit of a number that had none: "in 88, no, 78 minutes"."""
        if old.said_unit or old.label_here or not new.said_unit or not old.value.bare or not old.value.value:
            return False
        return 0.5 <= new.value.value / old.value.value <= 2

    def _told_between(self, old: Taken, new: Taken, cue: _Cue) -> bool:
        """Tell whether only a clause that may tell of a misreading stands between two values of a thing."""
        if not self._one_thing(old, new) or old.reading.role == "retracted" or self._said_again(old, new):
            return False
        small = _SMALL | {",", "then"} | _ENDS | frozenset(table("corrections")["mistake"]["fillers"])
        near = set(self.words[old.end : cue.start]) <= small
        lead = set(self.words[cue.end : new.start]) <= small
        return near and lead

    def _opens_sentence(self, cue: _Cue) -> bool:
        return cue.start == 0 or self.words[cue.start - 1] in word_list("self_correction_opens_sentence")

    def _something_new(self, start: int, new: Taken, old: Taken) -> bool:
        """Tell whether the words before the repair name something else than the old value was of."""
        for label in find_labels(self.n):
            found = label.label
            if (
                not start <= label.start < new.start
                or found.mode is not None
                or found.weak
                or found is old.label
            ):
                continue
            if any(m.start <= label.start < m.end for m in self.mistakes):
                continue  # "that's the liquid line I'm hooked to" names what was read by mistake
            same = found.quantity == old.reading.quantity or found.point == old.reading.point
            if (found.point is not None or found.quantity is not None) and not same:
                return True
        return False

    def _same_thing(self, old: Taken, new: Taken, cue: _Cue) -> bool:
        a, b = old.reading, new.reading
        if old.value.state != "value" or new.value.state != "value":
            apart = a.point and b.point and a.point != b.point and new.place_said
            return a.quantity == b.quantity and not apart
        if a.quantity == b.quantity:
            apart = a.point and b.point and a.point != b.point and new.place_said
            return not apart or self._misled(old, new)
        if (new.movement or old.movement) and new.said_unit and old.said_unit:
            return False
        # "forty psi, I mean twenty inches": another unit of the same words
        if not new.explicit or not new.said_unit or self._brings_unit(old, new):
            return True
        if "k" in {old.value.word, new.value.word} and {a.quantity, b.quantity} <= {
            "resistance",
            *DIFFERENCES,
        }:
            return True  # "three point six K, rubbish, three point six ohms": kilohms
        unlike = {a.quantity, b.quantity}
        return (
            unlike <= {"pressure", "vacuum"}
            or unlike <= {"temperature", "superheat", "subcooling", "temperature_difference"}
            or (unlike <= {"voltage", "current", "resistance"} and cue.strong and not new.place_said)
        )

    def _misled(self, old: Taken, new: Taken) -> bool:
        """Tell whether a place that stands between two values is what was read by mistake."""
        return any(old.end <= m.start < new.start for m in self.mistakes)

    def _replace(self, old: Taken, new: Taken, cue: _Cue | None = None) -> None:
        a, b = old.reading, new.reading
        role = a.role
        if old.value.word == "k" and b.quantity == "resistance" and a.quantity in DIFFERENCES:
            a.quantity, a.unit, a.ucum = "resistance", "ohm", UCUM["ohm"]
            a.value = tidy(old.value.value * 1000)
        elif not old.said_unit and new.said_unit and a.quantity != b.quantity:
            self._unit_of_list(old, new)
        # Places named in the words of the mistake ("on the wrong line") are not the repair's.
        misled = cue is not None and self._misled(old, new)
        if misled and b.quantity == a.quantity:
            new.place_said = new.place_said and a.component is None and a.point is None
        a.role = "retracted"
        # The cue says what the repair is a value of.
        own = words_of_correction(self.n, new.start, new.end)
        b.review = [
            r
            for r in b.review
            if LOOSE not in r and not (r.startswith("'") and r[1:].split("'")[0].lower() in own)
        ]
        if not b.review:
            b.confidence = max(b.confidence, min(a.confidence, 1.0))
        if not new.said_unit or b.quantity == a.quantity:
            inherits = not new.said_unit and b.quantity != a.quantity
            if not new.said_unit:
                if inherits or b.unit != a.unit:
                    b.value = new.value.value if b.value is not None else None
                b.quantity, b.unit, b.ucum = a.quantity, a.unit, a.ucum
                if old.said_unit:
                    b.unit_assumed = False
                factor = self._factor(old)
                if b.value is not None and factor != 1.0 and inherits:
                    b.value = tidy(new.value.value * factor)
            b.reference = b.reference if b.unit == "inHg" != a.unit else a.reference
            placed = new.place_said and not misled
            b.component = b.component if placed and b.component else a.component
            b.point = b.point if placed and b.point else a.point
            b.which = b.which or a.which
            b.derived = a.derived
        else:
            b.component = b.component or a.component
            b.point = b.point or a.point
            b.which = b.which or a.which
        lead = self.words[(cue.end if cue is not None else old.end) : new.start]
        read = bool(word_list("self_correction_measures") & set(lead)) or ("i" in lead and "read" in lead)
        if role == "rated" and read and b.role in {"measured", "rated"}:
            a.role, role = "rated", "measured"  # "the plate says 12, that's not right, I read 14"
        b.role = role if role != "retracted" else "measured"
        number = new.value.numbers[0] if new.value.numbers else None
        if b.quantity == "duration" and not new.said_unit and number is not None and number.form == "pair":
            minutes, seconds = divmod(number.value, 100)
            if seconds < 60:
                b.value, b.unit, b.ucum = tidy(minutes + seconds / 60), "min", UCUM["min"]
        if new.movement != old.movement:
            new.movement = old.movement
        self._digits(old, new)
        self._link(old, new)
        new.label = new.label or old.label

    def _unit_of_list(self, old: Taken, new: Taken) -> None:
        """Give the unit of "9.8, 9.9 and 9.6, sorry, 9.7 amps" to the whole list that has none."""
        b = new.reading
        row = [old]
        for t in reversed(self.taken[: self.taken.index(old)]):
            gap = self.words[t.end : row[-1].start]
            if t.said_unit or not gap or not set(gap) <= {",", "and"} or t.label_here:
                break
            row.append(t)
        if old.label_here or row[-1].label_here:
            return
        for t in row:
            a = t.reading
            a.quantity, a.unit, a.ucum = b.quantity, b.unit, b.ucum
            a.value, a.reference, a.point = tidy(t.value.value), None, None
            a.component, a.unit_assumed = b.component, False
            clear_loose(t)

    def _factor(self, taken: Taken) -> float:
        q = taken.value.quantity
        if q is None:
            return 1.0
        return next((f for u, f in q.means if u == taken.reading.unit), 1.0)

    def _link(self, old: Taken, new: Taken) -> None:
        # Ids come later; until then the words say which value was meant.
        new.reading.retracts = old.reading.heard or None

    def _digits(self, old: Taken, new: Taken) -> None:
        """Put back digits that the speaker did not repeat: "two oh eight, no, oh seven" is 207."""
        a, b = old.reading.value, new.reading.value
        number = new.value.numbers[0] if len(new.value.numbers) == 1 else None
        if a is None or b is None or number is None or old.reading.unit != new.reading.unit:
            return
        led = number.form == "digits" and number.text.startswith("0")
        factor = self._factor(old)
        whole = old.value.value
        said = number.value
        unit_digit = 20 < whole < 100 and whole % 10 and 1 <= said <= 9 and float(said).is_integer()
        unit_digit = unit_digit and float(whole).is_integer() and not new.said_unit
        if a < 100 and not led and not (old.value.numbers and old.value.numbers[0].places) and not unit_digit:
            return
        joined: float | None = None
        sure = False
        if f"{whole:g}".replace(".", "").strip("0") == f"{said:g}".replace(".", "").strip("0") and not led:
            return  # the same digits: the point was put right, "600, wrong scale, 6 ohms"
        if (
            number.form == "digits"
            and number.text.startswith("0")
            and whole >= 100
            and float(whole).is_integer()
        ):
            width = len(number.text)
            joined, sure = whole - whole % 10**width + said, True
        elif (
            float(whole).is_integer()
            and (whole >= 100 or unit_digit)
            and float(said).is_integer()
            and 1 <= said < 100
            and whole / max(said, 1) >= 2
        ):
            width = len(str(int(said)))
            joined = whole - whole % 10**width + said
        elif not float(whole).is_integer() and 0 < said < 1 and number.places and whole > 1:
            # "nought point six five" was said whole
            if self.words[number.start] in {"nought", "naught", "zero", "oh", "o"}:
                return
            joined = float(int(whole)) + said
        if joined is None or joined == said:
            return
        joined = tidy(joined * factor)
        other = new.reading.value
        if sure:
            new.reading.value = joined
            return
        why = f"only the last digits may have been said again: {joined:g} or {other:g}"
        alone = fits(new.reading.quantity, new.reading.point, other or 0.0, new.reading.unit)
        close = (
            other is not None
            and a is not None
            and (
                new.reading.quantity in {"voltage", "vacuum", "resistance", "speed"}
                or (0 < said < 1 and whole / said >= 3)
                or not alone
                or (new.value.quantity is None and not (unit_digit and new.reading.quantity in DIFFERENCES))
            )
        )
        if close:
            new.reading.value, other = joined, other
        else:
            other = joined
        new.reading.review.append(why)
        new.reading.confidence = min(new.reading.confidence, 0.5)
        new.reading.candidates.append(
            Candidate(value=other, unit=new.reading.unit, heard=new.reading.heard, why=why)
        )

    # -- a unit or a place alone

    def _units_and_places(self) -> None:
        self._units_at_head()
        for cue in self.cues:
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if (
                old is None
                or cue.start - old.end > 8
                or ({".", "?"} & set(self.words[old.end : cue.start]) and not cue.strong)
            ):
                continue
            if old.reading.role == "retracted":
                continue
            self._unit_alone(cue, old) or self._place_alone(cue, old)

    def _units_at_head(self) -> None:
        """Handle "a hundred and nine bar. Psi, that was the outer ring.": a unit alone opens a sentence."""
        for old in list(self.taken):
            if self.words[old.end : old.end + 1] not in (["."], [","]) or not old.said_unit:
                continue
            at = old.end + 1
            while self.words[at : at + 1] and self.words[at] in word_list("self_correction_unit_lead"):
                at += 1
            phrase = unit_phrases(self.n).get(at)
            if phrase is None or old.reading.role == "retracted":
                continue
            ends = self.words[phrase.end : phrase.end + 1]
            told = ends in (["rather"], ["sorry"], ["correction"]) or self.words[
                phrase.end : phrase.end + 2
            ] in (["i", "mean"], ["i", "meant"], ["i", "should"])
            if ends not in ([","], ["."], [], ["not"]) and not told:
                continue
            if at == old.end + 1 and ends == [","] and self.words[old.end] == ",":
                continue  # a list of units is none of these
            cue = _Cue(old.end, at, True)
            self._unit_alone(cue, old)

    def _unit_alone(self, cue: _Cue, old: Taken) -> bool:
        i = cue.end
        while (
            i < len(self.words)
            and i - cue.end < 6
            and (self.words[i] in _SMALL - {"."} or self.words[i] in {"not", "in"})
        ):
            i += 1
        phrase = unit_phrases(self.n).get(i)
        if phrase is None or (old.value.quantity is None and not old.reading.unit):
            return False
        if any(
            t.start <= i < t.end or (t.start == phrase.end and not t.said_unit)
            for t in self.taken
            if t is not old
        ):
            return False
        if phrase.end - phrase.start == 1 and len(self.words[i]) == 1:
            return False
        if i and self.words[i - 1] == "not":
            return False
        unit = unit_words()[phrase.key]
        if unit.kind != "reading" or not unit.means:
            return False
        word = old.value.word
        if word == phrase.key:
            return False
        means = dict(unit.means)
        record_unit = self._meaning(unit.id, means, old)
        if record_unit is None:
            return False
        quantity = _quantity_of(record_unit, old)
        if quantity is None:
            return False
        new = old.reading.model_copy(
            deep=True,
            update={
                "quantity": quantity, "unit": record_unit, "ucum": UCUM.get(record_unit),
                "value": tidy(old.value.value * means.get(record_unit, 1.0)), "unit_assumed": False,
                "at": self.n.at(old.value.start, phrase.end),
                "heard": self.n.heard(old.value.start, phrase.end),
                "retracts": old.reading.heard,
            },
        )  # fmt: skip
        # What was wrong with the number in the other unit is not wrong any more.
        why = reason(quantity, new.point, new.value, record_unit) if new.value is not None else None
        new.review = [r for r in new.review if "outside of" not in r] + ([why] if why else [])
        if not new.review:
            new.confidence = max(new.confidence, 0.9)
        new.reference = (
            ("vacuum_depth" if record_unit == "inHg" else old.reading.reference or "gauge")
            if quantity == "pressure"
            else None
        )
        if new.reference == "vacuum_depth" and record_unit != "inHg":
            new.reference = "gauge"
        old.reading.role = "retracted"
        self.taken.append(
            Taken(
                new,
                old.value,
                phrase.start,
                phrase.end,
                old.sentence,
                old.label,
                True,
                True,
                False,
                movement=old.movement,
            )
        )
        self.taken.sort(key=lambda t: t.start)
        return True

    def _meaning(self, word: str, means: dict[str, float], old: Taken) -> str | None:
        if word == "inch":
            return "inHg" if old.reading.quantity in {"pressure", "vacuum"} else "in"
        if word == "pound":
            return "psi" if old.reading.quantity in {"pressure", "vacuum"} else "lb"
        if word == "k":
            return "ohm" if old.reading.quantity == "resistance" else "delta_degC"
        if word in {"mike", "micro"}:
            return "micron" if old.reading.quantity in {"vacuum", "pressure"} else "uF"
        if word in {"fahrenheit", "celsius"}:
            base = "degF" if word == "fahrenheit" else "degC"
            return (
                "delta_" + base
                if old.reading.quantity in {"superheat", "subcooling", "temperature_difference"}
                else base
            )
        if word == "degree":
            return None
        return next(iter(means))

    def _place_alone(self, cue: _Cue, old: Taken) -> bool:
        """Move a value to the place that was meant: "208 on the line side, sorry, load side"."""
        i = cue.end
        while i < len(self.words) and i - cue.end < 5 and self.words[i] in _SMALL - {"."}:
            i += 1
        point = next(
            (p for p in find_points(self.n) if p.start == i and old.reading.quantity in p.only), None
        )
        name = point.name if point else None
        end = point.end if point else 0
        if point is None:
            label = next(
                (
                    x
                    for x in find_labels(self.n)
                    if x.start == i and x.label.point and x.label.fits(old.reading.quantity)
                ),
                None,
            )
            if label is None:
                return False
            name, end = label.label.point, label.end
        if name is None or name == old.reading.point or old.reading.point is None:
            return False
        # "385, vapor side, no sorry, suction, 76": the next label is put right, not the value.
        if any(
            old.end <= x.start < cue.start and x.label.point and x.label.fits(old.reading.quantity)
            for x in find_labels(self.n)
        ):
            return False
        # What follows must not be a value of its own.
        nxt = next((t for t in self.taken if t.start >= end), None)
        if nxt is not None and nxt.start - end <= 4 and not {".", ","} & set(self.words[end : nxt.start]):
            return False
        new = old.reading.model_copy(
            deep=True,
            update={
                "point": name,
                "retracts": old.reading.heard,
                "at": self.n.at(old.value.start, end),
                "heard": self.n.heard(old.value.start, end),
            },
        )
        old.reading.role = "retracted"
        self.taken.append(
            Taken(
                new,
                old.value,
                i,
                end,
                old.sentence,
                old.label,
                old.said_unit,
                True,
                True,
                movement=old.movement,
            )
        )
        self.taken.sort(key=lambda t: t.start)
        return True

    # -- denials

    def _denials(self) -> None:
        """Take "208, not 280" and "not 280, 208" for what they are."""
        for i, t in enumerate(self.taken):
            before = self.words[max(0, t.start - 2) : t.start]
            if not before or before[-1] != "not" or t.reading.role != "measured":
                continue
            near = [
                o for o in (self.taken[i - 1 : i] + self.taken[i + 1 : i + 2]) if o.sentence == t.sentence
            ]
            if any(
                o.reading.quantity == t.reading.quantity
                and min(abs(o.start - t.end), abs(t.start - o.end)) <= 4
                for o in near
            ):
                t.reading.role = "retracted"

    def _that_is_the_plate(self) -> None:
        """Take "three point one amps, no, that's the label" as what the label says, not as measured."""
        kinds = dict.fromkeys(("label", "plate", "nameplate", "rating", "tag", "sticker"), "rated")
        kinds |= dict.fromkeys(("setting", "setpoint", "target", "spec"), "target")
        for taken in self.taken:
            after = [
                w for w in self.words[taken.end : taken.end + 8] if w not in {",", "no", "wait", "sorry"}
            ]
            if after[:1] == ["that's"]:
                after = ["that", "'s", *after[1:]]
            if after[:1] == ["that"] and after[1:2] in (["'s"], ["is"], ["was"]) and after[2:3] == ["the"]:
                kind = kinds.get(after[3]) if len(after) > 3 else None
                ends = len(after) < 5 or after[4] in {".", "it", "i", "but", "mine", "she", "actual", "and"}
                if kind is not None and ends and taken.reading.role in {"measured", "retracted"}:
                    taken.reading.role = cast("record.Role", kind)

    def _hesitations(self) -> None:
        """Take "at five, uh, four cubic feet" as put right, with a reason to look: it may be a list."""
        for i in range(len(self.taken) - 1):
            old, new = self.taken[i], self.taken[i + 1]
            between = self.words[old.end : new.start]
            a, b = old.value.value, new.value.value
            broken = len(between) >= 2 and set(between) <= {".", "…", "-", "uh", "um"}
            if broken and a and a % 10 == 0 and a <= b < a + 10 and not new.value.range and new.value.bare:
                self._replace(old, new)  # "suction twenty... twenty six"
                continue
            if not {"uh", "um", "er"} & set(between) or not set(between) <= {"uh", "um", "er", ","}:
                continue
            same = (
                old.reading.quantity == new.reading.quantity
                and old.reading.role == new.reading.role == "measured"
            )
            around = [t for t in self.taken if t is not old and t is not new and t.sentence == old.sentence]
            listed = any(0 <= t.start - new.end <= 2 or 0 <= old.start - t.end <= 2 for t in around)
            if same and not listed and not new.value.range and old.reading.value != new.reading.value:
                old.reading.role = "retracted"
                new.reading.review.append(
                    "two values were said one after the other, and nothing says that one was taken back"
                )
                new.reading.confidence = min(new.reading.confidence, 0.5)
                self._link(old, new)

    # -- a later sentence

    def _by_name(self) -> None:
        """Handle "correction on the head pressure, that was 230", "scratch the superheat, it was 12"."""
        leads = [tuple(x.split()) for x in table("cues")["correction"]["by_name"]]
        firsts = {x[0] for x in leads}
        for i, word in enumerate(self.words):
            if word not in firsts or self.back.handled(i, i + 2):
                continue
            lead = next((x for x in leads if tuple(self.words[i : i + len(x)]) == x), None)
            if lead is None or (
                lead in {("change", "the"), ("had", "the"), ("back", "to", "the")}
                and "wrong" not in self.words[i : i + 8]
            ):
                continue
            label = next((x for x in find_labels(self.n) if i < x.start <= i + 6), None)
            if label is None:
                continue
            new = next((t for t in self.taken if label.end <= t.start <= label.end + 10), None)
            if new is None:
                continue
            for t in reversed(self.taken):
                same = t.reading.quantity == new.reading.quantity and t.reading.point == new.reading.point
                if t.end <= i and same and t.reading.role == "measured":
                    t.reading.role = "retracted"
                    new.reading.role = "measured"
                    self._link(t, new)
                    break


def _quantity_of(unit: str, old: Taken) -> str | None:
    if unit in {"delta_degF", "delta_degC"}:
        return (
            old.reading.quantity
            if old.reading.quantity in {"superheat", "subcooling", "temperature_difference"}
            else "temperature_difference"
        )
    table_ = {
        "V": "voltage", "A": "current", "ohm": "resistance", "uF": "capacitance", "W": "power",
        "Hz": "frequency",
        "psi": "pressure", "kPa": "pressure", "bar": "pressure", "inHg": "pressure", "micron": "vacuum",
        "degF": "temperature",
        "degC": "temperature", "lb": "mass", "oz": "mass", "g": "mass", "kg": "mass", "s": "duration",
        "min": "duration",
        "h": "duration", "%": "concentration", "rpm": "speed", "mbar": "vacuum", "Pa": "vacuum",
    }  # fmt: skip
    return table_.get(unit)


def correct(narration: Narration, found: Found) -> list[Reading]:
    """Return the readings in the order of the words, corrections applied, what was taken back marked."""
    return _Corrector(narration, found).run()


__all__: Sequence[str] = ("correct",)
