"""Which bare numbers a test under way goes on with."""

from __future__ import annotations

from dictate.mentions.roles.cues import find_correction_cues
from dictate.mentions.units_carried.assumed import AssumedUnits
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, WORK, Link, Taken
from dictate.mentions.word_lists import word_list


class UnderTest(AssumedUnits):
    """Which bare numbers a test under way goes on with."""

    def _says_value(self, v: Value, before: list[str], distance: int) -> bool:
        """Tell whether the words in front of a bare number present a value ("now it's", "came up to")."""
        cut = max((i for i, w in enumerate(before) if w in {",", ";", "it", "she", "now"}), default=-1)
        if WORK & set(before[cut + 1 :]):
            return False
        number = v.numbers[0] if v.numbers else None
        if any(
            zone_start <= c.start and c.end <= v.start and v.start - c.end <= 7
            for c in find_correction_cues(self.r.narration)
            for zone_start in (v.start - 12,)
        ):
            return True
        before = self._without_moment(self._without_names(v, before))
        if not before or (before == [","] and distance == 0 and self._moment_led(v)):
            return distance <= 1 or (number is not None and number.places > 0)
        if (
            number is not None
            and number.places
            and number.form in {"decimal", "short_decimal"}
            and len(before) <= 6
        ):
            return True
        after = self.words[v.end] if v.end < len(self.words) else "."
        if before[-1] in {"in", "out"} and distance == 0:
            return True
        if after in word_list("readings_says_value_2") and before[-1] in {"with", ",", "and", "to", "from"}:
            return True
        window = before[-6:]
        last = before[-1]
        presenting = word_list("readings_says_value")
        shown = {"is", "was", "'s", "be", "reads", "now"} & set(window)
        near = distance == 0 and len(before) <= 6
        return last in presenting or bool(shown and (near or last in COPULAS | {"the", "a", "that"}))

    def _moment_led(self, v: Value) -> bool:
        front = self.words[max(self.first, v.start - 4) : v.start]
        return bool({"end", "start", "beginning", "middle"} & set(front))

    def _without_moment(self, before: list[str]) -> list[str]:
        """Leave out when it was read: "end of freeze | 34", "at the start of harvest | 60"."""
        for size in (3, 4, 5):
            tail = before[-size:]
            moment = {"end", "start", "beginning", "middle"} & set(tail[:3]) and "of" in tail
            if len(tail) == size and moment and tail[-1] in word_list("quantities_cycles"):
                return before[:-size]
        return before

    def _without_names(self, v: Value, before: list[str]) -> list[str]:
        """Leave out component names and their numbers: "fan three | thirteen sixty" presents a value."""
        names: list[str] = []
        named = len(before) >= 2 and before[-2] in word_list("readings_numbered") and before[-1].isalnum()
        if named and (before[-1].isdigit() or before[-1] in {"one", "two", "three", "four", "five", "six"}):
            return before[:-2]
        for c in self.components:
            gap = set(self.words[c.end : v.start])
            if (
                c.end <= v.start
                and v.start - c.end <= 2
                and not gap & {"is", "was", "'s", "at", "are", "reads"}
            ):
                names += self.words[c.start : v.start]
        if not names:
            return before
        kept = before[: len(before) - len(names)] if before[-len(names) :] == names else before
        while kept and kept[-1] in {",", "the", "and", "other"}:
            kept = kept[:-1]
        return kept

    def _test_goes_on(self, v: Value) -> bool:
        """Tell whether a number like a clock time is the test value said before ("started at one fifty")."""
        mode = self.r.mode_at(v.start)
        if mode not in {"vacuum", "pressure_test"}:
            return False
        front = self.words[max(self.first, v.start - 5) : v.start]
        stalled = word_list("readings_stalled") & set(front)
        if mode == "vacuum" and stalled and front[-1:] in (["at"], ["to"]) and v.value >= 100:
            return True
        last = self.r.last("vacuum" if mode == "vacuum" else "pressure", before=v.start, within=60)
        if last is None:
            return False
        value = last.reading.value
        return (
            last.reading.quantity in {"pressure", "vacuum"}
            and value is not None
            and (0.5 if mode == "pressure_test" else 0.1) * value <= v.value <= 2 * value
        )

    def _test_value(self, v: Value, before: list[str], last: Taken | None) -> Link | None:
        """Take a bare number as the next value of the vacuum or the pressure test under way."""
        mode = self.r.mode_at(v.start)
        if mode not in {"vacuum", "pressure_test"} or v.value <= 0:
            return None
        quantity = "vacuum" if mode == "vacuum" else "pressure"
        counted = before[-1:] and before[-1] in {
            "first",
            "second",
            "third",
            "fourth",
            "finally",
            "try",
            "pull",
        }
        counted = counted or before[-2:] in (
            ["first", "one"],
            ["second", "one"],
            ["third", "one"],
            ["last", "one"],
        )
        counted = counted or before[-2:] in (["first", "time"], ["second", "time"], ["third", "time"])
        raised = before[-1:] == ["to"] and {"took", "brought"} & set(before[-4:])
        if not (counted or raised or self._says_value(v, before, 0 if not before else 1)):
            return None
        nearest = next(
            (
                t
                for t in reversed(self.r.found.readings)
                if t.start < v.start and t.reading.quantity != "duration"
            ),
            None,
        )
        earlier = self.r.last(quantity, before=v.start, within=90)
        level = earlier.reading.value if earlier is not None else None
        same = level is not None and level > 0 and 0.9 <= v.value / level <= 1.1
        other = (
            nearest is not None and nearest.sentence == self.number and nearest.reading.quantity != quantity
        )
        if other and not same:
            return None
        if earlier is not None and earlier.reading.unit == "inHg":
            return None
        if earlier is not None and earlier.reading.value:
            ratio = v.value / earlier.reading.value
            if not (0.02 <= ratio <= 60 if quantity == "vacuum" else 0.3 <= ratio <= 3):
                return None
            link = Link(
                quantity, earlier.reading.unit, v.value, earlier.label, None, unit_said=False, how="test"
            )
            link.reference = earlier.reading.reference
            return link
        if (
            last is not None
            and last.sentence == self.number
            and last.reading.quantity not in {"duration", "pressure", "vacuum"}
        ):
            return None
        if self.r.system.pressure == "us" and v.value >= 20:
            return self._assume(v, quantity, None)
        return None
