"""Values made of numbers that nothing else took for one: the repair, or what it repairs."""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.corrections.correction_words import STOPS
from dictate.mentions.corrections.cues import SMALL, Corrections
from dictate.mentions.corrections.unit_meant import quantity_of, unit_meant
from dictate.mentions.plausible import reason
from dictate.mentions.quantities import tidy
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.values import Value, find_values
from dictate.mentions.whose.taken import DIFFERENCES, Taken
from dictate.units import UCUM


class MakesValues(Corrections):
    """Makes a value of a loose number beside a cue."""

    def _of_number(self, old: Taken, x: Number) -> Taken | None:
        """Make a value out of a number that puts another one right, after that one."""
        made = self._made(old, Value(x.start, x.end, x.value, (x,)))
        if made is not None and (phrase := unit_phrases(self.n).get(x.end)) is not None:
            made.end = phrase.end
            made.reading.heard = self.n.heard(x.start, phrase.end)
            made.reading.at = self.n.at(x.start, phrase.end)
        return made

    def _made(self, old: Taken, v: Value) -> Taken | None:
        a = old.reading
        unit, quantity, value = a.unit, a.quantity, v.value
        if v.quantity is not None:
            means = dict(v.quantity.means)
            said = v.quantity.word
            named = unit_meant(said, means, old) if means else None
            if named is None and said == "degree":
                named = a.unit if a.quantity in {"temperature", *DIFFERENCES} else None
            found = quantity_of(named, old) if named is not None else None
            if named is None or found is None:
                return None
            like = {found, a.quantity}
            if len(like) > 1 and not like <= {"pressure", "vacuum"} and old.said_unit:
                return None
            unit, quantity, value = named, found, tidy(v.value * means.get(named, 1.0))  # type: ignore[assignment]
        elif not 0.05 <= (abs(v.value) or 1.0) / (abs(old.value.value) or 1.0) <= 20:
            return None
        reading = a.model_copy(
            deep=True,
            update={
                "quantity": quantity, "unit": unit, "ucum": UCUM.get(unit), "value": value, "review": [],
                "candidates": [], "confidence": 1.0 if not a.review else a.confidence,
                "at": self.n.at(v.start, v.end), "heard": self.n.heard(v.start, v.end),
                "unit_assumed": v.quantity is None and not old.said_unit,
            },
        )  # fmt: skip
        if quantity != a.quantity or unit != a.unit:
            reading.reference = (
                None if quantity != "pressure" else ("vacuum_depth" if unit == "inHg" else "gauge")
            )
        why = reason(quantity, reading.point, value, unit)
        if why is not None:
            reading.review.append(why)
            reading.confidence = 0.5
        said_unit = v.quantity is not None
        return Taken(
            reading,
            v,
            v.start,
            v.end,
            old.sentence,
            old.label,
            said_unit,
            said_unit,
            False,
            movement=old.movement,
        )

    def _loose(self) -> list[Value]:
        covered = {k for t in self.taken for k in range(t.start, t.end)}
        return [
            v
            for v in find_values(self.n)
            if v.state == "value"
            and not v.clock
            and not v.marking
            and v.numbers
            and not v.numbers[0].pronoun
            and covered.isdisjoint(range(v.start, v.end))
        ]

    def _unheard(self, start: int, end: int) -> bool:
        """Tell whether a value that was not taken for one stands between two tokens."""
        at = bisect_left(self.loose, start, key=lambda v: v.start)
        while at < len(self.loose) and self.loose[at].end <= end:
            v = self.loose[at]
            if self.words[v.start - 2 : v.start] not in (["on", "the"], ["of", "the"], ["for", "the"]):
                return True  # "2.1 on the 5" only tells which side
            at += 1
        return False

    def _repair_words(self, start: int, end: int) -> bool:
        """Tell whether the words lead to a repair only: small ones, or a clause of how it was misread."""
        spoken = [k for k in range(start, end) if not any(m.start <= k < m.end for m in self.mistakes)]
        words = {self.words[k] for k in spoken}
        return words <= SMALL | STOPS or (
            end - start <= 12 and self.words[end - 1] == "," and not STOPS & words
        )

    def _stands_alone(self, v: Value) -> bool:
        """Tell whether the number counts nothing: it ends its clause, or a unit was said."""
        at = v.end + (
            self.words[v.end : v.end + 1] in (["dead"], ["flat"], ["even"], ["exactly"], ["straight"])
        )
        return v.quantity is not None or self.words[at : at + 1] in ([","], ["."], [], ["and"], ["?"])
