"""Numbers of the next circuit, and of the next part of a control circuit.

"Circuit A suction 8.9. B, | 3.8" tells only its letter, "low pressure switch, | 26.4 in, | 26.4 out" no
volts.

A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.values.control_chains import find_chain
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_NAMES = frozenset(("a", "b", "c", "d", "one", "two", "three", "1", "2", "3"))
_MARKS = frozenset((".", ",", ";", ":", "-", "?", "!", "...", "…"))
_LED = 5  # words between the name of a circuit and its value
_ALIKE = (0.25, 4.0)  # how much the circuits of one machine can differ
_NEAR, _LATER = 60, (0.5, 2.0)  # the same, further from where the first one was told


class CircuitsTold(Compared):
    """Tells a bare pressure by the circuit that it is of."""

    def _of_next_circuit(self, v: Value) -> Link | None:
        """Read "B, | 3.8" as the side of circuit B that was told of circuit A."""
        if not v.bare or v.clock or v.range or v.marking:
            return None
        k = v.start - 1
        while k >= self.first and self.words[k] in word_list("circuit_is"):
            k -= 1
        if k < self.first or k == v.start - 1 or self.words[k] not in _NAMES:
            return None
        named = self.words[k - 1] == "circuit"
        opens = k == self.first or self.words[k - 1] in _MARKS
        if not named and not opens:
            return None
        one = self._other_circuit(v, self.words[k])
        if one is None or not one.reading.value:
            return None
        low, high = _ALIKE if v.start - one.end <= _NEAR else _LATER
        if not low <= v.value / one.value.value <= high:
            return None
        link = self._like(v, one)
        if link is not None:
            link.point, link.how = one.reading.point, "row"
            tell_outright(self.r.narration, v.start)
        return link

    def _of_a_chain(self, v: Value) -> Link | None:
        """Read "high pressure switch, | 26.4 in, | 26.4 out" as volts on both its sides."""
        if not v.bare or v.clock or v.range or v.marking:
            return None
        step = find_chain(self.r.narration).get(v.start)
        if step is None:
            return None
        tell_outright(self.r.narration, v.start)
        link = Link("voltage", "V", v.value, unit_said=False, explicit=True, how="row")
        link.component, link.point = step.component, step.point
        return link

    def _other_circuit(self, v: Value, name: str) -> Taken | None:
        """Return the pressure that was told last right behind "circuit" and another name."""
        words = self.r.narration.lowers
        for t in reversed(self.r.found.readings):
            if t.start >= v.start or t.reading.quantity != "pressure" or not t.reading.point:
                continue
            for i in range(max(0, t.start - _LED), t.start - 1):
                if words[i] == "circuit" and words[i + 1] in _NAMES - {name}:
                    return t
        return None


__all__ = ["CircuitsTold"]
