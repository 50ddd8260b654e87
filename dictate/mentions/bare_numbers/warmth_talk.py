"""Bare numbers that are temperatures by what is spoken of."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.roles.compared import Compared
from dictate.mentions.spoken_numbers import numbers_by_end, numbers_by_start
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_SOME_TIME = (["this", "morning"], ["this", "afternoon"], ["this", "evening"], ["when", "i"], ["when", "we"])
_TO = (["to"], ["down", "to"], ["up", "to"])
_TIMES = (["tonight"], ["there"], ["here"])


class WarmthTalk(Compared):
    """Tells bare numbers that are temperatures."""

    def _weather(self, v: Value) -> Link | None:
        """Read "it's ninety one out" as the temperature outside."""
        if self.words[v.end : v.end + 1] != ["out"] or not self.r.system.fits_temperature(v.value):
            return None
        lead = self.words[max(self.first, v.start - 3) : v.start]
        after = self.words[v.end + 1 : v.end + 2]
        today = v.start == self.first and (
            after == ["today"] or self.words[v.end + 1 : v.end + 3] in _SOME_TIME or after in _TIMES
        )
        some_time = today and after != ["today"]
        if not some_time and (not (today or {"it", "it's"} & set(lead)) or after not in (
            ["."], [","], ["and"], ["today"], ["there"], ["here"], ["right"], ["now"], ["so"], ["but"],
        )):  # fmt: skip
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = "ambient"
        return link

    def _warmth_shown(self, v: Value) -> Link | None:
        """Read "| 98 out of the registers" as supply air, "it sits at | 9 on a set point of 2" as the box."""
        if not v.bare or v.clock or v.range or not self.r.system.fits_temperature(v.value):
            return None
        behind = self.words[v.end : min(self.last, v.end + 4)]
        outlets = behind[:1] == ["out"] and not word_list("warmth_outlets").isdisjoint(behind[1:])
        if outlets and v.start == self.first:
            link = self._assume(v, "temperature", None, "row")
            if link is not None:
                link.point = "supply"
            return link
        against = behind[:2] in (
            ["on", "a"],
            ["against", "a"],
            ["with", "a"],
            ["on", "the"],
            ["against", "the"],
        )
        if not against or behind[2:3] not in (["set"], ["setpoint"]):
            return None
        lead = self.words[max(self.first, v.start - 3) : v.start]
        if not {"sits", "sat", "at", "sitting", "reads", "showing", "shows", "is", "holding"} & set(lead):
            return None
        if any(x.end <= v.start and v.start - x.end <= 4 and not x.label.weak for x in self.labels):
            return None
        return self._assume(v, "temperature", None, "row")

    def _pulled_through(self, v: Value) -> Link | None:
        """Read "Ran a test. | 150 to 41 in an hour" and "from six to four in eleven minutes" as temperatures.

        Nothing that could be of another kind was said in the sentence before the two.
        """
        fits = self.r.system.fits_temperature
        if not v.bare or v.clock or "in" not in self.words[v.end : v.end + 7] or v.range or not fits(v.value):
            return None
        starts, ends = numbers_by_start(self.r.narration), numbers_by_end(self.r.narration)
        own = starts.get(v.start)
        if own is None:
            return None
        other = next(
            (starts[k] for k in (v.end + 1, v.end + 2) if k in starts and self.words[v.end : k] in _TO), None
        )
        if other is not None:
            a, b = own, other
        else:
            k = next((k for k in (1, 2) if self.words[v.start - k : v.start] in _TO), 0)
            if not k or v.start - k not in ends:
                return None
            a, b = ends[v.start - k], own
        if a.start < self.first or not (fits(a.value) and fits(b.value)) or abs(a.value - b.value) < 1.5:
            return None
        if self.words[b.end : b.end + 1] != ["in"] or not self._a_time_at(b.end + 1):
            return None
        said = set(self.words[self.first : a.start])
        if said & word_list("warmth_not_pulled") or any(
            x.start < a.start and x.start >= self.first and not x.label.weak for x in self.labels
        ):
            return None
        return self._assume(v, "temperature", None, "row")

    def _a_time_at(self, k: int) -> bool:
        """Tell whether a stretch of time begins at the token k: "in | an hour and ten", "in | 11 minutes"."""
        return not {"minutes", "minute", "hour", "hours", "seconds"}.isdisjoint(self.words[k : k + 4])

    def _set_temperature(self, v: Value) -> bool:
        mode = self.r.mode_at(v.start)
        last = self.r.last(before=v.start, within=25)
        if last is not None and last.reading.quantity not in {"temperature", "duration"}:
            return False
        if v.value > 85 or {"defrost", "timer", "minutes", "psi"} & set(
            self.words[max(0, v.start - 30) : v.start]
        ):
            return False
        return self.r.system.fits_temperature(v.value) and mode not in {"vacuum", "pressure_test", "defrost"}

    def _signed(self, v: Value, best: tuple[float, LabelAt] | None) -> bool:
        """Tell whether a sign makes a bare number a temperature: "left it at plus 8"."""
        if best is not None and not best[1].label.weak:
            return False
        plus = self.words[v.start - 1 : v.start] == ["plus"] or self.words[v.start] == "plus"
        at = v.start - (self.words[v.start] != "plus")
        joined = any(x.end == at for x in self.values)
        number = v.numbers[0] if v.numbers else None
        minus = number is not None and number.negative
        fits_ = self.r.system.fits_temperature(v.value)
        if minus and fits_ and best is None:
            return True
        if plus and fits_ and not joined and self._sign_told(v, at):
            return True
        return (
            fits_
            and ((plus and not joined) or minus)
            and self.r.last("temperature", before=v.start) is not None
        )

    def _sign_told(self, v: Value, at: int) -> bool:
        """Tell whether "plus" is a sign: on a probe or a display, or beside another signed number."""
        if at and self.words[at - 1] in {"cost", "hour"}:
            return False
        behind = self.words[v.end : v.end + 5]
        behind = behind[: next((i for i, w in enumerate(behind) if w in {".", ","}), 5)]
        led = behind[:1] in (["on"], ["by"], ["at"], ["inside"], ["in"])
        shown = led and word_list("sign_shown") & set(behind)
        signed = any(
            w is not v and w.state == "value" and w.numbers and w.numbers[0].negative and not w.range
            for w in self.values
        )
        return bool(shown) or (signed and behind[:1] != ["or"])

    def _at_temperature(self, v: Value, last: Taken | None) -> bool:
        """Tell whether "at 72" behind a test pressure or a sensor's ohms says how warm it was."""
        if last is None or last.sentence != self.number or self.words[v.start - 1 : v.start] != ["at"]:
            return False
        if v.start - last.end > 3 or not self.r.system.fits_temperature(v.value) or v.value < 0:
            return False
        if v.clock or self.words[v.end : v.end + 1] in (["past"], ["to"], ["till"], ["o'clock"]):
            return False  # "at ten past nine"
        reading = last.reading
        if reading.quantity == "resistance":
            return reading.component in {"temperature sensor", "sensor", None} and (reading.value or 0) >= 500
        tested = self.r.mode_at(v.start) == "pressure_test" and reading.quantity == "pressure"
        warm = (reading.value or 0) > v.value or self._tested_at(v)
        return tested and warm and not self._kind(v)

    def _tested_at(self, v: Value) -> bool:
        """Tell whether the temperature of a test or of a sensor was said with its degrees shortly before."""
        before = self.r.last("temperature", before=v.start, within=400)
        near = (
            before is not None
            and before.reading.value is not None
            and abs(before.reading.value - v.value) <= 25
        )
        return near or self.r.last("resistance", before=v.start, within=4) is not None
