"""Words that look like a correction and put nothing right, and values that only stand near one.

"8.1, 8.3 and, hang on, 8.2"                  a pause in a list
"38, 38 and er 39"                            another
"subcooling 3, that's not right, book wants 10"   the machine is not right, the number is
"it was 240, I had the wrong hose. Stood it at 350"   says why the 240 was put right
"746 ohms. Oil, put in 1.2 litres, no, 1.4"   puts right a number that is no value of the record
"""

from __future__ import annotations

from functools import cached_property

from dictate.mentions.corrections.alike import reason_once
from dictate.mentions.corrections.correction_words import STOPS, correction_phrases, correction_words
from dictate.mentions.corrections.cues import SMALL, Corrections, Cue
from dictate.mentions.corrections.named_again import within
from dictate.mentions.labels import find_components, find_labels, find_points
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.whose.taken import Taken
from dictate.mentions.word_lists import word_list

_JUDGED = frozenset({"target", "rated", "expected", "earlier"})


class NoCorrections(Corrections):
    """Questions that keep a cue from taking back what it does not speak of."""

    def _judges(self, old: Taken, new: Taken, cue: Cue) -> bool:
        """Tell whether a value is only set against what it should be: "not right, the book wants 10"."""
        judged = {"right", "wrong", "rubbish", "nonsense"} & set(self.words[cue.start : cue.end])
        instrument = self.words[cue.end - 1] in correction_words("mistake", "wrong")
        if judged and not instrument and self.words[cue.end : cue.end + 1] in (["for"], ["on"]):
            return True  # "that can't be right for this gas, needs to be 45"
        if old.reading.role != "measured" or new.reading.role not in _JUDGED:
            return False
        if self.words[cue.start : cue.end + 1] in (["i", "meant", "to"], ["i", "mean", "to"]):
            return False  # "38. I meant to write 28"
        if self.words[cue.start - 1 : cue.start] and self.words[cue.start - 1] in correction_words(
            "judged", "sheets"
        ):
            return True  # "by the table | that should be | three thousand"
        lead = [w for w in self.words[cue.end : new.start] if w != ","]
        if not lead:
            return False
        return not set(lead) <= correction_words("judged", "leads")

    def _still_moved(self, cue: Cue, after: list[str]) -> bool:
        """Tell whether one only waits for a gauge to settle: "15.5, hang on, settling, 15.2"."""
        waits = " ".join(self.words[cue.start : cue.end]) in {"hang on", "hold on", "wait"}
        return waits and not word_list("comes_to_rest").isdisjoint(after)

    def _pauses_in_a_row(self, old: Taken, new: Taken, cue: Cue) -> bool:
        """Tell whether "er" only fills a pause in a row: "38, 38 and er 39", "5.2, 5.3, er, 5.4"."""
        if self.words[cue.start : cue.end] != ["er"]:
            return False
        between = set(self.words[old.end : new.start])
        if not between <= {"and", "er", ","} or "and" in between:
            return "and" in between
        at = next(k for k, t in enumerate(self.taken) if t is old)
        led = self.taken[at - 1] if at else None
        row = led is not None and self.words[led.end : old.start] in ([","], ["and"])
        return row and led is not None and led.reading.quantity == old.reading.quantity

    def _why_of(self, cue: Cue, new: Taken) -> bool:
        """Tell whether a clause of misreading tells why the value in front of it was put right."""
        if not cue.told or not STOPS & set(self.words[cue.end : new.start]):
            return False
        low = max((k for k in range(cue.start) if self.words[k] in STOPS), default=-1)
        return any(
            t.reading.retracts is not None or any(b is t for _, b in self.back.repaired)
            for t in self.taken
            if low < t.start and t.end <= cue.start
        )

    def _already(self, old: Taken, new: Taken, cue: Cue) -> bool:
        """Tell whether a clause of misreading tells why the value in front of it put another one right.

        As in "8.4, no sorry, 18.4, I had the range wrong, start 27.9". Where nothing names the value behind,
        it may yet be the right one: both get a reason.
        """
        told = cue.told or any(m.start < cue.end and cue.start < m.end for m in self.mistakes)
        if not told or old.reading.retracts is None:
            return False
        named = not set(self.words[cue.end : new.start]) <= SMALL | STOPS
        if not (named or new.label_here or new.place_said or new.said_unit or new.sentence != old.sentence):
            for t in (old, new):
                reason_once(t, "two values were said one after the other to put one right")
        return True

    @cached_property
    def _both(self) -> list[int]:
        """Where it is said that both hold."""
        return [p.start for p in correction_phrases("both", "phrases").find(self.n)]

    def _both_hold(self, new: Taken, cue: Cue) -> bool:
        """Tell whether it is said behind two values that both hold: "both of them true"."""
        if not any(new.end <= start <= new.end + 12 for start in self._both):
            return False
        self.back.done.append((cue.start, cue.end))
        return True

    def _new_subject(self, old: Taken, cue: Cue, new: Taken) -> bool:
        """Tell whether another thing is named between the two, and the value behind is of that.

        As in "118, so that's not it, and the compressor is pulling 7.9", "5.1. Brown to black, I mean
        brown to common, 91 ohms", "60 ohms. Fan four was, hang on, fan five, fan five reads over range".
        """
        a, b = old.reading, new.reading
        named = within(find_components(self.n), old.end, new.start)
        other = [c for c in named if c.name != a.component or (c.which and a.which and c.which != a.which)]
        if any(m.start <= c.start < m.end for c in other for m in self.mistakes if m.clear):
            other = []
        if old.value.state != new.value.state:
            return bool(other) and "." in self.words[old.end : cue.start] and a.point == b.point
        if a.quantity == b.quantity:
            # "compressor 44 ohms, fan motor, hang on, wrong lead, fan motor 31"
            led = {c.name for c in other if c.start < cue.start and a.component is not None}
            return any(c.name in led and c.start >= cue.end for c in other)
        settled = new.said_unit or new.label_here or new.place_said
        parted = STOPS & set(self.words[old.end : cue.start])
        if settled and parted and old.sentence != new.sentence and (old.said_unit or new.said_unit):
            places = within(find_labels(self.n), old.end, cue.start)
            points = within(find_points(self.n), old.end, cue.start)
            if other or points or any(x.label.point for x in places if x.label is not old.label):
                return True
        return settled and a.component != b.component and any(cue.end <= c.start for c in other)

    def _denies(self, old: Taken, new: Taken) -> bool:
        """Tell whether the number that the repair puts right is said behind it: "18, not 17"."""
        at = new.end + (self.words[new.end : new.end + 1] == ["before"])
        at += self.words[at : at + 1] == [","]
        if self.words[at : at + 1] != ["not"]:
            return False
        x = next((x for x in find_numbers(self.n) if x.start >= at + 1), None)
        if x is None or x.start - at > 2 or abs(x.value - old.value.value) < 1e-9:
            return False
        return any(t.end <= old.start and abs(t.value.value - x.value) < 1e-9 for t in self.taken)

    def _of_no_value(self, old: Taken, cue: Cue, new: Taken) -> bool:
        """Tell whether a number that is no value stands nearer to the cue: "1.2 litres, no, 1.4"."""
        near = [t for t in self.taken if t.end > old.end and t.start < cue.start]
        taken = {k for t in near for k in range(t.start, t.end)}
        units = unit_phrases(self.n)
        for x in find_numbers(self.n):
            if x.end > cue.start:
                break
            if x.start < old.end or x.pronoun or x.form == "ordinal" or x.start in taken:
                continue
            if self._counts_again(x, cue, new):
                return True
            between = self.words[x.end : cue.start]
            named = [w for w in between if w.isalpha() and w not in correction_words("judged", "plain")]
            whole = float(x.value).is_integer() and x.value < 10
            if len(between) > 4 or not named or STOPS & set(between) or (whole and x.end in units):
                continue
            like = new.value.value / (x.value or 1.0)
            if 0.4 <= like <= 2.5 and (new.value.bare or not new.said_unit):
                return True
        return False

    def _counts_again(self, x: Number, cue: Cue, new: Taken) -> bool:
        """Tell whether a count is put right: "wound it out 2 turns, sorry, 3 turns, and it came to 6 K"."""
        again = next((y for y in find_numbers(self.n) if y.start >= cue.end), None)
        if again is None or again.start - cue.end > 2 or again.end >= new.start:
            return False
        return x.end < cue.start and self.words[again.end] == self.words[x.end]


__all__ = ["NoCorrections"]
