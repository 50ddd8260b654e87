"""The durations of work, travel and breaks; those of the machine are left alone."""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.labour.clock_times import (
    Clock,
    clock_at,
    may_begin,
    minute_at,
    phrase_length,
)
from dictate.mentions.labour.closing import bare_hours
from dictate.mentions.labour.counted_in import (
    called,
    driving_counted_in,
    people_near,
    taken_off,
)
from dictate.mentions.labour.day_sums import hours_by_days
from dictate.mentions.labour.duration_kinds import duration_kind
from dictate.mentions.labour.of_the_visit import on_a_sheet, on_the_bill
from dictate.mentions.labour.pairs import by_the_clock, close_by, complete_pairs, told_spans
from dictate.mentions.labour.put_right import denied, put_right
from dictate.mentions.labour.working_clocks import WorkingClocks
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.mentions import LabourMention
from dictate.vocabulary.load import word_set

_QUARTERS = {("and", "three", "quarters"): 45, ("and", "a", "quarter"): 15, ("and", "quarter"): 15}
_PARTS = {**_QUARTERS, ("and", "a", "half"): 30, ("and", "half"): 30}
_UNSAID = frozenset(("hour", "hours", "labor", "labour", "man", "mans", "man-"))
_MEALS = frozenset(("lunch", "dinner", "break", "breakfast", "smoko"))
_BEFORE_ITS_TIMES = frozenset(("from", "was", "at", ":", ",", "between", "time", "break", "is", "-"))
_LONGEST_BREAK_MIN = 120
_HOURS = frozenset(("hour", "hours"))


class WorkingTimes(WorkingClocks):
    """Finds clock times and durations of work."""

    def working_times(self) -> list[Clock]:
        """Return the clock times of work, those told by their partner among them."""
        read = self.clocks()
        spans = told_spans(self, read)
        if spans:
            last = spans[-1].start
            read = [c for c in read if not self.said_over(c, last)]
            read = [c for c in read if not any(c.start < s.end and s.start < c.end for s in spans)]
            read = sorted([*read, *spans], key=lambda c: c.start)
        self.read = by_the_clock(self, complete_pairs(self, read))
        close_by(self, self.read)
        return self.read

    def said_over(self, clock: Clock, last: int) -> bool:
        """Tell whether a span behind says a time over: "ten to twelve, well, ten past ten to ..."."""
        if not clock.end < last or self.w.sentence_of[clock.start] != self.w.sentence_of[last]:
            return False
        between = self.row[clock.end : last]
        return len(between) <= 6 and any(w in ("no", "well", "sorry", "rather", "mean") for w in between)

    def on_a_sheet(self, i: int) -> bool:
        """Tell whether a sheet of hours is what tells the time at word i: "invoice says two hours"."""
        return on_a_sheet(self.row[self.scopes.sentence(i)[0] : i])

    def durations(self) -> list[LabourMention]:
        """Return the durations of work, travel and breaks."""
        out: list[LabourMention] = []
        quantities = [q for q in find_quantities(self.narration) if q.unit in ("h", "min")]
        skip: set[int] = set()
        each: int | None = None
        out += self.unsaid_hours()
        out += self.bare_sums()
        out += self.breaks_by_the_clock()
        days, by_days = hours_by_days(self)
        out += days
        out += called(self, [*out, *days])
        if not any(m.kind == "work" for m in out) and not any(c.kind for c in self.read):
            out += bare_hours(self)
        for n, q in enumerate(quantities):
            if n in skip:
                continue
            hours = q.in_unit("h") if q.can_be("h") else q.in_unit("min") / 60
            if q.unit == "min":
                hours = q.in_unit("min") / 60
            start, end = self.w.word_of_token(q.start), self.w.word_of_token(q.end)
            # "two hours and fifteen minutes" in two quantities, "2 hours 15", "an hour and ten"
            nxt = quantities[n + 1] if n + 1 < len(quantities) else None
            between = self.row[end : self.w.word_of_token(nxt.start)] if nxt is not None else ()
            joined = nxt is not None and nxt.unit == "min" and all(w in ("and", ",") for w in between)
            if nxt is not None and joined and q.unit == "h" and not q.parts:
                hours += nxt.in_unit("min") / 60
                end = self.w.word_of_token(nxt.end)
                skip.add(n + 1)
            elif q.unit == "h" and not q.parts:
                extra, k = self.trailing_minutes(end)
                for said, minutes in _QUARTERS.items():
                    if self.row[end : end + len(said)] == said:
                        extra, k = minutes, end + len(said)  # "three hours and a quarter"
                if extra:
                    hours += extra / 60
                    end = k
            if any(start in words for words in by_days) or any(c.start <= start < c.end for c in self.read):
                continue
            short = q.unit == "min" and _HOURS.isdisjoint(self.row[start:end])  # but "2 hours and 15"
            kind = duration_kind(self, start, end, short)
            drive, counted = driving_counted_in(self, end)
            if kind == "travel" and counted and q.unit != "min":
                kind = "work"  # "two and a half hours with the driving"
            if kind in ("work", None) and q.unit == "h" and (more := self.more_of_it(end))[0]:
                hours, end, kind = hours + more[0], more[1], "work"
            reasons: list[str] = []
            if kind == "work" and nxt is not None and taken_off(self, end, self.w.word_of_token(nxt.start)):
                hours -= nxt.in_unit("h") if nxt.unit == "h" else nxt.in_unit("min") / 60
                end = self.w.word_of_token(nxt.end)
                skip.add(n + 1)  # "three hours less ten minutes"
            if kind == "work" and counted:
                reasons.append("driving is counted in")
                out += drive
            shared = self.row[end : end + 1] == ("each",)
            if shared and kind in (None, "work"):
                kind = "work" if people_near(self, start) else None
            if kind == "work" and shared:
                reasons.append("said of each of several people: man-hours may be meant")
            if kind == "work" and q.unit == "h":
                if denied(self, hours, end):
                    continue
                hours = put_right(self, end) or hours
            if self.row[end : end + 1] in (("back",), ("home",)) and out and out[-1].kind == "travel":
                kind = "travel"  # "drove an hour there and an hour back"
            if kind is None:
                continue
            if kind == "travel" and self.each_way(end):
                hours *= 2
            billed = self.on_a_sheet(start) or on_the_bill(self.row[end : end + 5])
            if not self.scopes.ours(start) and not billed:
                continue
            if (
                kind == "work"
                and out
                and each == self.w.sentence_of[start]
                and "so" in self.row[start - 2 : start]
            ):
                out.pop()  # "two hours each, so four hours"
            each = self.w.sentence_of[start] if self.row[end : end + 1] == ("each",) else None
            s, e = self.w.span(start, end)
            out.append(
                LabourMention(
                    kind,
                    None,
                    round(abs(hours), 4),
                    self.narration.at(s, e),
                    self.narration.heard(s, e),
                    reasons,
                )
            )
        return out

    def each_way(self, end: int) -> bool:
        """Tell whether a time on the road is one of two: "thirty minutes each way"."""
        last = self.scopes.sentence(end - 1)[1]
        behind = self.row[end : min(last, end + 4)]
        return any(pair in (("each", "way"), ("each", "direction")) for pair in pairwise(behind))

    def more_of_it(self, end: int) -> tuple[float, int]:
        """Return the hours that "four hours yesterday, two this morning" adds, and the word behind them."""
        n = self.behind(end, "adds_up")
        k = end + n
        if self.w.sentence_of[end - 1] < len(self.w.sentences) - 3:
            return 0.0, end
        if not n or self.row[k : k + 1] not in ((",",), ("and",), ("plus",), (";",)):
            return 0.0, end
        k += 2 if self.row[k + 1 : k + 2] == ("and",) else 1
        more = 0.0
        for number in find_numbers(self.narration):
            if self.w.word_of_token(number.start) != k or not 0 < number.value <= 24:
                continue
            last = self.w.word_of_token(number.end)
            last += self.row[last : last + 1] in (("hours",), ("hour",), ("more",))
            if (m := self.behind(last, "adds_up")) and self.row[last + m : last + m + 1] in (
                (".",),
                (",",),
                (),
            ):
                more, end = float(number.value), last + m
        return more, end

    def behind(self, i: int, name: str) -> int:
        """Return how many words of the longest phrase of a list begin at word i."""
        return phrase_length(self.row, i, name)

    def unsaid_hours(self) -> list[LabourMention]:
        """Read "hour and a half on this one" and "hours, two and a half"."""
        out: list[LabourMention] = []
        numbers = {self.w.word_of_token(n.start): n for n in find_numbers(self.narration)}
        taken = {self.w.word_of_token(q.start) for q in find_quantities(self.narration)}
        for i in self.w.starting(_UNSAID):
            word = self.row[i]
            start, end = self.scopes.sentence(i)
            if word == "hour":
                out += self.hour_and_a_part(i, start)
            if self.row[i + 1 : i + 2] == ("hours",) and word in ("man", "mans", "man-"):
                out += self.man_hours(i)
            if word in ("hours", "labor", "labour") and i == start:
                k = i + 1
                while k < end and self.row[k] in (",", ":", "was", "is", "hours", "total", "time"):
                    k += 1
                number = numbers.get(k)
                if number is None or k in taken or not 0 < number.value <= 24 or number.form == "clock":
                    continue
                last = self.w.word_of_token(number.end)
                if last < end and self.row[last] in (".", ",", "total") and number.value * 60 % 5 == 0:
                    s, e = self.w.span(i, last)
                    out.append(
                        LabourMention(
                            "work",
                            None,
                            float(number.value),
                            self.narration.at(s, e),
                            self.narration.heard(s, e),
                        )
                    )
        return out

    def hour_and_a_part(self, i: int, start: int) -> list[LabourMention]:
        """Read "hour and a half", "hour and three quarters" at the word "hour", the "an" unsaid.

        It heads its clause ("owed on the bill, hour and a half") or only words of summing up stand before it.
        """
        lead = self.row[start:i]
        heads = not lead or lead[-1] in (",", ":")
        if not heads and not all(w in word_set("before_closing_hours", "labour") for w in lead):
            return []
        if lead[-1:] in (("a",), ("an",), ("the",), ("one",)):
            return []  # a unit that was said in full
        extra, k = self.trailing_minutes(i + 1) if not lead else (0, i)
        for said, minutes in _PARTS.items():
            if self.row[i + 1 : i + 1 + len(said)] == said:
                extra, k = minutes, i + 1 + len(said)
        if not extra or duration_kind(self, i, k, False) != "work":
            return []
        s, e = self.w.span(i, k)
        at, heard = self.narration.at(s, e), self.narration.heard(s, e)
        return [LabourMention("work", None, round(1 + extra / 60, 4), at, heard)]

    def bare_sums(self) -> list[LabourMention]:
        """Read "from ten until two, less half an hour, so three and a half": hours without their unit."""
        out: list[LabourMention] = []
        for number in find_numbers(self.narration):
            k = self.w.word_of_token(number.start)
            last = self.w.word_of_token(number.end)
            if not 0 < number.value <= 14 or number.form == "clock" or number.value * 4 % 1:
                continue
            start, _end = self.w.sentences[self.w.sentence_of[k]]
            summed = self.row[k - 1] in ("so", "makes", "that's") or (
                self.row[k - 1] in ("really", "actually", "nearer") and "so" in self.row[k - 3 : k - 1]
            )
            if self.row[last : last + 1] not in ((".",), ()) or not summed:
                continue
            clocks = [c for c in self.read if start <= c.start < k and c.kind]
            if [c.kind for c in clocks[-2:]] != ["start", "end"] or any(
                c.start <= k < c.end for c in self.read
            ):
                continue
            if (clocks[-1].minutes - clocks[-2].minutes) % 720 / 60 + 0.01 < number.value:
                continue
            s, e = self.w.span(k, last)
            at, heard = self.narration.at(s, e), self.narration.heard(s, e)
            out.append(LabourMention("work", None, float(number.value), at, heard))
        return out

    def man_hours(self, i: int) -> list[LabourMention]:
        """Read "eight man hours" at the word "man"."""
        for n in find_numbers(self.narration):
            if self.w.word_of_token(n.end) == i and 0 < n.value <= 100:
                s, e = self.w.span(self.w.word_of_token(n.start), i + 2)
                at, heard = self.narration.at(s, e), self.narration.heard(s, e)
                return [LabourMention("work", None, float(n.value), at, heard, ["man-hours were said"])]
        return []

    def trailing_minutes(self, i: int) -> tuple[int, int]:
        """Read "15" of "2 hours 15" and "ten" of "an hour and ten"."""
        k = i + 1 if i < len(self.row) and self.row[i] == "and" else i
        minute = minute_at(self.row, k)
        if minute is None and self.row[k : k + 2] in (("five", "."), ("five", ",")):
            minute = 5, 1  # "two hours five."
        if minute is None or minute[0] % 5:
            return 0, i
        k += minute[1]
        k += self.row[k : k + 1] == ("minutes",)
        nxt = self.row[k] if k < len(self.row) else "."
        return (minute[0], k) if nxt in word_set("after_minutes") else (0, i)

    def off_the_clock(self, start: int) -> bool:
        """Tell whether the duration at word `start` is taken off the start and the end said before it."""
        k = start
        first, _ = self.scopes.sentence(start)
        while k > first and start - k < 4 and self.row[k - 1] in word_set("beside_less", "labour"):
            k -= 1
        if k <= first or self.row[k - 1] not in word_set("less", "labour"):
            return False
        number = self.w.sentence_of[start]
        near = {c.kind for c in self.read if c.end <= k and 0 <= number - self.w.sentence_of[c.start] <= 1}
        return {"start", "end"} <= near

    def breaks_by_the_clock(self) -> list[LabourMention]:
        """Read "Lunch 12 to 12:30": a break told by its two times."""
        out: list[LabourMention] = []
        for i in self.w.starting(_MEALS):
            k = i + 1
            while k < len(self.row) and k - i <= 3 and self.row[k] in _BEFORE_ITS_TIMES:
                k += 1
            first = clock_at(self.row, k) if k < len(self.row) and may_begin(self.row[k]) else None
            if first is None or not self.plausible(first):
                continue
            then = self.span_after(first, self.scopes.sentence(i)[1])
            if then is None or not self.plausible(then):
                continue
            minutes = (then.minutes - first.minutes) % 720
            if not 0 < minutes <= _LONGEST_BREAK_MIN:
                continue
            s, e = self.w.span(i, then.end)
            at, heard = self.narration.at(s, e), self.narration.heard(s, e)
            out.append(LabourMention("break", None, round(minutes / 60, 4), at, heard))
        return out
