"""Values that were said of several points at once ("all three", "both open").

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise

from dictate.mentions.how_many import Several, several, speaks_of_several
from dictate.mentions.labels import PointAt
from dictate.mentions.places.places import Places
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ALL_THREE, MOTORS, Taken
from dictate.mentions.word_lists import word_list


@cache
def _every_one() -> frozenset[str]:
    """Return what stands behind a value of every one of several: "amps each ."."""
    leads = ("amp ", "amps ", "volt ", "volts ", "ohm ", "ohms ", "")
    said = [f"{lead}{words}" for lead in leads for words in word_list("states_every_one")]
    return frozenset([*said, *(f"{words} ." for words in said)])


@cache
def _all_legs() -> tuple[str, ...]:
    """Return the phrases for all legs."""
    return tuple(word_list("states_all_legs"))


@cache
def _opens_all_three() -> frozenset[str]:
    """Return the first words of the phrases for all three: most values have none behind them."""
    return frozenset(p.split()[0] for p in word_list("states_all_three"))


def others_of(point: str | None) -> tuple[str, ...]:
    """Return the other two of three legs or pairs of legs, in order; nothing for any other point."""
    for row in (ALL_THREE["voltage"], ALL_THREE["current"]):
        if point in row:
            return tuple(p for p in row if p != point)
    return ()


class States(Places):
    """Values that were said of several points at once ("all three", "both open")."""

    def _on_all_three(self, v: Value) -> bool:
        behind = ["three" if w == "3" else w for w in self.words[v.end : min(self.last, v.end + 6)]]
        cut = " ".join(behind).split(" , ")[0].split(" and ")[0]
        alone = len(self._group_of(v)) == 1
        if alone and cut.startswith(_all_legs()):
            return True
        if (
            alone
            and behind[:2] in (["a", "leg"], ["a", "phase"], ["per", "leg"])
            and (self._three_phase() or {"three", "3"} & set(behind[2:6]))
        ):
            return True  # "9.8 amps a leg, all three legs"
        if not _opens_all_three().isdisjoint(behind) and any(
            f" {p} " in f" {cut} " for p in word_list("states_all_three")
        ):
            return True
        led = self.words[max(self.first, v.start - 9) : v.start]
        if alone and behind[:1] == ["everywhere"] and v.value == 0 and self._legs_of_all_led(v):
            return True
        if alone and led[-1:] != [":"]:
            for i in range(len(led) - 2):
                if led[i] == "all" and led[i + 1] in {"three", "3"} and "to" in led[i + 2 : i + 5]:
                    first = v.start - len(led) + i
                    if not any(first <= x.start < v.start for x in self.values):
                        return True  # "all three to earth, over 200 megohms"
        return cut in _every_one() and v.start == self._group_of(v)[0].start and self._motor_on_three(v)

    def _legs_of_all_led(self, v: Value) -> bool:
        """Tell whether all three legs are under the meter: "across all three legs and it showed | zero"."""
        led = self.words[max(self.first, v.start - 12) : v.start]
        legs = word_list("states_legs")
        return any(
            led[i] == "all" and led[i + 1] in {"three", "3"} and not legs.isdisjoint(led[i + 2 : i + 5])
            for i in range(len(led) - 2)
        )

    def _both_ways(self, v: Value) -> bool:
        """Tell whether a nought is of two tests: "live to neutral and live to earth, | zero both ways"."""
        if v.value != 0 or self.words[v.end : v.end + 2] not in (["both", "ways"], ["each", "way"]):
            return False
        led = self.words[max(self.first, v.start - 14) : v.start]
        return led.count("to") == 2 and "and" in led

    def _motor_on_three(self, v: Value) -> bool:
        """Tell whether "each" is each leg: three phases are known and no several things are under talk."""
        near = set(self.words[max(0, v.start - 25) : v.start])
        return (
            self._three_phase()
            and not near & word_list("states_several")
            and bool(near & word_list("states_legs"))
        )

    def _three_legs(self, group: list[Value], made: list[Taken]) -> None:
        """Give a row of three amps or supply volts its legs: "amps 29, 29.5, 29" on three phases."""
        while len(made) > 3 and made[-1].reading.role != "measured":
            made = made[:-1]  # "22, 22.4 and 21.8 against a rated 26"
        if (
            not 3 <= len(group) <= 4
            or len(made) != 3
            or any(t.reading.point not in {None, "load", "line"} for t in made)
        ):
            return
        rows = [t.reading for t in made]
        quantity = rows[0].quantity
        if any(r.quantity != quantity or r.role != "measured" or not r.value or r.derived for r in rows):
            return
        low, high = min(r.value or 0 for r in rows), max(r.value or 0 for r in rows)
        if quantity not in {"current", "voltage"} or high > (1.6 if quantity == "current" else 1.1) * low:
            return
        if quantity == "voltage" and (low < 180 or any(r.point for r in rows)):
            return
        near = self.words[max(self.first, made[0].start - 8) : min(self.last, made[-1].end + 5)]
        several = word_list("states_several")
        named = {"legs", "phases"} & set(near)
        if several & set(near) and not named:
            return
        if len({r.which for r in rows}) > 1 and not named:
            return
        supply = quantity == "voltage" and high <= 1.06 * low and group[0].bare
        if not (named or supply or self._three_phase()):
            return
        for r, point in zip(rows, ALL_THREE[quantity], strict=True):
            r.point = point

    def _first_of_legs(self, v: Value, last: Value, taken: Taken) -> list[Taken]:
        """Return the first of a row of legs that may count by itself: "| six, 6.2, six on the legs"."""
        r = taken.reading
        behind = self.words[last.end : min(self.last, last.end + 6)]
        stop = next((i for i, w in enumerate(behind) if w in {".", ";", ","}), len(behind))
        if not v.bare or v.clock or v.range or not r.value or {"legs", "phases"}.isdisjoint(behind[:stop]):
            return []
        if r.quantity not in {"current", "voltage"} or not 0.6 <= v.value / r.value <= 1.6:
            return []
        link = self._like(v, taken)
        if link is None:
            return []
        first = r.model_copy(deep=True, update={"value": link.amount, "point": None})
        first.heard = self.r.narration.heard(v.start, v.end)
        return [replace(taken, reading=first, value=v, start=v.start, end=v.end)]

    def _three_phase(self) -> bool:
        """Tell whether the machine runs on three phases by what was said of it anywhere."""
        known: bool | None = self.r.narration.found.get("three phase")
        if known is None:
            words = self.r.narration.lowers
            said = any(a == "three" and b in {"phase", "phases", "legs"} for a, b in pairwise(words))
            legs = {p.name for p in self.r.points if p.kind in {"legs", "leg"}}
            known = said or bool({"L2-L3", "L1-L3", "L3"} & legs)
            self.r.narration.found["three phase"] = known
        return known

    def _both_legs(self, v: Value) -> tuple[str, ...]:
        """Return the legs of "zero volts both legs to ground", "both legs zero"."""
        stop = max((x.end for x in self.values if x.end <= v.start), default=self.first)
        if stop > self.first and self.words[v.end : v.end + 1] in (["across"], ["between"]):
            return ()  # "zero volts both legs to ground and zero across"
        if self._across_a_pair(v):
            return ()
        near = [
            *self.words[max(stop, v.start - 5) : v.start],
            "|",
            *self.words[v.start : min(self.last, v.end + 5)],
        ]
        for i, w in enumerate(near[:-1]):
            if w not in {"both", "either"}:
                continue
            noun = near[i + 1] if near[i + 1] not in {"the", "of"} else near[min(i + 2, len(near) - 1)]
            if noun in word_list("states_legs"):
                return ("L1", "L2")
        if self.words[v.end : v.end + 2] in (["on", "either"], ["on", "both"]):
            led = self.words[max(self.first, v.start - 5) : v.start]
            if {"both", "two"} & set(led) and word_list("states_legs") & set(led):
                return ("L1", "L2")  # "meter on both legs, nothing on either"
        return ()

    def _across_a_pair(self, v: Value) -> bool:
        """Tell whether volts were read from one to the other of two: "zero across both lugs" is one value."""
        behind = [w for w in self.words[v.end : min(self.last, v.end + 6)] if w not in {"the", "of", "volts"}]
        return (
            behind[:1] in (["across"], ["between"])
            and behind[1:2] in (["both"], ["two"])
            and not word_list("ends_of_a_pair").isdisjoint(behind[2:3])
        )

    def _pair_led(self, v: Value) -> bool:
        """Tell whether a value was read from one to the other: "across the other two, | six two"."""
        led = [w for w in self.words[max(self.first, v.start - 7) : v.start] if w not in {"the", "of"}]
        return any(
            led[i] in {"across", "between"} and {"two", "both", "2"} & set(led[i + 1 : i + 3])
            for i in range(len(led) - 1)
        ) and not word_list("states_several") & set(led)

    def _both(self, v: Value) -> list[PointAt]:
        """Return the points that one value was said of.

        As in "C to S and C to R both open", "line and load 240", "both gauges stood at four bar".
        """
        led = self.words[max(self.first, v.start - 6) : v.start]
        if (
            v.state == "value"
            and "gauges" in led
            and {"both", "two"} & set(led)
            and v is self._group_of(v)[-1]
        ):
            sides = frozenset({"pressure"})
            return [PointAt(v.start, v.end, p, "point", sides) for p in ("suction", "discharge")]
        group = self._group_of(v)
        stop = max((x.end for x in self.values if x.end <= group[0].start), default=self.first)
        pre = [p for p in self.points if stop <= p.start and p.end <= v.start and p.kind != "leg"]
        if len(pre) < 2 or len(group) > 1 or v.start - pre[-1].end > 4:
            return []
        row = [pre[-1]]
        for p in reversed(pre[:-1]):
            gap = set(self.words[p.end : row[0].start])
            if (
                not gap <= {"and", ",", "the", "side", "also", "plus", "&"}
                or not gap
                or p.kind != row[0].kind
            ):
                break
            row.insert(0, p)
        joined = {"and", "&", "plus"} & set(self.words[row[0].end : row[-1].start])
        if len(row) < 2 or not (
            joined or {"both", "all", "each"} & set(self.words[row[0].start - 2 : v.start])
        ):
            return []
        return row if len({p.name for p in row}) == len(row) else []

    def _several(self, taken: Taken) -> Several | None:
        """Return of how many things a value was said: "both fans draw 0.9", "point six eight apiece"."""
        v, reading = taken.value, taken.reading
        rowed = self.r.narration.found.get("row_states", {}).get(v.start, 0)
        if rowed > 1:
            return Several(rowed)
        if self._both_ways(v):
            reading.point = None  # each is of another pair
            return Several(2)
        if not self._counts_things() or reading.quantity not in word_list("states_of_several"):
            return None
        if reading.role != "measured" or v.range or v.change or v.marking:
            return None
        if reading.quantity == "voltage" and self._across_a_pair(v):
            return None
        if reading.quantity in {"resistance", "voltage"} and self._pair_led(v):
            return None
        group = self._group_of(v)
        before = max((x.end for x in self.values if x.end <= v.start), default=self.first)
        behind = next((x.start for x in self.values if x.start >= v.end and not self._counts(x)), self.last)
        found = several(
            self.words, (before, behind), (v.start, v.end), alone=len(group) == 1, after=before > self.first
        )
        if found is None or (found.count == len(group) and len(group) > 1):
            return None
        return found

    def _counts_things(self) -> bool:
        """Tell whether the sentence has a word of several things; looked up once for a sentence."""
        known: bool | None = getattr(self, "_of_several", None)
        if known is None:
            known = self._of_several = speaks_of_several(self.words[self.first : self.last])
        return known

    def _counts(self, v: Value) -> bool:
        """Tell whether a bare number counts things: "each, all 4", "of the two"."""
        lead = self.words[v.start - 1] if v.start else "."
        return (
            v.bare and v.value.is_integer() and 2 <= v.value <= 12 and lead in word_list("states_counts_lead")
        )

    def _copies(self, taken: Taken, found: Several | None) -> list[Taken]:
        """Make as many readings of a value as it was said of things; legs have their points."""
        if found is None:
            return [taken]
        points = self._legs_of(taken, found)
        if points:
            return [
                replace(
                    taken, reading=taken.reading.model_copy(deep=True, update={"point": p}), place_said=True
                )
                for p in points
            ]
        which = found.which or (taken.reading.which,) * found.count
        return [
            replace(taken, reading=taken.reading.model_copy(deep=True, update={"which": w})) for w in which
        ]

    def _legs_of(self, taken: Taken, found: Several) -> tuple[str, ...]:
        """Return the legs that are counted: all three, or the other two of them."""
        if taken.reading.quantity == "pressure" and found.noun == "sides" and taken.reading.point is None:
            return ("suction", "discharge")
        row = ALL_THREE.get(taken.reading.quantity, ())
        if taken.reading.quantity == "voltage" and found.noun in {
            "leg",
            "legs",
            "hots",
            "hot",
            "pole",
            "poles",
        }:
            row = ("L1", "L2", "L3")
        if not row or taken.reading.point not in {None, *row}:
            return ()
        if found.count == 3 and found.legs:
            single = taken.reading.quantity == "voltage" and 95 <= (taken.reading.value or 0) <= 140
            return row[:2] if single and not self._three_phase() else row
        if found.count == 2 and self.r.found.readings:
            last = self.r.found.readings[-1].reading
            if last.quantity == taken.reading.quantity:
                return others_of(last.point)
        return ()

    def _spread(self, taken: Taken) -> list[Taken]:
        """Make one reading for each point of "nothing to ground on all three"."""
        both = [p for p in self._both(taken.value) if taken.reading.quantity in p.only]
        if both:
            return [
                replace(
                    taken,
                    reading=taken.reading.model_copy(deep=True, update={"point": p.name}),
                    place_said=True,
                )
                for p in both
            ]
        points = taken.value.points
        counted = None if points else self._several(taken)
        three = not points and self._on_all_three(taken.value) and (counted is None or counted.count == 3)
        if three and taken.value.state == "open" and taken.reading.point in {None, "ground"}:
            # "to the frame none of them leak, it's over range on all three"
            ground = word_list("values_ground") & set(
                self.words[max(self.first, taken.start - 12) : taken.end]
            )
            point = "ground" if ground else taken.reading.point
            return [
                replace(taken, reading=taken.reading.model_copy(deep=True, update={"point": point}))
                for _ in range(3)
            ]
        if three and taken.value.state in {"value", "zero"}:
            points = ALL_THREE.get(taken.reading.quantity, ())
            if taken.value.state == "zero" and taken.reading.quantity == "voltage":
                points = ("L1", "L2", "L3")
            if taken.reading.quantity == "resistance" and (taken.reading.value or 0) >= 100_000:
                motor = taken.reading.component in MOTORS or taken.reading.component is None
                points = ("common-ground", "run-ground", "start-ground") if motor else ("ground",) * 3
            if taken.reading.point == "line-load" and taken.reading.quantity == "voltage":
                points = ("L1", "L2", "L3")  # "the drop is 0.08 on all three": of the poles
            whole = taken.reading.point in {None, "line-load"} or (
                taken.reading.point == "ground" and points[0].endswith("ground")
            )
            if points and whole:
                copies = [taken.reading.model_copy(deep=True, update={"point": p}) for p in points]
                return [
                    Taken(
                        c,
                        taken.value,
                        taken.start,
                        taken.end,
                        taken.sentence,
                        taken.label,
                        taken.said_unit,
                        True,
                        True,
                        taken.how,
                        taken.label_here,
                    )
                    for c in copies
                ]
            return self._copies(taken, counted or Several(3))
        if not points and taken.value.state != "open" and taken.reading.quantity == "voltage":
            legs = self._both_legs(taken.value)
            if legs and (taken.reading.point is None or taken.reading.point == "ground"):
                return [
                    replace(
                        taken,
                        reading=taken.reading.model_copy(deep=True, update={"point": p}),
                        place_said=True,
                    )
                    for p in legs
                ]
        if not points:
            return self._copies(taken, counted)
        if taken.value.state == "zero":
            across = tuple(p for p in points if p == "L1-L2")
            sides: tuple[str | None, ...] = self._both_legs(taken.value)
            sides = (sides or (None,) * (len(points) - len(across))) + across
            return [
                replace(taken, reading=taken.reading.model_copy(deep=True, update={"point": p}))
                for p in sides
            ]
        reading = taken.reading
        if taken.value.pins and reading.component not in MOTORS:
            reading.component = self._motor(taken.value)
        motor = reading.component in MOTORS or reading.component is None
        recent = [
            t.reading.point
            for t in self.r.found.readings[-8:]
            if t.reading.quantity == "resistance" and t.reading.point
        ]
        phases = [p for p in recent if p.startswith("L")]
        if not motor:
            points = ("ground",) * len(points)
        elif len(phases) >= 2 and "common-run" not in recent:
            points = ("L1-ground", "L2-ground", "L3-ground")[: len(points)]
        if reading.component is None:
            reading.component = self._motor(taken.value)
        out = []
        for point in points:
            copy = reading.model_copy(deep=True, update={"point": point})
            out.append(
                Taken(
                    copy, taken.value, taken.start, taken.end, taken.sentence, taken.label, True, True, True
                )
            )
        return out
