"""Value, cue, value: "six eight, no wait, seven eight", and "at five, uh, four"."""

from __future__ import annotations

from dictate.mentions.corrections.alike import alike
from dictate.mentions.corrections.between import Between
from dictate.mentions.corrections.correction_words import STOPS
from dictate.mentions.corrections.cues import SMALL, Cue
from dictate.mentions.corrections.replaced import Replaces
from dictate.mentions.narration import DOTS
from dictate.mentions.plausible import fits
from dictate.mentions.whose.taken import DIFFERENCES, Taken
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


class Neighbours(Between, Replaces):
    """Puts a value right by the one said next."""

    def _neighbours(self) -> None:
        for i in range(len(self.taken) - 1):
            old = self.taken[i]
            j = i + 1
            while j < len(self.taken) and self.taken[j].start < old.end:
                j += 1
            if j >= len(self.taken):
                continue
            new = self.taken[j]
            if old.reading.role == "retracted" and new.reading.retracts == old.reading.heard:
                continue
            spoken_of = new.reading.role == "retracted" and new.reading.retracts is None
            if spoken_of and old.value.state != new.value.state:
                continue  # "to ground OL. Sorry, I said 26.1": it was taken back, and puts nothing right
            cue = self._between(old, new) or self._actually(old, new) or self._said_behind(old, new, j)
            if cue is None:
                cue = self._correction_between(old, new)
                if cue is None:
                    continue
                same = new.reading.point is not None and new.reading.point == old.reading.point
                if not same and self._same_place(i, old, new, cue) is old:
                    continue
            if self._already(old, new, cue) or self._both_hold(new, cue):
                continue
            if self._new_subject(old, cue, new) or self._denies(old, new):
                continue
            old = self._better(self._same_place(i, old, new, cue), new, cue)
            if not self._same_thing(old, new, cue):
                continue
            if self._said_again(old, new):
                # "18.6, oh wait, that's the fan column, no, it's right, 18.6"
                if new.reading.role in {"rated", "target"} and old.reading.role == "measured":
                    old.reading.role = new.reading.role  # "superheat 10, no, 10 is the target"
                elif old.reading.role in {"rated", "target"} or not new.place_said:
                    new.reading.role = old.reading.role
                    new.reading.component = old.reading.component
                continue
            self._replace(old, new, cue)
            self.back.done += [(m.start, m.end) for m in self.mistakes if old.end <= m.start < new.start]
            if cue.start >= new.end:
                self.behind_used.add(cue.start)

    def _same_place(self, i: int, old: Taken, new: Taken, cue: Cue) -> Taken:
        """Return the value that "Correction. Common to start, fifty two." is of: it names its place anew."""
        if not ((new.place_said or new.label_here) and new.reading.point):
            return old
        if new.reading.point == old.reading.point:
            return old
        if not self._opens_sentence(cue) or self._misled(old, new):
            return old
        for t in reversed(self.taken[max(0, i - 8) : i]):
            if alike(t, new) and t.reading.point == new.reading.point and t.reading.role == "measured":
                return t
        return old

    def _better(self, old: Taken, new: Taken, cue: Cue) -> Taken:
        """Return what a bare repair puts right: "32,650 at 32 degrees, no, 9,795" is not of the degrees."""
        i = next(k for k, t in enumerate(self.taken) if t is old)
        before = self.taken[i - 1] if i else None
        if (
            before is not None
            and old.reading.role in {"target", "rated"}
            and new.said_unit
            and before.reading.role == "measured"
            and before.reading.quantity == new.reading.quantity != old.reading.quantity
            and new.sentence - before.sentence <= 1
        ):
            return before  # "2.2 K, which is 7 degrees on the chart. Scrap that, 22 K"
        counted = self._counted_in_row(i, new, cue)
        if counted is not None:
            return counted
        if old.reading.role in {"target", "rated", "earlier"} and new.start - cue.end <= 12:
            named = self._named_again(i, new, cue)
            if named is not None:
                return named
        if old.reading.role in {"target", "rated"} and before is not None and self._misread(new):
            # "it's at eighteen, needs to be ten. Make that twenty, I read the wrong line"
            like = (
                alike(before, old) and before.reading.role == "measured" and before.sentence == old.sentence
            )
            return before if like else old
        if (
            new.said_unit
            or before is None
            or before.sentence != old.sentence
            or before.reading.role == "retracted"
        ):
            return old
        if before.reading.quantity == old.reading.quantity:
            return old
        possible = fits(before.reading.quantity, before.reading.point, new.value.value, before.reading.unit)
        if fits(old.reading.quantity, old.reading.point, new.value.value, old.reading.unit):
            # "150 psi for 30 minutes, no, 160": it may be minutes, and is far likelier the pressure
            likelier = _within(new, before, 1.5) and not _within(new, old, 3.0)
            return before if likelier and possible else old
        return before if _within(new, before, 10.0) and possible else old

    def _counted_in_row(self, i: int, new: Taken, cue: Cue) -> Taken | None:
        """Return the value of a row that is named by its place.

        As in "1.4, 1.5 and 1.4 amps; correction, the second was 1.6".
        """
        lead = self.words[cue.end : new.start]
        order: dict[str, int] = table("corrections")["in_row"]["order"]
        place = next((order[w] for w in lead if w in order), None)
        if place is None or not set(lead) <= SMALL | STOPS | set(order) | {
            "leg",
            "phase",
            "number",
            "reading",
        }:
            return None
        row = [self.taken[i]]
        for t in reversed(self.taken[:i]):
            gap = self.words[t.end : row[0].start]
            if t.reading.quantity != row[0].reading.quantity or not set(gap) <= {",", "and", "then"}:
                break
            row.insert(0, t)
        if len(row) < 2 or place >= len(row):
            return None
        return row[place]

    def _named_again(self, i: int, new: Taken, cue: Cue) -> Taken | None:
        """Return the measured value that stands under the name of the repair.

        As in "A 27 ohms, the plate says 55, no wait, A is 54.8".
        """
        lead = self.words[max(cue.end, new.start - 4) : new.start]
        names = {w for w in lead if (w == "a" or w not in SMALL) and w not in STOPS}
        behind = self.words[new.end : new.end + 3]
        placed = behind[:1] in (["on"], ["at"], ["in"], ["across"], ["from"])
        if not names and not placed:
            return None
        for t in reversed(self.taken[max(0, i - 4) : i]):
            if t.reading.role != "measured" or t.reading.quantity != new.reading.quantity:
                continue
            front = self.words[max(0, t.start - 4) : t.start]
            while STOPS & set(front):
                front.pop(0)
            if names & set(front) or (placed and behind == self.words[t.end : t.end + 3]):
                return t
        return None

    def _misread(self, new: Taken) -> bool:
        """Tell whether a reading is said to have been taken wrongly right behind a repair."""
        after = [m for m in self.mistakes if new.end <= m.start <= new.end + 10]
        return any(
            {"i", "wrong", "misread"} & set(self.words[max(new.end, m.start - 4) : m.end]) for m in after
        )

    def _same_thing(self, old: Taken, new: Taken, cue: Cue) -> bool:
        a, b = old.reading, new.reading
        if old.value.state != "value" or new.value.state != "value":
            apart = a.point and b.point and a.point != b.point and new.place_said
            return a.quantity == b.quantity and not apart
        if a.quantity == b.quantity:
            apart = a.point and b.point and a.point != b.point and new.place_said
            return not apart or self._misled(old, new)
        if (new.movement or old.movement) and new.said_unit and old.said_unit:
            return False
        # "forty psi, I mean twenty inches": another unit of the same words
        if not new.explicit or not new.said_unit or self._brings_unit(old, new):
            return True
        if "k" in {old.value.word, new.value.word} and {a.quantity, b.quantity} <= {
            "resistance",
            *DIFFERENCES,
        }:
            return True  # "three point six K, rubbish, three point six ohms": kilohms
        unlike = {a.quantity, b.quantity}
        return (
            unlike <= {"pressure", "vacuum"}
            or unlike <= {"temperature", "superheat", "subcooling", "temperature_difference"}
            or (
                unlike <= {"voltage", "current", "resistance"}
                and cue.strong
                and not new.place_said
                and 0.2 <= abs(new.value.value) / (abs(old.value.value) or 1.0) <= 5
            )
        )

    def _broken_off(self, old: Taken, new: Taken) -> bool:
        """Tell whether a number breaks off and is said again whole: "two point... two point one five".

        Nothing but the pause stands between the two, and the second begins with the words or the digits of
        the first.
        """
        gap = self.n.tokens[old.end : new.start]
        if not gap or not any(t.text in DOTS for t in gap):
            return False
        if any(t.text not in DOTS and t.lower not in word_list("broken_off_between") for t in gap):
            return False
        if old.reading.quantity != new.reading.quantity or new.value.range:
            return False
        if not old.value.numbers or old.end != old.value.numbers[-1].end:
            return False  # a unit was said: that number was whole
        row = [
            t
            for t in self.taken
            if t.reading.quantity == new.reading.quantity and t is not old and t is not new
        ]
        if any(0 <= t.start - new.end <= 2 or 0 <= old.start - t.end <= 2 for t in row):
            return False  # "eleven... eleven point five... eleven four" is a list
        first, second = self._said(old), self._said(new)
        if len(first) == len(second) == 1:
            whole, part = second[0], first[0]
            return whole != part and whole.startswith(part if "." in part else part + ".")
        return 0 < len(first) < len(second) and second[: len(first)] == first

    def _said(self, taken: Taken) -> list[str]:
        """Return the words of the number of a value."""
        numbers = taken.value.numbers
        if not numbers:
            return []
        return [w for w in self.words[numbers[0].start : numbers[-1].end] if w not in {"-", "and"}]

    def _hesitations(self) -> None:
        """Take "at five, uh, four cubic feet" as put right, with a reason to look: it may be a list."""
        for i in range(len(self.taken) - 1):
            old, new = self.taken[i], self.taken[i + 1]
            between = self.words[old.end : new.start]
            if self._broken_off(old, new):
                self._replace(old, new)  # "suction twenty... twenty six"
                continue
            pauses = word_list("self_correction_breaks")
            if not pauses & set(between) or not set(between) <= pauses | {","}:
                continue
            same = (
                old.reading.quantity == new.reading.quantity
                and old.reading.role == new.reading.role == "measured"
            )
            around = [t for t in self.taken if t is not old and t is not new and t.sentence == old.sentence]
            listed = any(0 <= t.start - new.end <= 2 or 0 <= old.start - t.end <= 2 for t in around)
            if same and not listed and not new.value.range and old.reading.value != new.reading.value:
                old.reading.role = "retracted"
                new.reading.review.append(
                    "two values were said one after the other, and nothing says that one was taken back"
                )
                new.reading.confidence = min(new.reading.confidence, 0.5)
                self._link(old, new)


def _within(new: Taken, old: Taken, times: float) -> bool:
    """Tell whether one number is at most so many times the other."""
    return bool(old.value.value) and 1 / times <= new.value.value / old.value.value <= times
