"""Pressures of air that were told without a unit, where static is talked of: "ninety return, two ten in all".

A link of the chain of classes that read one sentence. Inches of water are said as parts of one, so beside
"static" a side of the air is enough ("total is point nine four"). Pascals are as large as temperatures; so
the unit must have been said of air before, and the number stand in the same sentence, in a sum of both sides,
or in the words in which a side was told then ("fifty on the return").
"""

from __future__ import annotations

from dictate.mentions.narration import SENTENCE_END
from dictate.mentions.quantities import find_quantities, tidy
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.unit_words import unit_words
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link
from dictate.mentions.word_lists import word_list

_INCHES, _PASCALS = 3.0, 1000.0  # the most that a fan of this trade moves air against
_LEAST = 5.0  # pascals; less is lost in the noise of the gauge
_HIGHEST_AIR = 45.0  # degrees Celsius that air in a duct of a cooling machine hardly has
_AS_WARM = 15.0  # degrees between two temperatures of the same air in one visit
_FAR = 60  # words from talk of static to its inches
_NEAR = 20  # words from one of them to the next that names no side
_WHOLE = frozenset(("total", "external"))
_LOST_OVER = {"filter": "air filter", "filters": "air filter", "coil": "evaporator coil"}
_CUTS = frozenset((".", ",", ";", ":", "?", "!", "and", "but", "so"))


class AirStatics(Compared):
    """Tells the bare numbers that are pressures of air."""

    def _air_static(self, v: Value) -> Link | None:
        """Return a bare number as a pressure of air, by its side and by what was said of static before."""
        if not v.bare or v.clock or v.marking or not v.value or not v.numbers:
            return None
        parts = v.numbers[0].places > 0 or v.numbers[0].form == "fraction"
        if parts and abs(v.value) < _INCHES:
            return self._in_inches(v)
        return self._in_pascals(v) if v.value.is_integer() and abs(v.value) <= _PASCALS else None

    def _in_inches(self, v: Value) -> Link | None:
        clause = self._clause(v)
        whole = not _WHOLE.isdisjoint(clause)  # "total is point four six", long after static was talked of
        near = self.words[0 if whole else max(0, v.start - _FAR) : self.last]
        last = self.r.last("pressure", before=v.start, within=_FAR)
        goes_on = last is not None and last.reading.unit == "Pa" and last.reading.reference == "differential"
        if word_list("air_static").isdisjoint(near) and not goes_on:
            return None
        if not word_list("air_static_not").isdisjoint(clause):
            return None
        sided = not word_list("air_static_sides").isdisjoint(clause)
        behind = self.r.last(before=v.start, within=_NEAR) if goes_on else None
        return self._air_link(v, "inch_water", told=False) if sided or (behind and behind is last) else None

    def _in_pascals(self, v: Value) -> Link | None:
        said = self._pascals_said()
        if not said or abs(v.value) < _LEAST:
            return None
        clause = self._clause(v)
        if not word_list("air_static_not").isdisjoint(clause) or "air" in clause:
            return None
        here = any(self.first <= at < self.last for at in said)
        sided = not word_list("air_static_sides").isdisjoint(clause)
        plain = self._limit_told(clause) or word_list("air_static_plain").issuperset(clause)
        goes_on = here and plain and self._air_before(v)
        if (here and sided) or self._in_a_sum(v) or goes_on:
            return self._air_link(v, "pascal", told=True)
        if not self._side_as_before(v, said) or self._warm_as_before(v, clause):
            return None
        return self._air_link(v, "pascal", told=v.value > _HIGHEST_AIR)

    def _air_link(self, v: Value, unit: str, *, told: bool) -> Link:
        name, factor = unit_words()[unit].means[0]
        link = Link("pressure", name, tidy(v.value * factor), unit_said=False, explicit=True, how="row")
        link.reference = "differential"
        clause = self._clause(v)
        link.point = next((p for p in ("return", "supply") if p in clause), None)
        link.derived = not {"drop", "across"}.isdisjoint(clause)
        link.component = self._lost_over(v, clause) if link.derived else None
        if not told:
            said = "inches of water" if unit == "inch_water" else "pascals"
            link.reasons.append(f"the unit was not said: air static is taken as {said}")
        tell_outright(self.r.narration, v.start)
        return link

    def _lost_over(self, v: Value, clause: list[str]) -> str | None:
        """Return what pressure is lost over: a filter or the coil in its clause, else the last before it."""
        near = [w for w in clause if w in _LOST_OVER]
        near = near or [w for w in self.words[max(self.first, v.start - _NEAR) : v.start] if w in _LOST_OVER]
        return _LOST_OVER[near[-1]] if near else None

    def _clause(self, v: Value) -> list[str]:
        """Return the words around a number up to the next stop, "and" or value."""
        starts = {w.start for w in self.values}
        ends = {w.end for w in self.values}
        end = v.end
        begin = front = v.start - (self.words[v.start - 1 : v.start] == [","])  # "coil drop, point three"
        while begin > self.first and begin not in ends and self.words[begin - 1] not in _CUTS:
            begin -= 1
        if front < v.start and begin in ends:
            begin = v.start  # what stands behind the value before is that one's
        while end < self.last and end not in starts and self.words[end] not in _CUTS:
            end += 1
        return [*self.words[begin : v.start], *self.words[v.end : end]]

    def _air_before(self, v: Value) -> bool:
        """Tell whether the value before it in its sentence is a pressure of air."""
        last = self.r.last(before=v.start, within=_NEAR)
        return last is not None and last.sentence == self.number and last.reading.unit == "Pa"

    def _limit_told(self, clause: list[str]) -> bool:
        return not word_list("air_static_limits").isdisjoint(clause)

    def _in_a_sum(self, v: Value) -> bool:
        """Tell whether two sides and their total are told, and it is one of them: "60 and 55, 115 total"."""
        at = self.values.index(v)
        for k in range(max(0, at - 2), at + 1):
            row = self.values[k : k + 3]
            if len(row) < 3 or any(w.quantity is not None and w.word != "pascal" for w in row):
                continue
            one, two, whole = (w.value for w in row)
            if one > 0 and two > 0 and abs(one + two - whole) <= max(2.0, 0.03 * whole):
                told = self._clause(row[2])
                if not word_list("air_static_total").isdisjoint(told) or " ".join(told[:2]) == "all up":
                    return True
        return False

    def _side_as_before(self, v: Value, said: list[int]) -> bool:
        """Tell whether "on the return" stands behind it as it stood behind pascals before."""
        words = self.r.narration.lowers
        own = self._on_a_side(self.words, v.end)
        return own and any(self._on_a_side(words, at) for at in said)

    def _warm_as_before(self, v: Value, clause: list[str]) -> bool:
        """Tell whether air on that side was told to be about so warm: a temperature is told again."""
        sides = {"return", "supply"} & set(clause)
        told = [t.reading for t in self.r.found.readings if t.reading.quantity == "temperature"]
        return any(r.point in sides and abs((r.value or 0.0) - v.value) < _AS_WARM for r in told)

    @staticmethod
    def _on_a_side(words: list[str], at: int) -> bool:
        return words[at : at + 2] in (["on", "the"], ["in", "the"]) and words[at + 2 : at + 3] in (
            ["return"],
            ["supply"],
        )

    def _pascals_said(self) -> list[int]:
        """Return the ends of the pascals of air that were said before or in this sentence."""
        narration = self.r.narration
        done: list[int] | None = narration.found.get("pascals of air")
        if done is None:
            told = [q for q in find_quantities(narration) if q.word == "pascal"]
            done = [q.end for q in told if self._of_moved_air(q.start, q.end)]
            narration.found["pascals of air"] = done
        return [at for at in done if at < self.last]

    def _of_moved_air(self, start: int, end: int) -> bool:
        """Tell whether the sentence around pascals speaks of air, and of no vacuum."""
        words = self.r.narration.lowers
        while start and words[start - 1] not in SENTENCE_END:
            start -= 1
        while end < len(words) and words[end] not in SENTENCE_END:
            end += 1
        said = words[start:end]
        return word_list("air_static_vacuum").isdisjoint(said) and not (
            word_list("air_static_sides") | word_list("air_static")
        ).isdisjoint(said)


__all__ = ["AirStatics"]
