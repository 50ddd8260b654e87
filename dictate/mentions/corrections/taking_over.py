"""The values of a visit while later words take some of them back."""

from __future__ import annotations

from dictate.mentions.corrections.alike import clear_loose
from dictate.mentions.corrections.correction_words import STOPS
from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.whose.taken import Taken


class TakesOver:
    """Holds the values of the visit in order, and what later words have done with them."""

    def __init__(self, narration: Narration, taken: list[Taken]) -> None:
        self.n = narration
        self.words = narration.lowers
        self.taken = taken
        self.repaired: list[tuple[Taken, Taken]] = []
        self.done: list[tuple[int, int]] = []
        """The tokens whose words of correction have done their work."""
        self.sentence_at = [0] * (len(self.words) + 1)
        for i, (a, b) in enumerate(narration.sentences):
            self.sentence_at[a:b] = [i] * (b - a)

    def handled(self, start: int, end: int) -> bool:
        """Tell whether what stands at these tokens has done its work already."""
        return any(a < end and start < b for a, b in self.done)

    def _stops(self, start: int, end: int) -> bool:
        return bool(STOPS & set(self.words[start:end]))

    def taken_before(self, at: int) -> list[Taken]:
        """Return the values said before a token."""
        return [t for t in self.taken if t.end <= at]

    def take_over(self, old: Taken, first: Taken, repair: Taken) -> None:
        """Give a repair the quantity, unit and place of what it repairs, where it brings none."""
        a, b = old.reading, repair.reading
        low = self.n.sentences[self.sentence_at[repair.start]][0]
        if repair.place_said and not any(low <= c.start < repair.end for c in find_components(self.n)):
            b.component = a.component or b.component  # it was carried along, not said
        if not repair.said_unit and (b.quantity, b.unit) != (a.quantity, a.unit):
            b.quantity, b.unit, b.ucum = a.quantity, a.unit, a.ucum
            q = old.value.quantity
            factor = next((f for u, f in q.means if u == a.unit), 1.0) if q is not None else 1.0
            b.value = round(repair.value.value * factor, 9)
            b.unit_assumed = a.unit_assumed
        if first is not old and not first.said_unit:
            first.reading.quantity, first.reading.unit, first.reading.ucum = a.quantity, a.unit, a.ucum
        for t in (first, repair):
            if t is old:
                continue
            t.movement = t.movement or old.movement
            t.reading.component = t.reading.component if t.place_said and t.reading.component else a.component
            if t.reading.quantity == a.quantity:
                named = first.reading.point if t is repair and first is not old and first.place_said else None
                t.reading.point = named or a.point or t.reading.point
                t.reading.reference = a.reference
                t.reading.which = t.reading.which or a.which
        if not repair.said_unit and old.said_unit:
            b.unit_assumed = False
        clear_loose(repair)
        repair.reading.retracts = a.heard or None
