"""Ohms and microfarads of a part that takes the place of a bad one, and of the pins of a motor.

"New one reads fifty ohms" is of the kind of part that read open before, whatever was named in between; "all
three pins to the shell" is of the motor whose windings were read.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import ComponentAt
from dictate.mentions.labels.named_components import components
from dictate.mentions.places.rows_of_points import RowsOfPoints
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import MOTORS, Link, Taken
from dictate.mentions.word_lists import word_list

_REMEMBERED = 220
"""Words within which the bad part is still the one that a new one stands for."""
_THOUSANDS = word_list("places_kilohms") | word_list("places_coils")
_PAIRS = frozenset({"common-run", "common-start", "run-start"})


class NewOneValues(RowsOfPoints):
    """Ohms and microfarads of a part that takes the place of a bad one, and of the pins of a motor."""

    def _of_the_new_one(self, v: Value, link: Link) -> str | None:
        """Return the kind of part that a new one is: the one that was found open before."""
        if link.quantity != "resistance" or v.ground or self._pairs(link):
            return None
        new = word_list("new_one_leads")
        before = max((x.end for x in self.values if x.end <= v.start), default=self.first)
        led = self.words[max(before, v.start - 14) : v.start]
        at = max((k for k, w in enumerate(led) if w in new), default=-1)
        if at < 0 or (at and led[at - 1] in {"like", "as", "not", "a"} and led[at] != "spare"):
            return None
        start = v.start - len(led) + at
        named = [c for c in self.components if start <= c.start < v.start]
        if any(self.words[c.start : c.end] == c.name.split() and not c.component.generic for c in named):
            return None
        bad = self._bad_one(v)
        if bad is None or (link.amount >= 1000 and bad not in _THOUSANDS):
            return None
        if named and not any(bad in _kinds_of(c) for c in named):
            return None
        return bad

    def _bad_one(self, v: Value) -> str | None:
        """Return the part that was found open or burnt before a value."""
        for t in reversed(self.r.found.readings):
            r = t.reading
            if t.start >= v.start:
                continue
            if v.start - t.end > _REMEMBERED:
                return None
            if (
                r.quantity != "resistance"
                or r.state != "open"
                or r.role == "retracted"
                or r.component is None
            ):
                continue
            if t.value.ground or (r.point or "").endswith("ground") or r.component == "compressor":
                continue
            return r.component
        return None

    def _of_the_pins(self, v: Value) -> Taken | None:
        """Return the last winding that was read, for pins that are held to the shell."""
        near = set(self.words[max(self.first, v.start - 9) : min(self.last, v.end + 6)])
        if not (word_list("values_ground") | word_list("new_one_shell")) & near:
            return None
        alone = not any(c.start < v.end for c in self.components)  # "To the shell from all three, OL"
        if not word_list("new_one_pins") & near and not (alone and word_list("new_one_every") & near):
            return None
        for t in reversed(self.r.found.readings):
            if t.start >= v.start or t.reading.quantity != "resistance":
                continue
            if v.start - t.end > 60:
                return None
            if t.reading.point in _PAIRS and t.reading.component in MOTORS:
                return t
        return None

    def _relay_pins(self, v: Value, link: Link) -> str | None:
        """Return the relay whose contacts were read: "potential relay ... contacts 1 to 2, 0.1 ohm"."""
        if link.quantity != "resistance" or link.point not in {"L1-L2", None}:
            return None
        near = self.words[max(self.first, v.start - 8) : v.start]
        if not {"contacts", "contact"} & set(near):
            return None
        for c in reversed(self.r.components):
            if c.end <= v.start and v.start - c.end <= 40:
                if c.name not in {"potential relay", "start relay"}:
                    return None
                link.point = "1-2" if link.point == "L1-L2" else None
                return c.name
        return None

    def _pairs(self, link: Link) -> bool:
        return link.point in _PAIRS or (link.point or "").endswith("ground")


def _kinds_of(c: ComponentAt) -> tuple[str, ...]:
    """Return what a generic word can stand for: "element" is a heater of any kind."""
    wide = [x for x in components().values() if x.generic and c.name in x.family]
    return (c.name, *(x.name for x in wide), *(name for x in wide for name in x.family), *c.component.family)


__all__ = ["NewOneValues"]
