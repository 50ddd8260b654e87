"""How far a quantity and its unit carry: assumed units, lists that go on, the test under way.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.plausible import fits
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.role_cues import find_correction_cues
from dictate.mentions.taken import COPULAS, ELECTRICAL, LOOSE, WORK, Link, Taken, Zone, mains
from dictate.mentions.unit_words import unit_words
from dictate.mentions.values import Value
from dictate.mentions.whose_words import WhoseWords
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading


class UnitsCarried(WhoseWords):
    """How far a quantity and its unit carry.

    The assumed unit of a bare number, lists that go on, the test under way.
    """

    def _assume(self, v: Value, quantity: str, label: LabelAt | None, how: str = "") -> Link | None:
        """Give a bare number the unit that the measured thing has in this visit."""
        unit = self.r.system.unit_of(quantity, self.r.found, v)
        amount = v.value
        link = Link(
            quantity, unit, amount, label.label if label else None, label, unit_said=False, explicit=True
        )
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

    def _in_labels_unit(self, v: Value, link: Link, label: LabelAt) -> None:
        """Give a bare number the unit of its label: air static is read in inches of water, not in psi."""
        named = label.label.metric_unit if self.r.system.pressure == "metric" else label.label.unit
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
        if number is not None and number.form == "pair" and number.value % 100 < 60:
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
            scaled = last.reading.quantity == "resistance" and said and last.reading.value
            factor = (last.reading.value or 0.0) / said if scaled else 1.0
        else:
            factor = next((f for u, f in q.means if u == last.reading.unit), 1.0)
        if factor == 1.0 or said <= 0 or not 0.03 <= v.value / said <= 30:
            return v.value
        return tidy(v.value * factor)

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

    def _says_value(self, v: Value, before: list[str], distance: int) -> bool:
        """Tell whether the words in front of a bare number present a value ("now it's", "came up to")."""
        cut = max((i for i, w in enumerate(before) if w in {",", ";", "it", "she", "now"}), default=-1)
        if WORK & set(before[cut + 1 :]):
            return False
        number = v.numbers[0] if v.numbers else None
        if any(
            zone_start <= c.start and c.end <= v.start and v.start - c.end <= 7
            for c in find_correction_cues(self.r.narration)
            for zone_start in (v.start - 12,)
        ):
            return True
        before = self._without_moment(self._without_names(v, before))
        if not before or (before == [","] and distance == 0 and self._moment_led(v)):
            return distance <= 1 or (number is not None and number.places > 0)
        if (
            number is not None
            and number.places
            and number.form in {"decimal", "short_decimal"}
            and len(before) <= 6
        ):
            return True
        after = self.words[v.end] if v.end < len(self.words) else "."
        if before[-1] in {"in", "out"} and distance == 0:
            return True
        if after in word_list("readings_says_value_2") and before[-1] in {"with", ",", "and", "to", "from"}:
            return True
        window = before[-6:]
        last = before[-1]
        presenting = word_list("readings_says_value")
        shown = {"is", "was", "'s", "be", "reads", "now"} & set(window)
        near = distance == 0 and len(before) <= 6
        return last in presenting or bool(shown and (near or last in COPULAS | {"the", "a", "that"}))

    def _moment_led(self, v: Value) -> bool:
        front = self.words[max(self.first, v.start - 4) : v.start]
        return bool({"end", "start", "beginning", "middle"} & set(front))

    def _without_moment(self, before: list[str]) -> list[str]:
        """Leave out when it was read: "end of freeze | 34", "at the start of harvest | 60"."""
        for size in (3, 4, 5):
            tail = before[-size:]
            moment = {"end", "start", "beginning", "middle"} & set(tail[:3]) and "of" in tail
            if len(tail) == size and moment and tail[-1] in word_list("quantities_cycles"):
                return before[:-size]
        return before

    def _without_names(self, v: Value, before: list[str]) -> list[str]:
        """Leave out component names and their numbers: "fan three | thirteen sixty" presents a value."""
        names: list[str] = []
        named = len(before) >= 2 and before[-2] in word_list("readings_numbered") and before[-1].isalnum()
        if named and (before[-1].isdigit() or before[-1] in {"one", "two", "three", "four", "five", "six"}):
            return before[:-2]
        for c in self.components:
            gap = set(self.words[c.end : v.start])
            if (
                c.end <= v.start
                and v.start - c.end <= 2
                and not gap & {"is", "was", "'s", "at", "are", "reads"}
            ):
                names += self.words[c.start : v.start]
        if not names:
            return before
        kept = before[: len(before) - len(names)] if before[-len(names) :] == names else before
        while kept and kept[-1] in {",", "the", "and", "other"}:
            kept = kept[:-1]
        return kept

    def _test_goes_on(self, v: Value) -> bool:
        """Tell whether a number like a clock time is the test value said before ("started at one fifty")."""
        mode = self.r.mode_at(v.start)
        if mode not in {"vacuum", "pressure_test"}:
            return False
        front = self.words[max(self.first, v.start - 5) : v.start]
        stalled = word_list("readings_stalled") & set(front)
        if mode == "vacuum" and stalled and front[-1:] in (["at"], ["to"]) and v.value >= 100:
            return True
        last = self.r.last("vacuum" if mode == "vacuum" else "pressure", before=v.start, within=60)
        if last is None:
            return False
        value = last.reading.value
        return (
            last.reading.quantity in {"pressure", "vacuum"}
            and value is not None
            and (0.5 if mode == "pressure_test" else 0.1) * value <= v.value <= 2 * value
        )

    def _test_value(self, v: Value, before: list[str], last: Taken | None) -> Link | None:
        """Take a bare number as the next value of the vacuum or the pressure test under way."""
        mode = self.r.mode_at(v.start)
        if mode not in {"vacuum", "pressure_test"} or v.value <= 0:
            return None
        quantity = "vacuum" if mode == "vacuum" else "pressure"
        counted = before[-1:] and before[-1] in {
            "first",
            "second",
            "third",
            "fourth",
            "finally",
            "try",
            "pull",
        }
        counted = counted or before[-2:] in (
            ["first", "one"],
            ["second", "one"],
            ["third", "one"],
            ["last", "one"],
        )
        counted = counted or before[-2:] in (["first", "time"], ["second", "time"], ["third", "time"])
        raised = before[-1:] == ["to"] and {"took", "brought"} & set(before[-4:])
        if not (counted or raised or self._says_value(v, before, 0 if not before else 1)):
            return None
        nearest = next(
            (
                t
                for t in reversed(self.r.found.readings)
                if t.start < v.start and t.reading.quantity != "duration"
            ),
            None,
        )
        earlier = self.r.last(quantity, before=v.start, within=90)
        level = earlier.reading.value if earlier is not None else None
        same = level is not None and level > 0 and 0.9 <= v.value / level <= 1.1
        other = (
            nearest is not None and nearest.sentence == self.number and nearest.reading.quantity != quantity
        )
        if other and not same:
            return None
        if earlier is not None and earlier.reading.unit == "inHg":
            return None
        if earlier is not None and earlier.reading.value:
            ratio = v.value / earlier.reading.value
            if not (0.02 <= ratio <= 60 if quantity == "vacuum" else 0.3 <= ratio <= 3):
                return None
            link = Link(
                quantity, earlier.reading.unit, v.value, earlier.label, None, unit_said=False, how="test"
            )
            link.reference = earlier.reading.reference
            return link
        if (
            last is not None
            and last.sentence == self.number
            and last.reading.quantity not in {"duration", "pressure", "vacuum"}
        ):
            return None
        if self.r.system.pressure == "us" and v.value >= 20:
            return self._assume(v, quantity, None)
        return None

    def _continued(self, v: Value, last: Taken | None) -> Taken | None:
        """Return the reading that a bare number continues: the last one that it is like in kind and size."""
        checked = 0
        for taken in reversed(self.r.found.readings):
            if taken.start >= v.start or taken.how == "condition":
                continue
            if self.number - taken.sentence > 6 or v.start - taken.end > 160 or checked > 25:
                return None
            checked += 1
            reading = taken.reading
            if self._insulation_left(v, taken):
                continue
            back = taken is last and not taken.movement and self._taken_back(taken.end, v.start)
            if back and fits(reading.quantity, None, self._scaled(v, taken), reading.unit):
                return taken
            if (
                (
                    reading.quantity == "duration"
                    and taken is last
                    and taken.sentence == self.number
                    and reading.value
                )
                and word_list("readings_limit_words") & set(self.words[taken.end : v.start])
                and 0.1 <= v.value / reading.value <= 10
            ):
                return taken
            if reading.quantity in {"duration", "mass", "length", "flow", "vacuum"} or taken.movement:
                continue
            before = self.words[v.start - 1] if v.start else ""
            if reading.derived and not (
                {"should", "was", "supposed", "want", "now", "then"} & set(self.words[taken.end : v.start])
                and taken is last
            ):
                continue
            if reading.quantity in {"resistance", "voltage"} and before in {"below", "under", "above"}:
                continue
            if reading.quantity == "resistance" and before in {"at", "to", "on", "for", "over", "set"}:
                continue
            near = taken is last or (self.number - taken.sentence <= 2 and v.start - taken.end <= 70)
            scaled = self._scaled(v, taken)
            if near and self._alike(reading, scaled) and (taken is last or self._very_alike(reading, scaled)):
                return taken
            if self._very_alike(reading, v.value) and reading.quantity in {"voltage", "speed"}:
                return taken
        return None

    def _insulation_left(self, v: Value, taken: Taken) -> bool:
        """Tell whether the megohms before are those to earth, and the number is like the ohms before them."""
        factor = self._scaled(v, taken) / v.value if v.value else 1.0
        if taken.reading.quantity != "resistance" or factor < 1e5:
            return False
        return any(
            t.reading.quantity == "resistance"
            and t.start < taken.start
            and v.start - t.end <= 90
            and t.reading.value
            and 0.5 <= v.value / t.reading.value <= 2
            for t in self.r.found.readings[-12:]
        )

    def _carry(self, v: Value, zone: Zone, last: Taken | None) -> Link | None:
        """Take a bare number as another value of what was measured just before."""
        before = [w for w in self.words[zone.pre[0] : v.start] if w not in FILLERS]
        if v.clock and not self._test_goes_on(v):
            return None
        if last is not None and self._taken_back(last.end, v.start):
            test = None
        else:
            test = self._test_value(v, before, last)
        if test is not None:
            return test
        hour = (
            v.numbers and v.numbers[0].value.is_integer() and 1 <= v.value <= 12 and not v.numbers[0].negative
        )
        if before[-1:] == ["at"] and hour and (last is None or last.sentence != self.number):
            return None  # "pulled a vacuum at ten"
        if v.value == 0 and before[-2:] == ["down", "to"] and self.r.mode_at(v.start) == "recovery":
            return self._assume(v, "pressure", None, "test")
        last = self._continued(v, last)
        if last is None:
            return None
        if (
            v.value == 0
            and last.reading.quantity in ELECTRICAL
            and not word_list("readings_carry") & set(before)
        ):
            cold = self.r.last("temperature", before=v.start, within=120)
            if cold is not None:
                last = cold
        reading = last.reading
        distance = self.number - last.sentence
        if not self._says_value(v, before, distance):
            return None
        outsized = self._outsized_amps(v, last)
        if outsized is not None:
            return outsized
        if reading.quantity == "concentration" and v.value > 100:
            return None
        link = Link(
            reading.quantity, reading.unit, v.value, last.label, None, unit_said=False, explicit=False
        )
        link.how = "carry" if distance else "carry0"
        link.amount = self._scaled(v, last)
        link.reference = reading.reference
        link.carried = last
        return link

    def _outsized_amps(self, v: Value, last: Taken) -> Link | None:
        """Take what is much too big for the amps it follows, and of the size of a supply, as volts."""
        reading = last.reading
        if reading.quantity != "current" or reading.value is None or not v.value.is_integer():
            return None
        if v.value < 105 or not mains(v.value) or v.value < 1.8 * max(reading.value, 1.0):
            return None
        if {"inrush", "locked", "start", "starting", "lra"} & set(
            self.words[max(0, v.start - 8) : v.end + 4]
        ):
            return None
        link = self._assume(v, "voltage", None, "row")
        if link is not None:
            heard = self.r.narration.heard(v.start, v.end)
            link.reasons.append(f"{heard!r} is taken as volts by its size: amps were spoken of before it")
        return link

    def _tracked(self, v: Value) -> Taken | None:
        """Return the temperature that is followed: the last one read at a place, no setting."""
        recent: list[Taken] = []
        for t in reversed(self.r.found.readings):
            if v.start - t.end > 200:
                break
            if t.reading.quantity == "temperature" and t.start < v.start:
                recent.insert(0, t)
        read = [t for t in recent if t.reading.role == "measured" and t.reading.point]
        known = read or recent
        return known[-1] if known else None

    def _parallel(self, v: Value) -> str | None:
        """Return the quantity whose unit comes with a later one of the row.

        As in "first is 24, third 23.8 ohms".
        """
        for w in self.values:
            if w.start <= v.start or w.state != "value":
                continue
            if w.quantity is None:
                continue
            kind = self._kind(w)
            alike = v.value > 0 and 0.5 <= w.value / v.value <= 2
            return kind if kind in ELECTRICAL and alike else None
        return None

    def _amps_at(self, v: Value) -> Link | None:
        """Take up what was announced with its voltage: "defrost amps at 208: 14.2, 14.1, 14.3"."""
        last = self.r.last(before=v.start, within=3)
        if last is None or last.sentence != self.number or last.reading.quantity != "voltage":
            return None
        led = self.words[last.start - 2 : last.start]
        said = {"amps": "current", "ohms": "resistance", "watts": "power", "current": "current"}
        if led[1:] != ["at"] or led[0] not in said:
            return None
        return self._assume(v, said[led[0]], None)
