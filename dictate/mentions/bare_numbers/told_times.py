"""Bare numbers that are times of the machine: by a time told beside, by an end, by a watch.

"First freeze left 9 minutes, right one took | 8 and a half", "second batch 13 minutes 50 and | 90",
"dropped out in | twenty two", "I clocked | four". A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import ends_before
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!"))
_FAR, _NEAR = 26, 12
_EXACT = 5
_HALF = 0.5


def _on_the_stopwatch(v: Value) -> float:
    """Return "fifteen forty" in minutes, as a stopwatch has it, and any other number as it is."""
    number = v.numbers[0] if len(v.numbers) == 1 else None
    if number is None or number.form != "pair" or not 100 <= number.value < 6000 or number.value % 100 >= 60:
        return v.value
    minutes, seconds = divmod(number.value, 100)
    return minutes + seconds / 60


def _minutes_of(t: Taken) -> float:
    """Return a time that was read in minutes; 0 for none."""
    value = t.reading.value or 0.0
    return {"min": value, "s": value / 60, "h": value * 60}.get(t.reading.unit or "", 0.0)


class ToldTimes(Compared):
    """Tells the bare numbers that are minutes or seconds of the machine."""

    def _told_in_time(self, v: Value, costs: list[tuple[float, LabelAt]]) -> Link | None:
        """Return the time that a bare number is, by a time told before it, by an event or by a watch."""
        amount = _on_the_stopwatch(v)
        if not v.bare or v.clock or v.range or v.marking or not _HALF <= amount <= 600:
            return None
        if any(
            cost <= 3 and not x.label.weak and (x.label.quantity or x.label.default) not in {None, "duration"}
            for cost, x in costs
        ):
            return None
        last = self.r.last("duration", before=v.start, within=_FAR)
        if last is not None:
            level = self._level_again(v, last)
            if level is not None:
                return self._like(v, level)
            tested = self.r.mode_at(v.start) in {"vacuum", "pressure_test"}
            level_told = tested and self.words[v.start - 1 : v.start] == ["to"]  # "came back to | 0.8"
            again = None if level_told else self._time_again(v, last)
            again = again or self._more_exactly(v, last) or self._lasted(v, last) or self._the_very(v)
            if again is not None:
                return again
        if amount != v.value:
            return None
        return self._watched(v) or self._ended_in(v)

    def _time_again(self, v: Value, last: Taken) -> Link | None:
        """Go on with a time for the other side, the next one, another day: "today | 19 and a half"."""
        if self.number - last.sentence > 1 or not self._no_other_between(last.end, v.start):
            return None
        behind = self._names_another(v, last)
        led = self._led_by_another(v, last)
        if not (behind or led):
            return None
        amount = _on_the_stopwatch(v)
        for t in (last, *self._times_before(last)):
            if amount != v.value:
                if _minutes_of(t) and 0.4 <= amount / _minutes_of(t) <= 2.5:
                    return self._same_time(v, t, amount)
            elif t.reading.value and 0.4 <= v.value / t.reading.value <= 2.5:
                return self._same_time(v, t)
        return None

    def _level_again(self, v: Value, last: Taken) -> Taken | None:
        """Return the level that another one's goes on from: "27 degrees in 35 minutes, right | 28"."""
        level = self.r.last("temperature", before=last.start, within=6)
        if level is None or level.sentence != self.number or level.reading.value is None:
            return None
        if self.words[last.start - 1 : last.start] not in (["in"], ["after"], ["within"]):
            return None
        if not (self._names_another(v, last) or self._led_by_another(v, last)):
            return None
        nearer = abs(v.value - level.reading.value) < abs(v.value - (last.reading.value or 0.0))
        return level if nearer else None

    def _more_exactly(self, v: Value, last: Taken) -> Link | None:
        """Read "eighteen minutes, well, | eighteen twenty" as the same time with its seconds."""
        amount = _on_the_stopwatch(v)
        if amount == v.value or last.sentence != self.number or v.start - last.end > _EXACT:
            return None
        if last.reading.unit != "min" or last.reading.value != int(amount):
            return None
        return self._same_time(v, last, amount) if self._no_other_between(last.end, v.start) else None

    def _times_before(self, last: Taken) -> list[Taken]:
        """Return the times read before the last one, the nearest first: a cycle told once more."""
        rows = [t for t in self.r.found.readings[-9:] if t.reading.quantity == "duration" and t is not last]
        return [t for t in reversed(rows) if last.start - t.end <= 40]

    def _same_time(self, v: Value, t: Taken, minutes: float | None = None) -> Link:
        unit, amount = (t.reading.unit or "min", v.value) if minutes is None else ("min", tidy(minutes))
        link = Link("duration", unit, amount, t.label, None, unit_said=False, how="test")
        link.point, link.explicit = t.reading.point, True
        return link

    def _no_other_between(self, start: int, end: int) -> bool:
        """Tell whether nothing that is measured otherwise was named between two times."""
        if any(start <= t.start < end for t in self.r.found.readings[-4:]):
            return False
        if self.r.components[self.r.span("components", start, end)] and end - start > _NEAR:
            return False
        return all(
            x.label.weak or (x.label.quantity or x.label.default) in {None, "duration"}
            for x in self.r.labels[self.r.span("labels", start, end)]
        )

    def _names_another(self, v: Value, last: Taken) -> bool:
        """Tell whether a side stands behind both times: "11 minutes on the left, | 9 on the right"."""
        tail = [w for w in self.words[v.end : min(self.last, v.end + 4)] if w not in {"on", "the", "for"}]
        sides = word_list("readings_sides")
        if tail[:1] in (["now"], ["today"]) and tail[1:2] in ([], ["."], [","], ["and"], [";"]):
            return last.sentence == self.number and v.start - last.end <= _NEAR
        if last.sentence != self.number or tail[:1] == [] or tail[0] not in sides:
            return False
        if tail[1:2] and tail[1] not in _STOPS | {"one", "side", "and", "barrel", "head"}:
            return False
        return bool(sides & set(self.words[last.end : v.start])) and v.start - last.end <= _NEAR

    def _led_by_another(self, v: Value, last: Taken) -> bool:
        """Tell whether the words before a number name another one or another day, and nothing else."""
        after = self.words[v.end] if v.end < self.last else "."
        if after not in word_list("told_times_follows"):
            return False
        lead = self.words[max(self.first, last.end if last.sentence == self.number else self.first) : v.start]
        if lead == ["and"] and last.sentence == self.number:
            return len(self._times_before(last)) >= 2
        cut = max((i for i, w in enumerate(lead) if w in _STOPS), default=-1)
        clause = set(lead[cut + 1 :])
        if not clause or len(lead) - cut > 8:
            return False
        others = word_list("told_times_others")
        return (
            bool(others & clause) and clause <= others | word_list("told_times_between") | FILLERS | COPULAS
        )

    def _lasted(self, v: Value, last: Taken) -> Link | None:
        """Read "out of defrost in 22 minutes and the fans waited another | three" as minutes as well."""
        if last.sentence != self.number or v.start - last.end > 12 or v.value > 60:
            return None
        if not 0.05 <= v.value / (_minutes_of(last) or 1e9) <= 2.5:
            return None  # "off for three minutes, ran forty again": seconds
        after = self.words[v.end] if v.end < self.last else "."
        lead = [w for w in self.words[last.end : v.start] if w not in FILLERS]
        if not word_list("machine_time_people").isdisjoint(lead):
            return None
        another = lead[-1:] == ["another"]
        verb = lead[-2:-1] if another or lead[-1:] == ["for"] else lead[-1:]
        ran = bool(verb) and verb[0] in word_list("lasted_verbs") and after in word_list("told_times_follows")
        later = after == "later" and _STOPS.isdisjoint(lead[1:]) and "on" in lead[-1:]
        return self._minutes(v, None) if ran or later else None

    def _the_very(self, v: Value) -> Link | None:
        """Read "forty minutes, and I watched one run its | forty", "after the | 90" as that time again."""
        lead = self.words[v.start - 2 : v.start]
        if lead[-1:] == [] or lead[-1] not in {"its", "the", "those", "that", "full"} or v.value < 10:
            return None
        if lead[0] not in word_list("lasted_verbs") | {"after", "in", "within", "inside"}:
            return None
        after = self.words[v.end] if v.end < self.last else "."
        if after not in word_list("told_times_follows") | {"when", "it"}:
            return None
        near = [w for w in self.r.values if w.quantity is not None and 0 <= v.start - w.end <= 60]
        said = [w for w in near if w.word == "minute" and w.value == v.value]
        return self._minutes(v, None) if said else None

    def _watched(self, v: Value) -> Link | None:
        """Read "I clocked | four", "timed it, | six" as minutes."""
        lead = [w for w in self.words[max(self.first, v.start - 5) : v.start] if w not in FILLERS]
        while lead and lead[-1] in {"it", ",", "at", "that", "them", "about", "just", "right", "her"}:
            lead.pop()
        if not lead or lead[-1] not in word_list("machine_time_watch") or v.value > 90:
            return None
        after = self.words[v.end] if v.end < self.last else "."
        return self._minutes(v, None) if after in word_list("told_times_follows") else None

    def _ended_in(self, v: Value) -> Link | None:
        """Read "dropped out in | twenty two", "comes out of defrost after | twelve" as minutes."""
        if v.value > 60 or self.words[v.start - 1 : v.start] not in (["in"], ["after"]):
            return None
        after = self.words[v.end] if v.end < self.last else "."
        if after not in word_list("told_times_follows"):
            return None
        cycles = word_list("machine_time_cycles") | word_list("quantities_cycles")
        near = self.words[max(0, v.start - 30) : v.start]
        if cycles.isdisjoint(near) or not ends_before(self.words, self.first, v.start - 1):
            return None
        named = next(
            (x for x in reversed(self.r.labels[self.r.span("labels", max(0, v.start - 30), v.start)])
             if x.label.point in {"freeze", "harvest", "defrost"}),
            None,
        )  # fmt: skip
        return self._minutes(v, named)

    def _minutes(self, v: Value, label: LabelAt | None) -> Link:
        link = Link("duration", "min", tidy(v.value), label.label if label else None, label, unit_said=False)
        link.how, link.explicit = "test", True
        return link


__all__ = ["ToldTimes"]
