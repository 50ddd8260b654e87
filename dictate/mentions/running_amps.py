"""Amps that no part is named beside: of the running machine, of its defrost, or of the part under work.

The part named last is not under talk any more where the power went back on, where pressures of the running
machine were read, or where "the unit" draws: then the amps are those of the compressor, which is what draws
the current of a machine. In a defrost they are those of its heaters. A part that was just put in stays under
talk, as in "new fan motor in, power on, drawing 0.6".

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import ComponentAt
from dictate.mentions.new_one_values import NewOneValues
from dictate.mentions.plausible import usual
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Zone
from dictate.mentions.word_lists import phrase_at, word_list

_DEFROST_AMPS = 1.5
"""Amps from which a current that flows in a defrost is the heaters': fans stand still then."""
_MOST_VOLTS = 650.0
"""Volts above those of any supply: what a part of known ohms would need for the amps is not its current."""
_KICK = 8.0
"""Amps of a start from which it is a compressor that started, and no small motor."""
_HEATED_WITHIN = 22
"""Words within which a defrost that was started is what a current flows in."""


class RunningAmps(NewOneValues):
    """Amps that no part is named beside."""

    def _of_the_defrost(self, v: Value, link: Link, c: ComponentAt | None) -> str | None:
        """Return the defrost heater for amps that flow in a defrost: "forced a defrost, 5.1 amps"."""
        if link.amount < _DEFROST_AMPS or (c is not None and c.name == "defrost heater"):
            return None
        begin = max(0, v.start - _HEATED_WITHIN, c.end if c is not None and c.start >= self.first else 0)
        near = self.words[begin : v.start]
        at = max((k for k, w in enumerate(near) if w in word_list("running_amps_defrost")), default=-1)
        if at < 0 or word_list("running_amps_ended") & set(near[at:]):
            return None
        if c is not None and c.start > begin + at and c.component.bare == "current":
            return None  # "forced a defrost, the drain heater draws 0.6"
        if not any(phrase_at("running_amps_into_defrost", self.words, k) for k in range(begin, v.start)):
            return None
        return "defrost heater"

    def _of_the_machine(self, v: Value, zone: Zone, link: Link, c: ComponentAt | None) -> bool:
        """Tell whether amps are of the machine, whatever part was named in the sentences before."""
        if link.point == "coil":
            return False
        led = self.words[max(zone.pre[0], v.start - 6) : v.start]
        drawing = word_list("running_amps_draws")
        for k, w in enumerate(led):
            units = word_list("running_amps_units") | ({"she", "she's"} if c is None else set())
            if w in units and set(led[k + 1 :]) & drawing:
                named = led[k - 1 : k] if k else []
                if not set(named) & word_list("running_amps_other_units"):
                    return True
        if c is None or c.start >= self.first or c.name == "compressor" or v.value == 0:
            return False
        if self._side_of_several(v, c) or c.name == "electric heat":
            return False
        kicks = link.amount >= _KICK and self._kicks(v)
        if self._just_put_in(c) and not kicks:
            return False
        back = word_list("running_amps_points_back")
        numbers = {t for x in self.values for t in range(x.start, x.end)}  # "head one seventy-five, amps 2.5"
        around = (*range(self.first, v.start), *range(v.end, min(len(self.words), v.end + 5)))
        if any(self.words[t] in back and t not in numbers for t in around):
            return False
        if kicks or not usual("current", c.name, None, link.amount, link.unit):
            return True
        if self._charged_since(c, v):
            return True
        own, ohms = self._known(c, v)
        if ohms * v.value > _MOST_VOLTS:
            return True  # more than the supply could drive through it
        if own is not None and 0.4 <= v.value / own <= 2.5:
            return False
        if self._ran_since(c, v):
            return True
        if ohms and own is None and c.component.bare == "current":
            return False
        return any(phrase_at("readings_power_on", self.words, k) for k in range(c.end, v.start))

    def _kicks(self, v: Value) -> bool:
        """Tell whether amps are those of a start: "it kicked up to fourteen"."""
        return bool(word_list("running_amps_kicks") & set(self.words[max(self.first, v.start - 5) : v.start]))

    def _known(self, c: ComponentAt, v: Value) -> tuple[float | None, float]:
        """Return the amps that a part drew when it was read last, and its ohms, 0 where none were read."""
        ohms = 0.0
        for t in reversed(self.r.found.readings):
            r = t.reading
            if t.start >= v.start or r.component != c.name or r.role == "retracted":
                continue
            if r.quantity == "current" and r.value:
                return r.value, ohms
            if r.quantity == "resistance" and not ohms and (r.value or 0) < 20_000:
                ohms = r.value or 0.001
        return None, ohms

    def _side_of_several(self, v: Value, c: ComponentAt) -> bool:
        """Tell whether one of several is told by its side only: "middle 0.23, right 0.24"."""
        led = self.words[max(self.first, v.start - 3) : v.start + 1]
        return c.name != "compressor" and bool(word_list("labels_sides") & set(led))

    def _just_put_in(self, c: ComponentAt) -> bool:
        """Tell whether a part was named as a new one, or as what was changed."""
        begin = c.start
        while begin > 0 and c.start - begin < 9 and self.words[begin - 1] not in {".", "?", "!", ";"}:
            begin -= 1
        end = c.end
        while end < len(self.words) and end - c.end < 7 and self.words[end] not in {".", "?", "!", ";"}:
            end += 1
        said = set(self.words[begin : c.start]) | set(self.words[c.end : end])
        return bool(said & word_list("running_amps_put_in"))

    def _charged_since(self, c: ComponentAt, v: Value) -> bool:
        """Tell whether a vacuum was pulled since a part was named: what runs then is the whole machine."""
        return any(
            t.reading.quantity == "vacuum" and not t.reading.review and c.end <= t.start < v.start
            for t in self.r.found.readings[-12:]
        )

    def _ran_since(self, c: ComponentAt, v: Value) -> bool:
        """Tell whether the running machine was read since a part was named: its pressures or superheat."""
        for t in reversed(self.r.found.readings):
            if t.start >= v.start:
                continue
            if t.start < c.end:
                return False
            r = t.reading
            if r.quantity in {"superheat", "subcooling"}:
                return True
            if r.quantity == "pressure" and r.point in {"suction", "discharge"}:
                return True
        return False


__all__ = ["RunningAmps"]
