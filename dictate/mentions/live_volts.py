"""Volts that no word of volts stands beside: on a thing, before and during a start, in and out of a switch.

"It had twenty seven on it", "236 before, 211 during", "118 going in, 26 on the other side": what the frame
says of a number, with its size, goes over what the sentence before it was about.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.electric import Electric
from dictate.mentions.labels import LabelAt
from dictate.mentions.quantities import FILLERS
from dictate.mentions.test_stretches import stretch_at
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, NOMINAL_VOLTS, Link, Taken, mains
from dictate.mentions.word_lists import phrase_at, word_list


class LiveVolts(Electric):
    """Volts told by the frame of the words around a number and by its size."""

    def _framed_volts(self, v: Value, best: tuple[float, LabelAt] | None) -> Link | None:
        """Take a number of the size of a supply as volts where the words around it say so."""
        if not v.bare or v.clock or not mains(v.value) or v.value < 20 or v.marking:
            return None
        if stretch_at(self.r.tests, v.start) is not None or self.r.mode_at(v.start) in {
            "vacuum",
            "pressure_test",
            "recovery",
        }:
            return None
        if best is not None and not best[1].label.weak and best[1].label.point not in {None, "supply"}:
            return None
        if self._on_it(v) or self._compared_moments(v):
            return self._assume(v, "voltage", None, "row")
        return None

    def _of_phases(self, v: Value) -> bool:
        """Tell whether a number is what a machine is made for: "two oh eight three phase"."""
        after = self.words[v.end : v.end + 2]
        return (
            v.value in NOMINAL_VOLTS
            and v.value >= 100
            and after[1:] == ["phase"]
            and after[0] in {"three", "single", "one", "two", "3", "1", "2", "3-", "single-", "three-"}
        )

    def _electric_before(self, v: Value, within: int = 40) -> Taken | None:
        """Return the last reading when it is an electrical one of a thing that volts are read on."""
        last = self.r.last(before=v.start, within=within)
        return last if last is not None and last.reading.quantity in ELECTRICAL else None

    def _on_it(self, v: Value) -> bool:
        """Tell whether a number stands on something electric: "it had twenty seven on it"."""
        if phrase_at("live_on_it", self.words, v.end) == 0:
            return False
        lead = [w for w in self.words[max(self.first, v.start - 4) : v.start] if w not in FILLERS]
        if {"put", "pumped", "nitrogen", "pressure", "pounds"} & set(
            self.words[max(self.first, v.start - 6) : v.end + 5]
        ):
            return False
        if lead and lead[-1] not in word_list("live_presents"):
            return False
        return self._electric_before(v) is not None or any(
            c.start - 40 < v.start and "voltage" in c.component.measures and c.component.bare != "current"
            for c in self.components
        )

    def _compared_moments(self, v: Value) -> bool:
        """Tell whether a supply is compared at two moments: "236 before, 211 during", "119 at rest"."""
        if v.value < 95 or not v.value.is_integer():
            return False
        if phrase_at("live_moments", self.words, v.end) == 0:
            return False
        near = self._electric_before(v, 60)
        if near is None and not {"voltage", "volts", "supply", "line"} & set(
            self.words[self.first : v.start]
        ):
            return False
        twins = [
            w
            for w in self.values
            if w is not v and w.bare and w.value >= 95 and mains(w.value) and 0.6 <= w.value / v.value <= 1.5
        ]
        return bool(twins) or (
            near is not None and v.value >= 180 and (near.reading.value or 0) < 0.6 * v.value
        )

    def _motor_runs(self, label: LabelAt, v: Value) -> bool:
        """Tell whether "peaks at", "settles to" is said of a motor and not of a box or a pressure."""
        if not {"settled", "settles", "peaks", "peaked", "spiked", "spikes", "surges", "kicks"} & set(
            self.words[label.start : label.end]
        ):
            return True
        last = self.r.last(before=v.start, within=40)
        front = [c for c in self.components if c.end <= label.start]
        if last is not None and last.sentence == self.number and last.reading.quantity != "duration":
            return last.reading.quantity in ELECTRICAL
        if front:
            return "current" in front[-1].component.measures
        if {"starts", "started", "start", "runs", "running", "inrush"} & set(
            self.words[self.first : v.start]
        ):
            return True
        return last is not None and last.reading.quantity in ELECTRICAL
