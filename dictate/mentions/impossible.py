"""A bare number that cannot be what its name stands for most often, and so is the other thing of that name.

    "phase to phase point four two, point four one"             ohms: no supply has half a volt
    "head 14.2 bar ... liquid's twenty-six"                     degrees: no liquid is above its discharge
    "rated input 2.6 kilowatts and it's drawing one point one"  kilowatts, like what it is held against
    "208 across the leads", the power on                        volts: no ohms are read on a live circuit

The last link of the chain of classes that read one sentence, in front of `readings.py`.
"""

from __future__ import annotations

from dictate.mentions.values import Value
from dictate.mentions.weighing import Weighing
from dictate.mentions.whose.taken import Link, mains
from dictate.mentions.word_lists import word_list

_LEAST_VOLTS = 20.0
"""Below this no supply has its volts from phase to phase; what is left of a supply is told in whole volts."""
_LEGS = frozenset({"phase", "leg", "line", "phases", "legs"})


class Impossible(Weighing):
    """Takes a bare number for what it can be."""

    def _possible(self, v: Value, link: Link) -> Link:
        """Return the link of what a bare number can be, where what it was taken for is not possible."""
        if v.state != "value" or not v.numbers:
            return link
        if link.unit_said and self.words[v.end : v.end + 1] != ["and"]:
            return link  # "liquid's twenty-six and fourteen bar ..." only shares the unit
        if link.quantity == "pressure" and self._above_its_discharge(v, link):
            return self._instead(v, link, "temperature")
        if link.quantity == "resistance" and link.unit_said and self._volts_of_one_coil(v):
            return self._instead(v, link, "voltage")
        if link.unit_said:
            return link
        if link.quantity != "voltage" and self._seen(v) is not None:
            return self._seen(v) or link
        if link.quantity == "resistance" and mains(v.value) and self._live_again(v):
            # No ohms are read on a live circuit.
            link.quantity, link.unit, link.label, link.how = "voltage", "V", None, "carry"
            link.carried = None
        elif link.quantity == "voltage" and self._between_phases(v):
            return self._instead(v, link, "resistance")
        elif link.quantity == "current" and self._of_rated_power(v):
            link.quantity, link.unit, link.amount = "power", "W", v.value * 1000
            link.label, link.label_at, link.how = None, None, "list"
        return link

    def _instead(self, v: Value, link: Link, quantity: str) -> Link:
        """Return the link of another quantity at the same place."""
        new = self._assume(v, quantity, None, "words")
        if new is None:
            return link
        new.component, new.which = link.component, link.which
        new.point = link.point if quantity != "resistance" else None
        return new

    def _between_phases(self, v: Value) -> bool:
        """Tell whether tenths are told from phase to phase, and no drop across a contact."""
        number = v.numbers[0]
        if not 0 < v.value < _LEAST_VOLTS or (not number.places and v.value >= 5):
            return False
        lead = self.words[max(self.first, v.start - 12) : v.start]
        named = any(
            lead[k] in _LEGS
            and lead[k + 1 : k + 2] == ["to"]
            and lead[k + 2 : k + 3]
            and lead[k + 2] in _LEGS
            for k in range(len(lead) - 2)
        )
        near = self.words[max(0, v.start - 30) : min(len(self.words), v.end + 8)]
        return named and word_list("impossible_drops").isdisjoint(near)

    def _volts_of_one_coil(self, v: Value) -> bool:
        """Tell whether a coil has volts and ohms: "the coil on it has 24.6 and 31 ohms"."""
        nxt = next((x for x in self.values if x.start == v.end + 1), None)
        if nxt is None or nxt.word != "ohm" or 0.8 <= nxt.value / v.value <= 1.25 or not mains(v.value):
            return False
        lead = self.words[max(self.first, v.start - 7) : v.start]
        return "coil" in lead and lead[-1:] in (["has"], ["had"], ["got"], ["gets"], ["with"], ["reads"])

    def _seen(self, v: Value) -> Link | None:
        """Return the volts that a part sees: "inlet valve's seeing one eighteen and it hums"."""
        if not v.bare or v.clock or not (mains(v.value) or 16 <= v.value <= 30):
            return None
        k = v.start - 1
        while k > self.first and self.words[k] in {"only", "about", "just", "a", "good"}:
            k -= 1
        if self.words[k] not in {"seeing", "sees"}:
            return None
        part = next((c for c in reversed(self.components) if 0 <= k - c.end <= 2), None)
        if part is None or part.component.sets not in {None, "voltage", "current", "resistance"}:
            return None
        link = self._assume(v, "voltage", None, "words")
        if link is not None:
            link.component, link.which = part.name, part.which
        return link

    def _above_its_discharge(self, v: Value, link: Link) -> bool:
        """Tell whether a liquid's number lies above the discharge pressure that was told before it."""
        point = link.point or (link.label.point if link.label is not None else None)
        if point != "liquid" or link.unit != "bar":
            return False  # in psi the degrees of a liquid lie below its pressure
        head = self.r.last_head()
        return head is not None and 1.15 * head < v.value <= 60

    def _of_rated_power(self, v: Value) -> bool:
        """Tell whether a draw is held against a rated power said just before it."""
        last = self.r.last(before=v.start, within=8)
        if last is None or last.sentence != self.number or last.reading.quantity != "power":
            return False
        gap = set(self.words[last.end : v.start])
        rated = last.reading.role in {"rated", "target"} and last.value.word == "kilowatt"
        return (
            rated
            and gap <= word_list("impossible_against")
            and 0.05 <= v.value * 1000 / (last.reading.value or 1) <= 2
        )
