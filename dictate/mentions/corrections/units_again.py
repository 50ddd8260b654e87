"""The same number with another unit: "sixty microns. This gauge reads pascal, so sixty pascal".

The first one is taken back. What was told after it without a unit has the unit of the second one.
"""

from __future__ import annotations

from dictate.mentions.corrections.alike import same_number
from dictate.mentions.corrections.cues import Corrections
from dictate.mentions.whose.taken import Taken
from dictate.mentions.word_lists import word_list
from dictate.units import UCUM

_FAMILIES = (
    frozenset({"micron", "Pa", "mbar"}),
    frozenset({"psi", "bar", "kPa"}),
    frozenset({"lb", "oz", "kg", "g"}),
)
_FAR = 18
"""Words between the two; they tell why the unit was wrong."""


class UnitsAgain(Corrections):
    """Puts a unit right that is said anew with its number."""

    def _units_again(self) -> None:
        for i, new in enumerate(self.taken):
            for old in reversed(self.taken[max(0, i - 2) : i]):
                if self._other_unit(old, new):
                    self._take_unit(old, new, self.taken[i + 1 : i + 7])
                    break

    def _other_unit(self, old: Taken, new: Taken) -> bool:
        a, b = old.reading, new.reading
        if not (old.said_unit and new.said_unit and same_number(old, new)) or a.role != "measured":
            return False
        if a.unit == b.unit or b.role != "measured" or new.start - old.end > _FAR:
            return False
        if not any({a.unit, b.unit} <= family for family in _FAMILIES):
            return False
        return bool(word_list("units_again_signs") & set(self.words[old.end : new.start]))

    def _take_unit(self, old: Taken, new: Taken, later: list[Taken]) -> None:
        a, b = old.reading, new.reading
        unit = a.unit
        a.role = "retracted"
        self._link(old, new)
        if a.quantity == "vacuum" and b.quantity == "pressure":
            b.quantity, b.reference = "vacuum", None
        b.review = [r for r in b.review if "outside of" not in r]
        b.component, b.point = b.component or a.component, b.point or a.point
        self.back.done.append((old.end, new.start))
        for t in later:
            r = t.reading
            if t.said_unit and r.quantity in {a.quantity, b.quantity}:
                return
            if not t.said_unit and (r.quantity, r.unit) == (a.quantity, unit) and r.state == "value":
                r.quantity, r.unit, r.ucum = b.quantity, b.unit, UCUM.get(b.unit or "")
                r.value, r.reference = t.value.value, b.reference
