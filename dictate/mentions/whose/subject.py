"""What is under test: the labels, components and points of a narration, and what was taken so far.

`Subject` is filled while the sentences are read in order. It tells what the work is about at a token (a
vacuum, a pressure test, windings), which reading came last, and which component is being talked of.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable

from dictate.mentions.labels import ComponentAt, LabelAt, find_components, find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.test_stretches import find_stretches, stretch_at
from dictate.mentions.units_system import UnitSystem, unit_system
from dictate.mentions.values import find_values
from dictate.mentions.whose.next_machines import next_machines
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list


class Subject:
    """The memory of a narration: what was taken so far, and what is under test at a place."""

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        self.tokens = narration.tokens
        self.words = narration.lowers
        self.values = find_values(narration)
        self.system: UnitSystem = narration.found.get("unit system") or unit_system(narration)
        self.components = find_components(narration)
        long = {}
        for c in self.components:
            for t in range(c.start, c.end):
                long[t] = c.end - c.start
        valued = {t for v in self.values for t in range(v.start, v.end)}
        self.labels = [
            label
            for label in find_labels(narration)
            if not any(long.get(t, 0) > label.end - label.start for t in range(label.start, label.end))
            and valued.isdisjoint(range(label.start, label.end))
        ]
        # "The head fan", "the box fan's motor": the noun in front only tells which fan.
        fans = {c.start for c in self.components if c.component.bare == "current" and self._is_motor(c)}
        self.labels = [
            x
            for x in self.labels
            if (x.end not in fans or x.label.default == "current") and not self._no_label(x)
        ]
        placed = self._where_motors_are()
        self.labels = [x for x in self.labels if x.start not in placed]
        for label in self.labels:
            for t in range(label.start, label.end):
                long[t] = max(long.get(t, 0), label.end - label.start)
        for p in find_points(narration):
            if p.kind == "point" and p.end - p.start > 1:
                self.labels = [
                    x
                    for x in self.labels
                    if not (p.start <= x.start and x.end <= p.end and x.end - x.start < p.end - p.start)
                ]
        self.points = [
            p
            for p in find_points(narration)
            if p.kind != "point" or not any(long.get(t, 0) > p.end - p.start for t in range(p.start, p.end))
        ]
        self.points = [p for p in self.points if p.start not in placed]
        self.modes = [x for x in self.labels if x.label.mode]
        self.mode_starts = [x.start for x in self.modes]
        self.tests = find_stretches(narration)
        self.starts = {
            "labels": [x.start for x in self.labels],
            "components": [x.start for x in self.components],
            "points": [x.start for x in self.points],
        }
        self.machine_starts = next_machines(narration)
        self.found = Found(units=self.system)
        self.mode: tuple[str, int] | None = None
        """What the work is about, and the token at which it was said."""

    def _where_motors_are(self) -> set[int]:
        """Return the words that only tell which motor: "the fans in the box", "fan over the coil"."""
        out: set[int] = set()
        for c in self.components:
            if c.component.bare != "current" or not self._is_motor(c):
                continue
            led = self.words[c.end : c.end + 2]
            if (
                led[:1]
                and led[0] in word_list("labels_placed") - {"of", "for", "from"}
                and led[1:] == ["the"]
            ):
                out.update((c.end, c.end + 1, c.end + 2))
        return out

    def _is_motor(self, c: ComponentAt) -> bool:
        return bool({"fan", "fans", "blower", "motor", "motors", "pump"} & set(self.words[c.start : c.end]))

    def _no_label(self, x: LabelAt) -> bool:
        """Tell whether a label's words are another thing: a junction box, a split system, "pulled in"."""
        said = self.words[x.start : x.end]
        before = self.words[max(0, x.start - 3) : x.start]
        after = self.words[x.end : x.end + 1]
        if said == ["the", "box"]:
            return before[-2:] == ["out", "of"]
        if said == ["box"]:
            return bool(before) and (
                before[-1] in word_list("readings_wire_boxes") or before == ["out", "of", "the"]
            )
        if said == ["condensing"]:
            return after[:1] in (["unit"], ["units"], ["fan"], ["fans"], ["section"], ["side"], ["coil"])
        if said == ["split"] or said == ["splits"]:
            return bool(before and before[-1] in {"mini", "ductless", "multi"}) or (
                bool(after)
                and after[0] in {"heat", "system", "systems", "unit", "units", "ac", "type", "phase"}
            )
        if said == ["draw"] and before[-1:]:
            # "It should draw 7.8" is what a motor draws, and no draw of beer.
            return before[-1] in {
                "should",
                "would",
                "will",
                "to",
                "it'll",
                "shouldn't",
                "must",
                "can",
                "didn't",
                "doesn't",
            }
        if said[-1] in {"pulled", "pulls", "pulling"}:
            return after == ["in"]
        return said == ["water"] and after in (["running"], ["flowing"])

    def span(self, kind: str, first: int, last: int) -> slice:
        """Return the slice of a list whose items start in the tokens [first, last)."""
        starts = self.starts[kind]
        return slice(bisect_left(starts, first), bisect_left(starts, last))

    def mode_at(self, token: int) -> str | None:
        """Return what the work is about at a token: vacuum, recovery, pressure_test or winding."""
        stretch = stretch_at(self.tests, token)
        if stretch is not None:
            return stretch.kind
        place = bisect_left(self.mode_starts, token)
        best = self.modes[place - 1] if place else None
        vacuum = next(
            (
                t
                for t in reversed(self.found.readings)
                if t.start < token and t.reading.quantity != "duration"
            ),
            None,
        )
        recent = vacuum is not None and vacuum.reading.quantity == "vacuum" and token - vacuum.end < 40
        if vacuum is not None and recent and (best is None or best.start < vacuum.start):
            return "vacuum"
        if best is None or best.label.mode is None:
            return None
        start = best.start
        if (
            self.tokens[start].segment != self.tokens[min(token, len(self.tokens) - 1)].segment
            and token - start > 40
        ):
            return None
        return best.label.mode if token - start < 150 else None

    def mode_start(self, token: int) -> int:
        """Return where the mode at a token was said."""
        place = bisect_left(self.mode_starts, token)
        return self.mode_starts[place - 1] if place else -1

    def found_tokens(self, first: int, last: int) -> set[int]:
        """Return the tokens in [first, last) that readings were taken from."""
        out: set[int] = set()
        for taken in reversed(self.found.readings):
            if taken.end <= first:
                break
            out.update(range(max(first, taken.start), min(last, taken.end)))
        return out

    def last(self, quantity: str | None = None, within: int = 10**9, before: int = 10**9) -> Taken | None:
        """Return the last reading taken, of a quantity when one is given."""
        for taken in reversed(self.found.readings):
            if taken.start >= before:
                continue
            if before - taken.end > within and before < 10**9:
                return None
            if quantity is None and taken.how == "condition":
                continue  # "10 K at 77, mine read 9.6" goes on with the ohms
            if quantity is None or taken.reading.quantity == quantity:
                return taken
        return None

    def last_head(self) -> float | None:
        """Return the last head pressure that was taken."""
        for taken in reversed(self.found.readings):
            if taken.reading.quantity == "pressure" and taken.reading.point == "discharge":
                return taken.reading.value
        return None

    def component_before(
        self,
        token: int,
        quantity: str,
        within: int = 250,
        able: frozenset[str] | None = None,
        likely: Callable[[ComponentAt], bool] | None = None,
    ) -> ComponentAt | None:
        """Return the component under talk at a token: the last one named on which this can be measured.

        With `able`, only the components of these names count; with `likely`, only those that can have the
        value.
        """
        begun = max((k for k in self.machine_starts if k <= token), default=-1)
        for c in reversed(self.components):
            if c.start >= token:
                continue
            if token - c.end > within or c.start < begun:
                return None
            if (
                quantity == "voltage"
                and c.name in {"breaker", "panel", "disconnect switch"}
                and self.words[c.start - 1] not in {"at", "on", "the", "from"}
            ):
                continue
            if c.name in {"motor", "wiring"} or (able is not None and c.name not in able):
                continue
            if able is not None and self.words[c.end : c.end + 1] == ["side"]:
                continue  # "on the relay side" tells a place
            if quantity in c.component.measures and (likely is None or likely(c)):
                if c.whose and quantity in self._head_of(c).component.measures:
                    continue  # "the contactor for the beater, coil 17 ohms"
                if c.backdrop and self._fits_before(c, quantity, able):
                    continue  # "the valve coil while the board was calling"
                return c
        return None

    def _fits_before(self, c: ComponentAt, quantity: str, able: frozenset[str] | None) -> bool:
        """Tell whether the sentence of a component names one in front of it on which this is measured."""
        for k in range(bisect_left(self.starts["components"], c.start) - 1, -1, -1):
            one = self.components[k]
            if c.start - one.end > 30 or {".", "?", "!", ";"} & set(self.words[one.end : c.start]):
                return False
            if quantity in one.component.measures and not one.backdrop and (able is None or one.name in able):
                return True
        return False

    def _head_of(self, c: ComponentAt) -> ComponentAt:
        """Return the component that one behind it only tells the use of."""
        return self.components[bisect_left(self.starts["components"], c.start) - 1]
