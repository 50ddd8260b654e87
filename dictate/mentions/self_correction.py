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

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import cast

from dictate.mentions.labels import find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase, Phrases
from dictate.mentions.plausible import fits
from dictate.mentions.quantities import tidy
from dictate.mentions.roles import find_correction_cues
from dictate.mentions.taken import LOOSE, Found, Taken
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.visit import Candidate, Reading
from dictate.units import UCUM
from dictate.vocabulary.load import table

_SMALL = word_list("self_correction_small")
_STRONG = word_list("self_correction_strong")


@cache
def _earlier() -> Phrases:
    return Phrases({"earlier": table("cues")["correction"]["earlier"]})


@dataclass(slots=True)
class _Cue:
    start: int
    end: int
    strong: bool


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
        ]
        self.earlier = _earlier().find(narration)
        self.number = 0

    def _cue(self, p: Phrase) -> _Cue:
        text = " ".join(self.words[p.start : p.end]).replace(" 's", "'s")
        return _Cue(p.start, p.end, text in _STRONG)

    def run(self) -> list[Reading]:
        self._later_sentences()
        self._neighbours()
        self._afterwards()
        self._units_and_places()
        self._denials()
        self._that_is_the_plate()
        self._hesitations()
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
            cue = self._between(old, new) or self._actually(old, new)
            if cue is None or not self._same_thing(old, new, cue):
                continue
            self._replace(old, new)

    def _actually(self, old: Taken, new: Taken) -> _Cue | None:
        """Take "ninety-two, actually ninety-four" as put right: nothing else stands between the two."""
        between = self.words[old.end : new.start]
        if "actually" not in between or not set(between) <= word_list("self_correction_actually"):
            return None
        at = old.end + between.index("actually")
        return _Cue(at, at + 1, True)

    def _between(self, old: Taken, new: Taken) -> _Cue | None:
        """Return the cue between two values when the words around it say nothing else."""
        for cue in self.cues:
            if cue.start < old.end or cue.end > new.start:
                continue
            before = self.words[old.end : cue.start]
            after = self.words[cue.end : new.start]
            if len(before) > 12 or len(after) > 14:
                continue
            if "." in before[:-1] and not cue.strong:
                continue
            plain = " ".join(self.words[cue.start : cue.end])
            lonely = not cue.strong
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
            if {".", "?", "!"} & set(after) and len(after) > 6:
                continue
            return cue
        return None

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
            same = found.quantity == old.reading.quantity or found.point == old.reading.point
            if (found.point is not None or found.quantity is not None) and not same:
                return True
        return False

    def _same_thing(self, old: Taken, new: Taken, cue: _Cue) -> bool:
        a, b = old.reading, new.reading
        if old.value.state != "value" or new.value.state != "value":
            return a.quantity == b.quantity
        if a.quantity == b.quantity:
            return not (a.point and b.point and a.point != b.point and new.place_said)
        if (new.movement or old.movement) and new.said_unit and old.said_unit:
            return False
        # "forty psi, I mean twenty inches": another unit of the same words
        if not new.explicit or not new.said_unit:
            return True
        unlike = {a.quantity, b.quantity}
        return (
            unlike <= {"pressure", "vacuum"}
            or unlike <= {"temperature", "superheat", "subcooling", "temperature_difference"}
            or (unlike <= {"voltage", "current", "resistance"} and cue.strong and not new.place_said)
        )

    def _replace(self, old: Taken, new: Taken) -> None:
        a, b = old.reading, new.reading
        role = a.role
        a.role = "retracted"
        # The cue says what the repair is a value of.
        b.review = [r for r in b.review if LOOSE not in r]
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
            b.reference = a.reference
            b.component = b.component if new.place_said and b.component else a.component
            b.point = b.point if new.place_said and b.point else a.point
            b.which = b.which or a.which
            b.derived = a.derived
        else:
            b.component = b.component or a.component
            b.point = b.point or a.point
            b.which = b.which or a.which
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
        noughts = {"nought", "naught", "zero"}
        if self.words[new.value.start] in noughts and 0 < (new.value.value or 0) < 1:
            return  # a number that begins with its nought is said in full
        a, b = old.reading.value, new.reading.value
        number = new.value.numbers[0] if len(new.value.numbers) == 1 else None
        if a is None or b is None or number is None or old.reading.unit != new.reading.unit:
            return
        led = number.form == "digits" and number.text.startswith("0")
        if a < 100 and not led and not (old.value.numbers and old.value.numbers[0].places):
            return
        factor = self._factor(old)
        whole = old.value.value
        said = number.value
        joined: float | None = None
        sure = False
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
            and whole >= 100
            and float(said).is_integer()
            and 1 <= said < 100
            and whole / max(said, 1) >= 2
        ):
            width = len(str(int(said)))
            joined = whole - whole % 10**width + said
        elif not float(whole).is_integer() and 0 < said < 1 and number.places and whole > 1:
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
                or not alone
                or new.value.quantity is None
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

    def _number_near(self, start: int, end: int) -> bool:
        return any(t.start < end and start < t.end for t in self.taken)

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

    def _afterwards(self) -> None:
        """Take "three eighty, three one eight, sorry" as put right: the cue follows the repair."""
        for old, new in pairwise(self.taken):
            if old.reading.role == "retracted" or old.reading.quantity != new.reading.quantity:
                continue
            if self.words[old.end : new.start] not in ([","], ["."], [",", "uh"], [",", "um"]):
                continue
            if any(t is not old and 0 <= old.start - t.end <= 2 for t in self.taken):
                continue  # the third of a list: nothing tells which one is meant
            at = new.end + (self.words[new.end : new.end + 1] == [","])
            said = self.words[at : at + 3]
            cue = said[:1] in (["sorry"], ["rather"]) or said in (
                ["i", "should", "say"],
                ["i", "beg", "your"],
            )
            cue = cue or said[:2] in (["i", "mean"], ["i", "meant"], ["excuse", "me"])
            if not cue or any(
                at < t.start <= at + 5 and t.reading.quantity == new.reading.quantity for t in self.taken
            ):
                continue
            if old.reading.value != new.reading.value:
                self._replace(old, new)

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

    def _later_sentences(self) -> None:
        for phrase in self.earlier:
            after = [t for t in self.taken if phrase.end <= t.start <= phrase.end + 12]
            if not after:
                continue
            first = after[0]
            again = [t for t in self.taken if t.start > first.start and t.start - first.end <= 16]
            repair = next((t for t in again if self._repairs(first, t)), None)
            old = self._said_before(first, phrase.start)
            if repair is None:
                continue
            first.reading.role = "retracted"
            if old is not None:
                old.reading.role = "retracted"
                self._take_over(old, first, repair)
            else:
                self._take_over(first, first, repair)
        self._by_name()

    def _repairs(self, first: Taken, t: Taken) -> bool:
        gap = self.words[first.end : t.start]
        presenting = word_list("self_correction_repairs")
        if not presenting & set(gap):
            return False
        same = t.reading.quantity == first.reading.quantity or not t.said_unit or not first.said_unit
        return same

    def _said_before(self, first: Taken, before: int) -> Taken | None:
        for t in reversed(self.taken):
            if t.end > before or t.reading.role == "retracted":
                continue
            if t.value.value == first.value.value and (
                t.reading.quantity == first.reading.quantity or not first.said_unit
            ):
                return t
        return None

    def _take_over(self, old: Taken, first: Taken, repair: Taken) -> None:
        a, b = old.reading, repair.reading
        if not repair.said_unit:
            b.quantity, b.unit, b.ucum = a.quantity, a.unit, a.ucum
            b.value = tidy(repair.value.value * self._factor(old))
            b.unit_assumed = a.unit_assumed
        if first is not old and not first.said_unit:
            first.reading.quantity, first.reading.unit, first.reading.ucum = a.quantity, a.unit, a.ucum
        for t in (first, repair):
            if t is old:
                continue
            t.movement = t.movement or old.movement
            t.reading.component = t.reading.component if t.place_said and t.reading.component else a.component
            if t.reading.quantity == a.quantity:
                t.reading.point = a.point if a.point else t.reading.point
                t.reading.reference = a.reference
                t.reading.which = t.reading.which or a.which
        if b.role in {"measured", "retracted", "earlier"}:
            b.role = "measured"
        self._link(old, repair)

    def _by_name(self) -> None:
        """Handle "correction on the head pressure, that was 230", "scratch the superheat, it was 12"."""
        leads = [tuple(x.split()) for x in table("cues")["correction"]["by_name"]]
        firsts = {x[0] for x in leads}
        for i, word in enumerate(self.words):
            if word not in firsts:
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
