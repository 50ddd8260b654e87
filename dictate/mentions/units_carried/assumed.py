"""The unit that a bare number has in this visit, and which values are alike."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import on_a_stopwatch
from dictate.mentions.plausible import fits
from dictate.mentions.quantities import tidy
from dictate.mentions.roles.cues import find_correction_cues
from dictate.mentions.unit_words import unit_words
from dictate.mentions.values import Value
from dictate.mentions.whose.ohms_before_meg import MEG
from dictate.mentions.whose.taken import ELECTRICAL, LOOSE, Link, Taken
from dictate.mentions.whose.whose_words import WhoseWords
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

_A_FEW_MICRON = 20
"""Nobody reads so few micron in the field: such a number goes on in the unit said before it."""


_ROW_GAP = 12
"""Tokens between two values of a row at most."""

_MEG = 1e5
_UNLIKE_MEG = 5.0
"""How many times two values of one tester differ, from where on the first is hardly in megohms as well."""


class AssumedUnits(WhoseWords):
    """The unit of a bare number where none was said, and which values are alike."""

    def _assume(self, v: Value, quantity: str, label: LabelAt | None, how: str = "") -> Link | None:
        """Give a bare number the unit that the measured thing has in this visit."""
        unit = self.r.system.unit_of(quantity, self.r.found, v)
        amount = v.value
        link = Link(
            quantity, unit, amount, label.label if label else None, label, unit_said=False, explicit=True
        )
        if quantity == "vacuum" and unit == "micron" and v.value < _A_FEW_MICRON:
            last = self.r.last("vacuum", before=v.start)
            link.amount = self._scaled(v, last) if last is not None else amount  # "0.6 torr, then 0.25"
        if quantity == "resistance" and v.bare and self._more_of_them(v):
            link.amount = self._scaled(v, self.r.found.readings[-1])
        if label is not None and label.label.reference:
            link.reference = label.label.reference
        if quantity == "pressure" and link.reference is None:
            link.reference = "gauge"
        if label is not None and quantity == "resistance" and self._insulation(label):
            link.amount = tidy(v.value * 1e6)
            link.reasons.append("megohms were not said; an insulation tester reads in them")
        link.how = how or (
            "weak label" if label is not None and label.label.weak else "label" if label else "component"
        )
        if quantity == "duration" and not self._clock_duration(v, link, label):
            return None
        if label is not None and quantity == "pressure":
            self._in_labels_unit(v, link, label)
        return link

    def _megohms_go_on(self, v: Value) -> Link | None:
        """Take a bare number as the next of a row of megohms or kilohms."""
        if not v.bare or v.clock or not self._more_of_them(v):
            return None
        link = self._assume(v, "resistance", None, "list")
        if link is not None:
            link.carried = self.r.found.readings[-1]
        return link

    def _more_of_them(self, v: Value) -> bool:
        """Tell whether ohms go on a row told in megohms: "leg one 200 meg, leg two | 180 to ground".

        Between two values of a row stand the names of its legs and little else.
        """
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.reading.quantity != "resistance" or last.sentence != self.number:
            return False
        if self.words[v.start - 1] == "at" or self.words[v.end : v.end + 1] in (["degrees"], ["degree"]):
            return False  # "10 K at 77"
        if v.start - last.end > _ROW_GAP or last.value.state != "value" or last.value.value <= 0:
            return False
        if (
            last.reading.value or 0.0
        ) < 1000 * last.value.value or not 0.1 <= v.value / last.value.value <= 10:
            return False
        gap = [w for w in self.words[last.end : v.start] if w.isalpha()]
        return all(len(w) == 1 or w in word_list("row_of_legs_gap") for w in gap)

    def _in_labels_unit(self, v: Value, link: Link, label: LabelAt) -> None:
        """Give a bare number the unit of its label: air static is read in inches of water, not in psi."""
        named = label.label.metric_unit if self.r.system.pressure == "metric" else label.label.unit
        if named is None and label.label.point == "static" and self.r.system.pressure == "us":
            named = "inch_water" if v.numbers and v.numbers[0].places and abs(v.value) < 3 else None
            link.point = None if named else link.point
            link.reference = "differential" if named else link.reference
        if named is None or v.value > (6 if named == "inch_water" else 600):
            return
        unit, factor = unit_words()[named].means[0]
        link.unit, link.amount = unit, tidy(v.value * factor)
        said = {"inch_water": "inches of water", "pascal": "pascals"}.get(named, named)
        link.reasons.append(f"the unit was not said: air static is taken as {said}")

    def _insulation(self, label: LabelAt) -> bool:
        said = self.words[label.start : label.end]
        return any(w.startswith(("meg", "insulation")) for w in said)

    def _clock_duration(self, v: Value, link: Link, label: LabelAt | None) -> bool:
        """Read "two forty" as minutes and seconds of a freeze or a harvest."""
        number = v.numbers[0] if v.numbers else None
        last = self.r.last("duration", before=v.start, within=40)
        if number is not None and number.form in {"pair", "clock"} and self._moment_told(v):
            return False
        if number is not None and on_a_stopwatch(number):
            minutes, seconds = divmod(number.value, 100)
            link.amount, link.unit = tidy(minutes + seconds / 60), "min"
            if last is None:
                link.reasons.append(f"{number.value:g} can be minutes and seconds or a plain number")
            return True
        if label is not None and self._told_time(label, v):
            link.unit = "min"
            return True
        if last is not None and last.reading.unit in {"s", "min"}:
            link.unit = last.reading.unit
            return True
        return False

    def _moment_told(self, v: Value) -> bool:
        """Tell whether it is the time of day at which a cycle began: "harvest came at two thirty one"."""
        lead = self.words[max(self.first, v.start - 5) : v.start]
        return lead[-1:] == ["at"] and bool(word_list("cycle_moments") & set(lead))

    def _like(self, v: Value, previous: Taken) -> Link | None:
        """Go on with a list: same quantity, unit and label as the value before."""
        if v.clock and previous.reading.quantity not in {"pressure", "vacuum", "voltage"}:
            return None
        reading = previous.reading
        link = Link(
            reading.quantity, reading.unit, v.value, previous.label, None, unit_said=False, explicit=True
        )
        link.how = "list"
        link.reasons += [r for r in reading.review if LOOSE in r]
        link.amount = self._scaled(v, previous)
        link.reference = reading.reference
        link.carried = previous
        one_range = v.range == "high" and previous.value.range == "low"
        if reading.quantity in {"duration", "mass"} and not one_range:
            return None
        return link

    def _scaled(self, v: Value, last: Taken) -> float:
        """Give a carried number the said unit of the one before: "4.7 kilohms, now 4.2"."""
        q = last.value.quantity
        if last.value.state != "value":
            return v.value
        said = last.value.value
        if q is None:
            # "eight point six, then eight point seven" of a sensor whose kilohms were said before
            parts = last.reading.quantity in {"resistance", "vacuum"} or last.reading.unit == "Pa"
            scaled = parts and said and last.reading.value
            factor = (last.reading.value or 0.0) / said if scaled else 1.0
        else:
            factor = next((f for u, f in q.means if u == last.reading.unit), 1.0)
        if said == 0 and q is not None and 0 < v.value < 1:
            return tidy(v.value * factor)  # "zero meg, well, the display said 0.02"
        if factor == 1.0 or said <= 0 or not 0.03 <= v.value / said <= 30:
            return v.value
        if factor >= 1000 and (self._of_another_part(v, last) or self._meg_behind(v, factor)):
            return v.value
        if factor >= _MEG and not word_list("own_ohms_named").isdisjoint(self.words[last.end : v.start]):
            return v.value  # "six, 110 meg. Continuity as well. One | 48.2"
        return tidy(v.value * factor)

    def _meg_behind(self, v: Value, factor: float) -> bool:
        """Tell whether megohms of its own follow: "3 meg. B four | 14.1 on all of them and over 500 meg"."""
        if factor < _MEG or v.value <= 0:
            return False
        told = next((w for w in self.values if w.start >= v.end and w.word in MEG), None)
        if told is None or told.start - v.end > _ROW_GAP or not told.value:
            return False
        return max(v.value / told.value, told.value / v.value) >= _UNLIKE_MEG

    def _of_another_part(self, v: Value, last: Taken) -> bool:
        """Tell whether another part was named since the thousands were said: "800 k. Pan heater | 150".

        Megohms go on where that one was measured to ground too; each sensor is told in kilohms of its own.
        """
        if last.reading.component in {None, "temperature sensor"}:
            return False
        named = self.r.components[self.r.span("components", last.end, v.start)]
        if all(
            c.name in {last.reading.component, "temperature sensor"} or c.component.generic for c in named
        ):
            return False
        around = {*self.words[named[-1].start : v.start], *self.words[v.end : v.end + 4]}
        return last.reading.point != "ground" or not around & word_list("ohms_told_grounds")

    def _alike_said(self, last: Taken, v: Value) -> bool:
        """Tell whether a number is of the size of what it continues, both as said."""
        return self._alike(last.reading, self._scaled(v, last))

    def _alike(self, reading: Reading, value: float) -> bool:
        """Tell whether a carried value is of the size of what it continues."""
        quantity = reading.quantity
        if not fits(quantity, reading.point, value, reading.unit):
            return False
        before = reading.value
        if before is None:
            return quantity in ELECTRICAL
        if quantity == "temperature":
            return True
        if quantity in {"superheat", "subcooling"}:
            return value <= 2 * before or value <= (20 if reading.unit == "delta_degC" else 36)
        if quantity == "voltage":
            return value == 0 or before == 0 or 0.4 <= value / before <= 2.5 if before >= 0 else True
        if quantity in {"current", "capacitance"}:
            return before == 0 or value == 0 or 0.1 <= value / before <= 10
        if quantity == "resistance":
            return before == 0 or value == 0 or 0.05 <= value / before <= 20
        if quantity == "pressure":
            return before <= 0 or value <= 0 or 0.3 <= value / before <= 3.4
        return True

    def _very_alike(self, reading: Reading, value: float) -> bool:
        before = reading.value
        return (
            bool(before)
            and before is not None
            and (
                0.5 <= value / before <= 2 if reading.quantity == "pressure" else 0.7 <= value / before <= 1.4
            )
            and fits(reading.quantity, reading.point, value, reading.unit)
        )

    def _taken_back(self, start: int, end: int) -> bool:
        """Tell whether a correction cue stands between two values."""
        return any(start <= c.start and c.end <= end for c in find_correction_cues(self.r.narration))
