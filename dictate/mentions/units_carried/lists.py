"""How far the quantity and the unit of a list carry."""

from __future__ import annotations

from dictate.mentions.plausible import fits
from dictate.mentions.quantities import FILLERS
from dictate.mentions.units_carried.under_test import UnderTest
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, Link, Taken, Zone, mains
from dictate.mentions.word_lists import word_list


class UnitsCarried(UnderTest):
    """How far the quantity and the unit of a list carry."""

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
        small = reading.quantity == "power" and v.value < 0.3 * (reading.value or 0)
        motor = "motor" in (reading.component or "") and v.start - last.end <= 16
        if small and motor and reading.role == "rated":
            return self._assume(v, "current", None, "component")  # "a 9 watt motor ... new one 0.4"
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
