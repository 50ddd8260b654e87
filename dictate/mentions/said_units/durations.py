"""Whether an amount of time is one of the machine or of a test, and no working time."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import lasted_so_long, timed_by_event
from dictate.mentions.quantities import FILLERS
from dictate.mentions.said_units.meanings import UnitMeanings
from dictate.mentions.spoken_numbers import numbers_by_end
from dictate.mentions.test_stretches import stretch_at, stretch_words
from dictate.mentions.values import Value
from dictate.mentions.word_lists import word_list

_LEADS = frozenset(("for", "in", "after", "over", "within", "about", "and", "then", "at"))
_ROUND = 12  # words between two times of rounds that follow each other


class SaidDurations(UnitMeanings):
    """Whether an amount of time is one of the machine or of a test."""

    def _only_told(self, v: Value, quantity: str) -> bool:
        """Tell whether an amount is none: "not a gram over", "for a minute", "in the last 24 hours"."""
        before = self.words[max(self.first, v.start - 2) : v.start]
        if quantity == "duration" and before in (["of", "the"], ["of", "that"]):
            last = self.r.last("duration", before=v.start, within=16)
            if last is not None and last.value.value == v.value and last.value.word == v.word:
                return True  # "for half an hour and at the end of the half hour"
        if self.words[v.start] in {"a", "an"} and v.value == 1:
            ends = numbers_by_end(self.r.narration)
            led = before[-1] if before else "."
            if quantity == "duration" and led.isalpha() and led not in _LEADS and v.start - 1 in ends:
                return True  # "1 teaspoon an hour" is how fast it drips
            if before[-1:] and (before[-1] in {"not", "without", "never"} or before[-1].endswith("n't")):
                return True
            return (
                quantity == "duration"
                and v.word in {"minute", "second"}
                and before[-1:] not in (["once"], ["at"])
            )
        return quantity == "duration" and before in (["the", "last"], ["the", "past"], ["the", "previous"])

    def _machine_time(self, v: Value, labels: list[LabelAt], mode: str | None) -> bool:
        """Tell whether a duration is one of the machine or of a test, and not working time."""
        named = [x for x in labels if x.label.default == "duration" or x.label.point == "hold"]
        if self._time_setting(v):
            return True
        if not {"hour", "hours"} & set(self.words[v.start : v.end]) and timed_by_event(
            self.words, self.first, self.last, v.start, v.end
        ):
            return True
        if self._left_alone(v) or self._made_in(v) or self._that_took(v):
            return True
        if lasted_so_long(self.words, self.first, self.last, v.start, v.end):
            return True
        if self._next_round(v):
            return True
        cycling = {"cycles", "cycle", "cycling", "runs", "running"} & set(
            self.words[max(self.first, v.start - 4) : v.start]
        )
        if self._each_of_a_day(v):
            return True
        turned = self.words[v.end : v.end + 1] in (["on"], ["off"])
        if cycling and turned and self.words[v.end + 1 : v.end + 2] in ([","], ["and"], ["."], []):
            return True  # "cycles eleven minutes on, six off"
        if mode == "defrost" and {"took", "ran", "lasted", "in", "terminated"} & set(
            self.words[max(self.first, v.start - 4) : v.end + 3]
        ):
            return True
        near = self.words[max(self.first, v.start - 6) : min(self.last, v.end + 5)]
        spent = word_list("readings_machine_time") & set(near)
        # In a test that stands under pressure a pause is the test: "back from lunch 45 minutes later, 250".
        stood = self.words[v.end : v.end + 1] == ["later"] and spent <= {
            "lunch",
            "drive",
            "drove",
            "driving",
            "away",
        }
        if spent and not named and not (stood and mode in {"vacuum", "pressure_test"}):
            return False
        if (
            {"sit", "cool"} & set(near)
            and {"cool", "down"} & set(near)
            and not any(x.label.mode for x in labels)
        ):
            return False
        if any(x.label.default == "duration" and not x.label.weak for x in labels):
            return True
        if named and not {"an", "hour"} >= set(self.words[v.start : v.end]):
            return True
        if self._test_time(v):
            return True
        later = self.words[v.end : v.end + 1] == ["later"]
        if (
            later or {"in", "within"} & set(self.words[max(self.first, v.start - 2) : v.start])
        ) and v.word in {"minute", "second"}:
            partner = {"temperature", "pressure", "vacuum"}
            same = [
                t
                for t in self.r.found.readings
                if t.sentence == self.number and t.reading.quantity in partner
            ]
            if same or any(self._kind(w) in partner for w in self.values):
                return True
        if v.state == "value" and mode in {"vacuum", "pressure_test"}:
            # A test time stands in a sentence with the test, or right after one.
            return self._test_near(v)
        return False

    def _made_in(self, v: Value) -> bool:
        """Read "did a catch test, eleven pounds in | thirty minutes": so long the ice was caught."""
        if self.words[v.start - 1 : v.start] != ["in"]:
            return False
        made = next((w for w in self.values if w.end == v.start - 1), None)
        if made is None or made.word not in {"pound", "ounce", "kilogram", "kilo", "gram"}:
            return False
        return not word_list("made_in").isdisjoint(self.words[max(0, v.start - 40) : v.start])

    def _that_took(self, v: Value) -> bool:
        """Read "down to 2 on both. | 35 minutes that took" as how long the machine needed to get there."""
        behind = self.words[v.end : v.end + 3]
        if behind[:2] not in (["that", "took"], ["it", "took"], ["she", "took"], ["to", "get"]):
            return False
        if behind[2:] and behind[2] not in {".", ",", "and", "there", "to", "!"}:
            return False  # "40 minutes it took me"
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.reading.quantity != "temperature" or self.number - last.sentence > 1:
            return False
        return "to" in self.words[max(0, last.start - 3) : last.start]

    def _left_alone(self, v: Value) -> bool:
        """Read "got 175 on it and walked off for | twenty-five minutes": so long the pressure stood."""
        lead = self.words[max(self.first, v.start - 4) : v.start]
        if lead[-1:] != ["for"] or not {"off", "away", "out"} & set(lead[-3:-1]):
            return False
        if word_list("left_alone").isdisjoint(lead):
            return False
        last = self.r.found.readings[-1] if self.r.found.readings else None
        return (
            last is not None
            and last.sentence == self.number
            and last.reading.quantity == "pressure"
            and last.reading.point is None
            and last.reading.role == "measured"
        )

    def _next_round(self, v: Value) -> bool:
        """Read "nineteen minutes on the first, then | fifteen minutes forty" as another of these times."""
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.reading.quantity != "duration" or last.reading.role != "measured":
            return False
        if self.number - last.sentence > 1 or v.start - last.end > _ROUND:
            return False
        before, now = (
            self._in_minutes(last.reading.value, last.reading.unit),
            self._in_minutes(v.value, v.word),
        )
        if not before or not 0.4 <= now / before <= 2.5:
            return False
        lead = self.words[max(self.first, last.end) : v.start]
        cut = max((i for i, w in enumerate(lead) if w in {",", ";", "."}), default=-1)
        clause = set(lead[cut + 1 :])
        others = word_list("told_times_others")
        return bool(others & clause) and clause <= others | word_list("told_times_between") | FILLERS

    def _in_minutes(self, value: float | None, unit: str | None) -> float:
        """Return a time in minutes, 0 for what is no time of rounds."""
        factor = {"min": 1.0, "minute": 1.0, "s": 1 / 60, "second": 1 / 60}.get(unit or "", 0.0)
        return (value or 0.0) * factor

    def _each_of_a_day(self, v: Value) -> bool:
        """Read "4 a day, 25 minutes each" as what a control is set to."""
        before = self.words[max(self.first, v.start - 6) : v.start]
        return self.words[v.end : v.end + 1] in (["each"], ["apiece"], ["long"]) and any(
            before[i : i + 2] in (["a", "day"], ["per", "day"]) for i in range(len(before))
        )

    def _time_setting(self, v: Value) -> bool:
        """Tell whether a time is what a control is set to: "the board was set at sixty minutes"."""
        before = self.words[max(self.first, v.start - 9) : v.start]
        if {"took", "ran", "lasted", "came", "timed"} & set(before):
            return False
        after = self.words[v.end : min(v.end + 3, self.last)]
        after = after[: next((i for i, w in enumerate(after) if w in {".", ",", ";"}), 3)]
        failsafe = {"failsafe", "fail-safe"} & {*before[-4:], *after[:2]} or (
            ["fail", "safe"] in (before[-2:], before[-3:-1], before[-4:-2], after[:2])
        )
        failsafe = failsafe or (["fail", "-", "safe"] in (before[-3:], before[-4:-1], after[:3]))
        if failsafe:
            return True
        setting = (
            before[-2:-1] and before[-2] in word_list("time_sets") and before[-1] in {"at", "for", "to", "on"}
        )
        setting = setting or before[-1:] in (["set"], ["jumper"])
        return bool(setting) and bool(word_list("time_controls") & set(before))

    def _test_time(self, v: Value) -> bool:
        """Tell whether a time lies in a test under way, and beside a value of it."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None:
            return False
        near = set(self.words[max(self.first, v.start - 6) : min(self.last, v.end + 4)])
        if near & stretch_words("worked"):
            return False
        ahead = self.r.labels[self.r.span("labels", v.end, min(self.last, v.end + 5))]
        if any(x.label.mode is None and x.label.point != "hold" and not x.label.weak for x in ahead):
            return False  # "twenty minutes later suction was seventeen"
        return v.word in {"minute", "hour", "second"}

    def _test_near(self, v: Value) -> bool:
        for label in self.labels:
            if label.label.mode in {"vacuum", "pressure_test"} or label.label.point == "hold":
                return True
        for taken in reversed(self.r.found.readings):
            if self.number - taken.sentence > 1:
                break
            if taken.reading.quantity in {"vacuum"} or (
                taken.reading.quantity == "pressure" and taken.reading.point is None
            ):
                return True
        return any(
            w.word in {"micron", "psi", "bar", "millibar", "pascal"} for w in self.values if w is not v
        )
