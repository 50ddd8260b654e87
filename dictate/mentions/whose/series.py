"""One sentence: its values, labels and components, and which values make one list.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import find_labels
from dictate.mentions.quantities import FILLERS
from dictate.mentions.values import Value
from dictate.mentions.whose.climates import climate_kinds
from dictate.mentions.whose.ohms_before_meg import MAY_BE_OHMS, MEG, own_row
from dictate.mentions.whose.rows_of_kinds import row_before
from dictate.mentions.whose.subject import Subject
from dictate.mentions.whose.taken import DIFFERENCES, POSSIBLE
from dictate.mentions.word_lists import word_list

_NEAR_IT = (0.6, 1.5)
"""The share that a number has of degrees behind it at least and at most, if it is a temperature as well."""


class Series:
    """One sentence: its values, labels and components, and which values make one list."""

    def __init__(self, reader: Subject, number: int, first: int, last: int, values: list[Value]) -> None:
        self.r = reader
        self.number = number
        self.first, self.last = first, last
        self.values = values
        self.words = reader.words
        self.labels = reader.labels[reader.span("labels", first, last)]
        self.components = reader.components[reader.span("components", first, last)]
        self.points = reader.points[reader.span("points", first, last)]
        self.items = sorted(
            [(x.start, x.end) for x in self.labels]
            + [(x.start, x.end) for x in self.components]
            + [(x.start, x.end) for x in self.points]
        )
        self.groups: list[list[Value]] = []
        self.group_of: dict[int, list[Value]] = {}
        """The group of each value, by its identity: two values may be alike."""
        self.reads = {
            (x.start, x.end)
            for x in self.labels
            if word_list("readings_reads_other") & set(self.words[x.start : x.end])
        }

    def _kind(self, v: Value) -> str | None:
        if v.quantity is None or not v.quantity.means:
            return None
        unit = v.quantity.means[0][0]
        return POSSIBLE[unit][0]

    def _goes_on_test(self, v: Value) -> bool:
        """Tell whether a bare number is within a tenth of the test pressure said before it."""
        if self.r.mode_at(v.start) != "pressure_test":
            return False
        last = self.r.last("pressure", before=v.start, within=60)
        return (
            last is not None
            and bool(last.reading.value)
            and 0.9 <= v.value / (last.reading.value or 1) <= 1.1
        )

    def _warmth_of_test(self, v: Value, level: float) -> bool:
        """Tell whether a bare number is how warm it is at the end of a test, and far from its pressure."""
        if self.r.mode_at(v.start) != "pressure_test" or v.clock or v.range:
            return False
        warm = self.r.last("temperature", before=v.start, within=70)
        if warm is None or warm.reading.value is None or warm.reading.point not in {"ambient", None}:
            return False
        off = abs(v.value - warm.reading.value)
        return off <= 8 and off < 0.5 * abs(v.value - level)

    def _group_of(self, v: Value) -> list[Value]:
        return self.group_of.get(id(v), [v])

    def _label_units(self) -> None:
        """Read "rated load six point oh volts one seventeen": the unit word leads what follows it."""
        for a, b in zip(self.values, self.values[1:], strict=False):
            if a.quantity is None or b.quantity is not None or b.start != a.end or len(a.numbers) != 1:
                continue
            if a.word not in {"volt", "amp", "ohm", "degree"} or not self.words[a.end - 1].endswith("s"):
                continue
            if a.value < 0 and a.word != "degree":
                b.quantity, a.quantity = a.quantity, None  # "set point minus 10 amps 11.3 11.5"
                b.start, a.end = a.end - 1, a.numbers[0].end
                b.opens = True
                continue
            strong = [
                x
                for x in self.labels
                if x.end <= a.start
                and (a.start - x.end <= 2 if x.label.quantity else a.start == x.end and not x.label.weak)
            ]
            if not strong or strong[-1].label.fits(self._kind(a) or ""):
                continue
            b.quantity, a.quantity = a.quantity, None
            b.start, a.end = a.end - 1, a.numbers[0].end
            b.opens = True
        for a in self.values:
            self._label_behind(a)

    def _label_behind(self, a: Value) -> None:
        """Read "head two twenty amps on the compressor went ...": the unit word begins what comes next."""
        if a.quantity is None or len(a.numbers) != 1 or a.word not in {"volt", "amp", "ohm"}:
            return
        kind = self._kind(a)
        after = self.words[a.end : a.end + 1]
        if kind is None or after not in (
            ["on"],
            ["went"],
            ["are"],
            ["were"],
            ["was"],
            ["is"],
            ["at"],
            ["of"],
        ):
            return
        later = any(a.end < v.start <= a.end + 8 and v.quantity is None for v in self.values)
        led = [x for x in self.labels if x.end <= a.start and a.start - x.end <= 4]
        if not later or not led or led[-1].label.weak or led[-1].label.fits(kind):
            return
        unit = next((x for x in find_labels(self.r.narration) if x.start == a.numbers[0].end), None)
        if unit is None:
            return
        a.quantity, a.end = None, a.numbers[0].end
        self.labels = sorted([*self.labels, unit], key=lambda x: x.start)
        self.items = sorted([*self.items, (unit.start, unit.end)])

    def _joined(self, a: Value, b: Value) -> bool:
        if b.opens:
            return False
        if a.start and self.words[a.start - 1] in {"over", "slash", "plus", "/"} and b.quantity is not None:
            return False  # "a 45 over 5, 440 volt"
        between = [w for w in self.words[a.end : b.start] if w not in FILLERS]
        between = self._without_count(a.end, b.start) or between
        if between[:1] in (["even"], ["flat"]) and len(between) > 1:
            between = between[1:]  # "fourteen even, fourteen point three"
        if a.start == b.start:
            return True
        if between[:1] in (["down"], ["up"], ["back"]) and between[1:] == ["to"] and self._moves(a):
            return True
        moving = word_list("quantities_change_verbs") | {"and", "then", "it", ","}
        goes = between[-1:] == ["to"] and 2 <= len(between) <= 4 and set(between[:-1]) <= moving and b.bare
        timed = self._kind(a) in {"duration", "mass", "length"}  # "valved off 10 minutes, rose to 420"
        if goes and not timed and (a.quantity is None or self._same_size(a, b)):
            return True  # "suction 40 dropping to 22"
        if not all(w in word_list("readings_joined") for w in between):
            return False
        closed = {"duration", "mass", "length"} if "pound" not in {a.word, b.word} else {"duration", "length"}
        if (a.quantity is None) != (b.quantity is None) and (self._kind(a) or self._kind(b)) in closed:
            return bool(a.range or a.change or (between in (["to"], ["or"], ["-"]) and a.quantity is None))
        if a.state != "value" or b.state != "value":
            return False
        if self._other_difference(a, b):
            return False
        if a.word is None or b.word is None:
            return a.word == b.word or self._same_size(a, b)
        return self._kind(a) == self._kind(b)

    def _without_count(self, start: int, end: int) -> list[str] | None:
        """Return the words between two values less the count: "thirty, three thirty-five"."""
        counts: set[int] = self.r.narration.found.get("counted_off", set())
        at = next((t for t in range(start, end) if t in counts), None)
        if at is None:
            return None
        return [w for w in self.words[start:at] if w not in FILLERS and w != "number"] or [","]

    def _other_difference(self, a: Value, b: Value) -> bool:
        """Tell whether b names its own difference behind it: "subcool 10 | , 18 degree split"."""
        named = self._difference_behind(b)
        if named is None:
            return False
        behind = self._difference_behind(a)
        if behind is not None:
            return behind != named
        led = [x.label for x in self.labels if x.end <= a.start and a.start - x.end <= 3 and not x.label.weak]
        return bool(led) and (led[-1].quantity or led[-1].default) != named

    def _difference_behind(self, v: Value) -> str | None:
        """Return the difference whose name stands right behind a value: "10 degrees of subcooling"."""
        at = v.end + (self.words[v.end : v.end + 1] in (["of"], ["degree"], ["degrees"]))
        for x in self.labels:
            if x.start == at and x.label.quantity in DIFFERENCES:
                return x.label.quantity
        return "temperature_difference" if self._spread_behind(v) else None

    def _spread_behind(self, v: Value) -> bool:
        """Tell whether degrees are a difference by the noun behind them: "15 degree rise"."""
        if v.word not in {"degree", "fahrenheit", "celsius", "kelvin", "k"}:
            return False
        at = v.end + (self.words[v.end : v.end + 1] == ["of"])
        return bool(word_list("readings_across") & set(self.words[at : at + 1]))

    def _same_size(self, a: Value, b: Value) -> bool:
        """Tell whether a bare number and one with its unit can be values of one list."""
        if (a.range and b.range) or a.change or a.value <= 0 or b.value <= 0:
            return True
        ratio = b.value / a.value
        if a.word in {"bar", "psi"} and b.word is None and self.words[a.end : b.start] == ["and"]:
            # "two point four bar and twelve point nine": the low side and the high side
            return 0.3 <= ratio <= 14
        wide = (a.word or b.word) in {"ohm", "kilohm", "megohm", "meg", "gigohm", "gig", "k", "micron"}
        return 0.02 <= ratio <= 50 if wide else 0.3 <= ratio <= 3.4

    def _moves(self, a: Value) -> bool:
        """Tell whether a value is the start of a change: "went from 40 down to 36"."""
        before = set(self.words[max(self.first, a.start - 4) : a.start])
        return bool({"from", "went", "dropped", "rose", "came"} & before)

    def _groups(self) -> list[list[Value]]:
        groups: list[list[Value]] = []
        for v in self.values:
            if groups and self._joined(groups[-1][-1], v) and not v.clock:
                groups[-1].append(v)
            else:
                groups.append([v])
        return groups

    def _own_ohms(self, v: Value, source: Value) -> bool:
        """Tell whether a number before megohms to earth is the ohms of a winding: "48.3 and 0.2 meg"."""
        if source.word not in {"meg", "megohm"} or not v.value or v.start >= source.start:
            return False
        if any(
            t.reading.quantity == "resistance"
            and t.reading.value
            and 0.2 <= v.value / t.reading.value <= 5
            and v.start - t.end <= 90
            for t in self.r.found.readings[-12:]
        ):
            return True
        between = [w for w in self.words[v.end : source.start] if w not in FILLERS]
        ratio = v.value / source.value if source.value else 0.0
        # "heater reads 31 and 0.4 meg", "38.2 and over 20 meg to earth"
        return between[:1] == ["and"] and (len(between) > 1 or not 0.2 <= ratio <= 5)

    def _ohms_of_before(self, v: Value, source: Value) -> bool:
        """Tell whether ohms and amps were told before as here: "as left C | 21.1 and 9.7 amps"."""
        if source.word is None or self._kind(source) != "current" or v.state != "value":
            return False
        if v.quantity is not None and not v.quantity.shared:
            return False
        if self.words[v.end : source.start] not in (["and"], [","], [",", "and"]):
            return False
        like = {"resistance": False, "current": False}
        for t in self.r.found.readings[-40:]:
            r = t.reading
            if r.quantity not in like or not r.value or r.component is None:
                continue
            if r.quantity == "current" and 0.75 <= v.value / r.value <= 1.3:
                return False
            said = v if r.quantity == "resistance" else source
            like[r.quantity] = like[r.quantity] or 0.9 <= said.value / r.value <= 1.1
        return all(like.values())

    def _row_of_ohms(self, group: list[Value], source: Value) -> bool | None:
        """Tell whether the bare numbers in front of megohms are windings; None where it is left open."""
        row = [w for w in group[: group.index(source)] if w.quantity is None and w.state == "value"]
        if source.word not in MEG or len(row) < 2:
            return False
        return own_row(self.words, self.first, row, source)

    def _side_behind(self, v: Value, source: Value) -> bool:
        """Tell whether "on the head" and the like behind a number names another quantity than the list's."""
        if self.words[v.end : v.end + 1] not in (["on"], ["at"]):
            return False
        at = v.end + 1 + (self.words[v.end + 1 : v.end + 2] == ["the"])
        kind = self._kind(source)
        return any(
            x.start == at and x.label.point in {"suction", "discharge"} and kind in {"voltage", "current"}
            for x in self.labels
        )

    def _of_its_label(self, v: Value, source: Value) -> bool:
        """Tell whether a label right before a number speaks of another unit: "head 150, and 121 volts".

        A side of the machine may be told in degrees as well, but not far from those behind it: "head 150, and
        94 degrees in here".
        """
        kind = self._kind(source)
        if "," not in self.words[v.end : source.start]:
            return False
        others = {"pressure", "temperature", "superheat", "subcooling"}
        if kind == "temperature" and not (
            source.value > 0 and _NEAR_IT[0] < v.value / source.value < _NEAR_IT[1]
        ):
            others = {"pressure"}
        elif kind not in {"voltage", "current"}:
            return False
        return any(
            0 <= v.start - x.end <= 1 and not x.label.weak and (x.label.quantity or x.label.default) in others
            for x in self.labels
        )

    def _share_units(self, group: list[Value]) -> None:
        """Give a unit said once in a list to the members without one."""
        if len(group) == 2 and self._ohms_of_before(*group):
            group[0].quantity = None
            self.r.narration.found.setdefault("plain ohms", set()).add(group[0].start)
            return
        said = [v for v in group if v.quantity is not None]
        climates = climate_kinds(self.r.narration)
        if not said or len(group) < 2:
            return
        if len(said) < len(group) and row_before(self.r.found.readings, group, self.number):
            return  # "3.9, 17.5, 7.4 amps" in the order of "suction 4 bar, discharge 17, current 7.2 amps"
        for i, v in enumerate(group):
            if v.quantity is None and v.state == "value" and v.start not in climates:
                if any(w.word == "volt" and w.value in {330, 370, 440} for w in group) and v.value < 100:
                    continue  # "dual cap thirty five and seven and a half, 370 volt"
                right = next((w for w in group[i + 1 :] if w.quantity is not None), None)
                left = next((w for w in reversed(group[:i]) if w.quantity is not None), None)
                after = self.words[v.end] if v.end < self.last else "."
                if right is None and after not in word_list("readings_share_units"):
                    continue
                source = right or left
                if source is not None and source.quantity is not None:
                    if self._kind(source) == "pressure" and self._warmth_of_test(v, source.value):
                        continue  # "twenty-four bar, fourteen and a half"
                    if self._kind(source) == "pressure" and v.value < -1 and source.word == "bar":
                        continue  # "1.4 bar, minus 12": no gauge goes so low
                    if self._kind(source) == "temperature" and self._goes_on_test(v):
                        continue  # "still thirty point one and twenty two degrees"
                    if (
                        source.quantity.word in {"minute", "second", "hour", "pound", "ounce", "inch"}
                        and right is None
                    ):
                        continue
                    if self._kind(source) == "duration" and v.value > 3 * source.value:
                        tested = self.r.mode_at(v.start) in {"vacuum", "pressure_test"}
                        later = self.words[source.end : source.end + 1] in (["later"], ["after"])
                        if tested or later or v.value >= 100:
                            continue  # "down to 470 and 15 minutes after isolating"
                    if right is None and self._side_behind(v, source):
                        continue  # "5.2 amps and 17.1 on the head"
                    if source is right and (self._own_ohms(v, source) or self._of_its_label(v, source)):
                        continue
                    if source is right and self._row_of_ohms(group, source):
                        self.r.narration.found.setdefault("plain ohms", set()).add(v.start)
                        continue
                    v.quantity = source.quantity
                    if source is right and source.word in MEG and self._row_of_ohms(group, source) is None:
                        v.reasons = [*v.reasons, MAY_BE_OHMS]
