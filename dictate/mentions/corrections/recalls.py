"""A value of before, spoken of again: "I said 33 before, it was 31", "the head I gave you was wrong"."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from operator import attrgetter

from dictate.mentions.corrections.alike import alike, reason_once, same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_phrases, correction_words
from dictate.mentions.corrections.taking_over import TakesOver
from dictate.mentions.labels import find_labels
from dictate.mentions.narration import Narration
from dictate.mentions.not_values import kept_out
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.whose.taken import Taken

_ASKED = (["say"], ["write"], ["call"], ["give"], ["read"], ["put"], ["tell"])
_REACH, _ENDS = 16, frozenset(".?!;")
_OTHER: tuple[list[str], ...] = (
    *([w] for w in ("to", "that", "it", "its", "it's", "about", "not", "and", ",", ".")),
    [],
)
"""What tells that somebody was told more than a number."""


class Recalls:
    """Words in which an earlier value is spoken of again: "I had told you 54 on the return"."""

    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers

    def _both_kept(self, i: int) -> bool:
        """Tell whether both are to be kept: "I said 52 for the rail, the left was 49, keep both"."""
        found = correction_phrases("both", "phrases").find(self.n) if "both" in self.words[i : i + 26] else ()
        return any(i < p.start <= i + 25 for p in found)

    def _of_the_old(self, i: int) -> bool:
        """Tell whether both hold, one of the part that went: "I said 0.9 earlier, that was the old"."""
        told = self.words[i : i + _REACH]
        told = told[: next((k for k, w in enumerate(told) if w in _ENDS), len(told))]
        held = (k for k, w in enumerate(told) if w == "old" and k > 1 and told[k - 1] == "the")
        return any({"was", "'s", "that's", "is"} & set(told[max(0, k - 3) : k - 1]) for k in held)

    def __iter__(self) -> Iterator[tuple[int, int]]:
        """Yield the tokens [start, end) of each, the verb last."""
        who, aux = correction_words("recall", "who"), correction_words("recall", "aux")
        verbs, down, behind = (
            correction_words("recall", "verbs"),
            correction_words("recall", "down"),
            correction_words("recall", "down_words"),
        )
        words = self.words
        for i, word in enumerate(words):
            # "Gave you 33 on that cap, it was 31.5": the subject is left out
            if word in verbs and (i == 0 or words[i - 1] in STOPS) and words[i + 1 : i + 2] == ["you"]:
                if self._of_saying(i):
                    yield i, i + 1
                continue
            if word == "did" and words[i + 1 : i + 2] == ["i"] and words[i + 2 : i + 3] in _ASKED:
                yield i, i + 3  # "did I say fourteen at the start? It was sixteen"
                continue
            if word not in who or words[i - 1 : i] in (["like"], ["as"]) or self._of_the_old(i):
                continue
            if self._both_kept(i):
                continue
            j = i + 1
            while j < len(words) and words[j] in aux and j - i < 5:
                j += 1
            # "had" may itself be the verb: "I had it down as 54"
            if j < len(words) and words[j] in verbs and self._of_saying(j):
                yield i, j + 1
                continue
            for k in range(i + 1, min(j + 1, len(words))):
                if words[k] in down or (word == "i've" and k == i + 1):
                    at = next((m for m in range(k + 1, min(k + 6, len(words))) if words[m] in behind), None)
                    if at is not None and words[at + 1 : at + 2] == ["to"]:
                        break  # "I got down to 380 microns" pulls a vacuum and recalls nothing
                    if at is not None and not STOPS & set(words[k:at]):
                        yield i, at + 1
                        break

    def _of_saying(self, j: int) -> bool:
        following = self.words[j + 1 : j + 2]
        if self.words[j] == "told":
            return following in (["you"], ["ya"]) or self._a_number_to_somebody(j + 1)
        if self.words[j] in {"gave", "given"}:
            return (
                following in (["you"], ["ya"], ["as"])
                or "as" in self.words[j + 1 : j + 5]
                or self._a_number_to_somebody(j + 1)
            )
        if self.words[j] == "called":
            return following in (["out"], ["it"], ["that"], ["off"])
        return following != ["to"]

    def _a_number_to_somebody(self, at: int) -> bool:
        """Tell whether somebody was told a number and no more: "I told the cook six point six"."""
        words = self.words
        if words[at : at + 3][:2] in (["the", "office"], ["the", "desk"]):
            return True
        if words[at : at + 1] and words[at] in {"him", "her", "them", "everyone", "everybody"}:
            stop = at + 1
        elif words[at : at + 1] and words[at] in {"the", "my", "our", "their", "your", "his"}:
            stop = at + 4
        else:
            return False
        starts = {x.start for x in find_numbers(self.n) if not x.pronoun}
        first = next((k for k in range(at + 1, stop + 1) if k in starts or words[k : k + 1] in _OTHER), None)
        return first in starts


class RecalledValues(TakesOver):
    """Takes back a value that is spoken of again by who said it."""

    def recalls(self) -> None:
        """Handle "I said nine ounces before, it was eight"."""
        for start, end in Recalls(self.n):
            if self.handled(start, end):
                continue
            if self._named(start, end):
                continue
            first, repair = self._pair(start, end)
            if first is None:
                continue
            if repair is None:
                self._unclear(first, start)
                continue
            old = self._said_before(first, min(start, first.start))
            if (
                old is None
                and first.reading.role == "earlier"
                and "now" in self.words[first.end : repair.end + 2]
            ):
                continue
            role = old.reading.role if old is not None else first.reading.role
            first.reading.role = "retracted"
            if old is not None:
                old.reading.role = "retracted"
            else:
                self._other_number(first, repair, start)
            self.take_over(old or first, first, repair)
            repair.reading.role = role if role in {"rated", "target"} else "measured"
            self.repaired.append((old or first, repair))
            self.done.append((start, repair.start))

    def _pair(self, start: int, end: int) -> tuple[Taken | None, Taken | None]:
        """Return the value that is spoken of again, and the right one."""
        after = [t for t in self.taken if end <= t.start <= end + 12 and not self._stops(end, t.start)]
        numbers = find_numbers(self.n)
        at = bisect_left(numbers, end, key=attrgetter("start"))
        if after and any(
            x.end <= after[0].start
            and not x.pronoun
            and (
                x.start == end
                or (x.value >= 10 and x.form != "ordinal" and "," not in self.words[end : x.start])
            )
            for x in numbers[at : at + 1]
        ):
            return None, None  # "I wrote eleven on the tag but it's nine": that is no value of here
        if after and self._own_clause(end, after[0].start):
            return None, None
        for first in after[:1]:
            for t in self.taken:
                if t.start > first.start and t.start - first.end <= 18 and self._repairs(first, t):
                    return first, t
            if not self.taken_before(start) or first.end >= len(self.words):
                return first, None
        before = next((t for t in reversed(self.taken) if t.end <= start), None)
        if before is not None and start - before.end <= 2 and not STOPS & set(self.words[before.end : start]):
            for t in after[:1]:
                if self._repairs(before, t):
                    return before, t
        return (after[0] if after else None), None

    def _own_clause(self, end: int, start: int) -> bool:
        """Tell whether a clause with a subject of its own holds the value: "I noted it, it trips at 1.3"."""
        said = self.words[end:start]
        at = next((k for k in range(len(said) - 1, -1, -1) if said[k] == ","), None)
        return at is not None and said[at + 1 : at + 2] in (["it"], ["they"], ["we"], ["she"]) and at > 1

    def _repairs(self, first: Taken, t: Taken) -> bool:
        gap = self.words[first.end : t.start]
        meant = {"should", "should've", "shoulda"} & set(gap)
        if (t.reading.role in {"target", "expected"} and not meant) or same_number(first, t):
            return False
        if self.words[t.end : t.end + 1] == ["now"] or self._number_now(first.end, t.start):
            return False  # "I said nine volts on that clip, well it's fifteen hundredths now": it has changed
        if self.words[t.end : t.end + 1] == ["at"] and kept_out(self.n).get(t.end + 1) in {"clock", "time"}:
            return False  # "I told you it was 7.4. It's 4.1 at two o'clock": it has changed
        put_right = self.words[t.end : t.end + 2] in (["is", "what"], ["was", "what"], ["is", "right"])
        put_right = put_right or self.words[t.end : t.end + 1] == ["actually"]
        if (
            not (put_right or correction_words("recall", "presents") & set(gap))
            or sum(w in STOPS for w in gap) > 1
        ):
            return False
        if {"sags", "sagged", "dips", "dipped", "drops", "dropped", "climbs", "climbed", "fell"} & set(gap):
            return False  # "I said 119, that was before. While it starts it sags to 111": another moment
        apart = t.place_said and t.reading.component != first.reading.component
        if apart and first.reading.component and t.reading.component and "." in gap:
            return False  # "I said zero before, that was before the relay. Condenser fan 1.3"
        if t.label_here and not alike(first, t) and t.reading.quantity != first.reading.quantity:
            return False
        if t.reading.role == "rated" and first.reading.role != "rated":
            return False
        return t.reading.quantity == first.reading.quantity or not t.said_unit or not first.said_unit

    def _number_now(self, start: int, end: int) -> bool:
        """Tell whether a number of now stands between two tokens that nothing took for a value."""
        numbers = find_numbers(self.n)
        at = bisect_left(numbers, start, key=attrgetter("start"))
        return any(x.end < end and not x.pronoun and self.words[x.end] == "now" for x in numbers[at : at + 3])

    def _said_before(self, first: Taken, before: int) -> Taken | None:
        found = [
            t
            for t in self.taken
            if t.end <= before
            and t.reading.role not in {"retracted", "earlier"}
            and same_number(t, first)
            and (t.reading.quantity == first.reading.quantity or not first.said_unit)
        ]
        near = [t for t in found if alike(t, first)]
        named = [t for t in near if t.reading.point == first.reading.point]
        return (named or near or found or [None])[-1]  # type: ignore[list-item]

    def _other_number(self, first: Taken, repair: Taken, before: int) -> None:
        """Doubt the value of before when the number that is spoken of is not the one that was said."""
        for t in reversed(self.taken):
            if t.end <= before and t.reading.role == "measured" and alike(t, first) and first.place_said:
                if t.reading.value != repair.reading.value and t.reading.point == first.reading.point:
                    reason_once(t, "a value of the same thing was put right later, and with another number")
                return

    def _unclear(self, first: Taken, start: int) -> None:
        """Doubt a value that is said to be not right, with no right one said."""
        b = self.n.sentences[self.sentence_at[start]][1]
        if not correction_words("recall", "at_odds") & set(self.words[first.end : b]):
            return
        why = "it was said to be not right, and nothing says what is right"
        old = self._said_before(first, start)
        for t in (first, old):
            if t is not None:
                reason_once(t, why)

    def _named(self, start: int, end: int) -> bool:
        """Handle "the head pressure I gave you was wrong, it's 230"; tell whether it is of this shape."""
        at = next(
            (
                k
                for k in range(end, end + 8)
                if self.words[k : k + 1] and self.words[k] in correction_words("recall", "at_odds")
            ),
            None,
        )
        if at is None or any(end <= t.start < at for t in self.taken):
            return False
        label = next(
            (x for x in reversed(find_labels(self.n)) if x.end <= start and start - x.end <= 4), None
        )
        if label is None or self._stops(label.end, start):
            return False
        new = next((t for t in self.taken if end <= t.start <= end + 16), None)
        old = None
        for t in reversed(self.taken):
            if t.end > label.start or t.reading.role == "retracted":
                continue
            fits = label.label.fits(t.reading.quantity) and (
                label.label.point is None or t.reading.point == label.label.point
            )
            if fits and (label.label.quantity or label.label.point):
                old = t
                break
        if old is None:
            return False
        if new is None or (
            new.reading.quantity != old.reading.quantity and (new.said_unit or new.label_here)
        ):
            reason_once(old, "it was said to be not right, and nothing says what is right")
            return True
        role = old.reading.role
        old.reading.role = "retracted"
        self.take_over(old, old, new)
        new.reading.role = role
        self.repaired.append((old, new))
        self.done.append((start - 4, new.start))
        return True
