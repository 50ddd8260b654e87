"""Whether what stands between two values says that the second puts the first right."""

from __future__ import annotations

from bisect import bisect_left
from operator import attrgetter

from dictate.mentions.corrections.alike import alike, same_number, tries_again
from dictate.mentions.corrections.correction_words import CUTS, STOPS
from dictate.mentions.corrections.cues import SMALL, Cue
from dictate.mentions.corrections.made_values import MakesValues
from dictate.mentions.corrections.no_corrections import NoCorrections
from dictate.mentions.labels import find_labels
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.temperatures.words_behind import place_behind
from dictate.mentions.whose.taken import Taken
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table

_start = attrgetter("start")


class Between(MakesValues, NoCorrections):
    """Finds the cue between or behind two values."""

    def _cues_in(self, first: int, last: int) -> list[Cue]:
        """Return the cues that begin in the tokens [first, last)."""
        cues = self.cues
        return cues[bisect_left(cues, first, key=_start) : bisect_left(cues, last, key=_start)]

    def _between(self, old: Taken, new: Taken) -> Cue | None:
        """Return the cue between two values when the words around it say nothing else."""
        for cue in self._cues_in(old.end, new.start):
            if cue.end > new.start or cue.start in self.behind_used:
                continue
            before = self.words[old.end : cue.start]
            after = self.words[cue.end : new.start]
            if len(before) > 12 or len(after) > 14 or self._unheard(old.end, cue.start):
                continue
            if self._still_moved(cue, after):
                continue
            if cue.only_clause and not self._told_between(old, new, cue):
                continue
            if self._another(old, cue, new) or self._why_of(cue, new) or self._judges(old, new, cue):
                continue
            if self._pauses_in_a_row(old, new, cue):
                continue
            if self._of_no_value(old, cue, new) or self._tells_the_first(old, cue, new):
                continue
            if "." in before[:-1] and not cue.strong and not set(before) <= SMALL | STOPS:
                continue
            plain = " ".join(self.words[cue.start : cue.end])
            # "three point one amps, no, that's the label, it's pulling two point four"
            hedged = (before[:1] == [","] or before[-1:] == [","]) and set(before) <= word_list(
                "self_correction_hedges"
            )
            parted = (before == [","] or hedged) and after[:1] == [","] and plain in {"no", "nope"}
            alone = (
                before[-1:] == ["."]
                and set(before) <= SMALL | STOPS
                and after[:1] in ([","], ["."])
                and plain in {"no", "nope"}
            )
            parted = parted or (alone and self._repair_words(cue.end, new.start))
            parted = parted or (plain == "no" and after == [","] and self._place_then_no(before, new))
            lonely = not cue.strong and not (parted and self._one_thing(old, new))
            if lonely:
                # "no leaks", "wrong part": a lone word corrects only between commas or before the repair
                parted = after[:1] == [","] or self.words[cue.start - 1] in {",", "-", "uh", "um", "oh"}
                named = after[:1] and after[0] in word_list("self_correction_between")
                if plain in {"no", "nope"} and not (parted or named):
                    continue  # "no 24 volts at the terminal" denies, it does not correct
                if not set(after) <= SMALL or len(before) > 4:
                    continue
                if plain in {"wrong", "rather", "more like", "er"} and len(before) > 2:
                    continue
            if self._named_before(old, cue) or self._sets_against(old, cue):
                continue
            if self._something_new(cue.end, new, old) or self._concludes(cue, plain, before, after):
                continue
            if tries_again(self.words, old, new) or self._mends_words(cue, old, new):
                continue
            if STOPS & set(before) and not self._opens_sentence(cue):
                continue
            told = [k for m in self.mistakes for k in range(max(m.start, cue.end), min(m.end, new.start))]
            lead = after[max((k for k, w in enumerate(after) if w in STOPS), default=-1) + 1 :]
            leads = set(lead) <= SMALL | word_list("self_correction_lead")
            if STOPS & set(after) and len(after) - len(told) > 6 and not leads:
                continue
            return cue
        return None

    def _tells_the_first(self, old: Taken, cue: Cue, new: Taken) -> bool:
        """Tell whether a cue ends its sentence, and the next one tells what a value in front of `old` was of.

        As in "five point one amps, the pair ten point two, I should say. Five point one is the left one".
        """
        if not set(self.words[cue.end : new.start]) <= STOPS | {"the"} or cue.end == new.start:
            return False
        if self.words[new.end : new.end + 1] not in (["is"], ["was"], ["'s"]):
            return False
        before = [t for t in self.taken if t.end <= old.start and old.sentence - t.sentence <= 1]
        if same_number(old, new) or not any(same_number(t, new) for t in before):
            return False
        self.back.done.append((cue.start, cue.end))
        return True

    def _named_before(self, old: Taken, cue: Cue) -> bool:
        """Tell whether a sentence that begins with another name stands between: "Ambient is 80ish, no"."""
        gap = self.words[old.end : cue.start]
        stop = max((k for k, w in enumerate(gap[:-1]) if w in STOPS), default=None)
        if stop is None or not old.reading.point:
            return False
        labels = find_labels(self.n)
        at = old.end + stop + 1
        k = bisect_left(labels, at, key=_start)
        if k >= len(labels) or labels[k].start > at + 1 or labels[k].start >= cue.start:
            return False
        label = labels[k].label
        other = label.point is not None and label.point != old.reading.point
        return other and label.mode is None and not any(m.start <= at < m.end for m in self.mistakes)

    def _sets_against(self, old: Taken, cue: Cue) -> bool:
        """Tell whether what should be is only set against what is: "it should be 5 and it's, no, OL"."""
        if old.reading.role not in {"target", "expected"}:
            return False
        gap = [w for w in self.words[old.end : cue.start] if w not in {",", "uh", "um", "oh"}]
        return gap[-2:] in (["and", "it's"], ["but", "it's"], ["it", "'s"], ["and", "i'm"], ["and", "is"])

    def _concludes(self, cue: Cue, plain: str, before: list[str], after: list[str]) -> bool:
        """Tell whether the cue puts right a name, and what follows is reckoned.

        As in "79 in and 41 out at the drier I mean, so that's 38 across it".
        """
        if plain not in {"i mean", "i meant", "i should say", "sorry", "rather"}:
            return False
        lead = [w for w in after if w != ","][:1]
        named = [w for w in before if w not in SMALL and w not in STOPS]
        if after[:1] not in ([","], ["."]) or lead not in (["so"], ["which"], ["makes"]) or not named:
            return False
        self.back.done.append((cue.start, cue.end))
        return True

    def _mends_words(self, cue: Cue, old: Taken, new: Taken) -> bool:
        """Tell whether a word is put right, and no value: "turned it in an eighth, sorry, out an eighth, 9".

        What stands in front of the cue and behind it ends alike and is not the same, or the value behind
        is one of now.
        """
        front = self.words[old.end : cue.start]
        parted = "," in front[:-1] or len(set(front) - SMALL) >= 3
        while front and front[-1] in STOPS | {","}:
            front = front[:-1]
        lead = self.words[cue.end : new.start]
        while lead and lead[0] in STOPS | {","}:
            lead = lead[1:]
        stop = next((k for k, w in enumerate(lead) if w in STOPS | {","}), None)
        if stop is None or stop < 1 or not front:
            return False
        now = parted and self.words[new.end : new.end + 1] == ["now"]
        alike_ends = lead[stop - 1] == front[-1] and stop >= 2 and front[-1] not in SMALL
        if not now and not (alike_ends and front[-stop:] != lead[:stop]):
            return False
        self.back.done.append((cue.start, cue.end))
        return True

    def _place_then_no(self, before: list[str], new: Taken) -> bool:
        """Tell whether only the place of a value stands before a "no": "40 on the coil outlet, no, 30"."""
        if len(before) > 7 or before[-1:] != [","] or "," in before[:-1] or STOPS & set(before):
            return False
        ends = self.words[new.end : new.end + 1]
        return before[0] in {"on", "at", "in", "across", "off"} and (not ends or ends[0] in STOPS | {","})

    def _told_between(self, old: Taken, new: Taken, cue: Cue) -> bool:
        """Tell whether only a clause that may tell of a misreading stands between two values of a thing."""
        if not self._one_thing(old, new) or old.reading.role == "retracted" or self._said_again(old, new):
            return False
        small = SMALL | {",", "then"} | STOPS | frozenset(table("corrections")["mistake"]["fillers"])
        near = set(self.words[old.end : cue.start]) <= small
        lead = set(self.words[cue.end : new.start]) <= small
        return near and lead

    def _one_thing(self, old: Taken, new: Taken) -> bool:
        """Tell whether two values are of one quantity and neither words nor places set them apart."""
        like = alike(old, new) or not new.said_unit or self._brings_unit(old, new)
        return new.reading.role in {"measured", old.reading.role} and like

    def _brings_unit(self, old: Taken, new: Taken) -> bool:
        """Tell whether the repair says the unit of a number that had none: "in 88, no, 78 minutes"."""
        if old.said_unit or old.label_here or not new.said_unit or not old.value.bare or not old.value.value:
            return False
        return 0.5 <= new.value.value / old.value.value <= 2

    def _said_again(self, old: Taken, new: Taken) -> bool:
        """Tell whether the second value is the first one once more, and nothing is put right."""
        a, b = old.reading, new.reading
        same = a.value == b.value and a.unit == b.unit and a.state == b.state
        return same and (a.point == b.point or not new.place_said)

    def _something_new(self, start: int, new: Taken, old: Taken) -> bool:
        """Tell whether the words before the repair name something else than the old value was of."""
        if (
            new.value.bare
            and old.reading.quantity not in {"temperature", "temperature_difference"}
            and place_behind(self.words, new.end) is not None
        ):
            return True  # "0.9 bar, so gas is there, no, wait, that's with 23 in the room"
        labels = find_labels(self.n)
        first, last = bisect_left(labels, start, key=_start), bisect_left(labels, new.start, key=_start)
        for label in labels[first:last]:
            found = label.label
            if found.mode is not None or found.weak or found is old.label:
                continue
            if any(m.start <= label.start < m.end for m in self.mistakes):
                continue  # "that's the liquid line I'm hooked to" names what was read by mistake
            same = found.quantity == old.reading.quantity or found.point == old.reading.point
            if (found.point is not None or found.quantity is not None) and not same:
                return True
        return False

    def _another(self, old: Taken, cue: Cue, new: Taken) -> bool:
        """Tell whether a number nearer to the cue is put right: "18.6, the third 19, make that 19.4"."""
        numbers = find_numbers(self.n)
        near = numbers[
            bisect_left(numbers, old.end, key=_start) : bisect_left(numbers, cue.start, key=_start)
        ]
        if any(
            x.end <= cue.start <= x.end + 2 and not x.pronoun and abs(x.value - old.value.value) < 1e-9
            for x in near
        ):
            self.back.done.append((cue.start, cue.end))
            return True  # "0.3 millibar, and it was the same three tenths, no, it was 0.4"
        return any(
            x.end <= cue.start <= x.end + 3
            and not x.pronoun
            and x.form != "ordinal"
            and x.value >= 10
            and 0.8 <= x.value / (new.value.value or 1.0) <= 1.25
            for x in near
        )

    def _actually(self, old: Taken, new: Taken) -> Cue | None:
        """Take "ninety-two, actually ninety-four" as put right: nothing else stands between the two."""
        between = self.words[old.end : new.start]
        if "actually" not in between or not set(between) <= word_list("self_correction_actually"):
            return None
        at = old.end + between.index("actually")
        return Cue(at, at + 1, True)

    def _correction_between(self, old: Taken, new: Taken) -> Cue | None:
        """Return the cue of "Correction, suction 58." behind values of other things."""
        if not new.label_here:
            return None
        for cue in self._cues_in(old.end, new.start):
            if cue.end <= new.start and cue.strong and not cue.only_clause:
                head = self.n.sentences[self.back.sentence_at[cue.start]][0]
                opens = set(self.words[head : cue.start]) <= {"ah", "oh", "uh", "um", "er", ",", "and"}
                far = 14 if new.reading.point and new.reading.point == old.reading.point else 6
                near = opens and head >= old.end and head - old.end <= far and new.start - cue.end <= 5
                # "suction 68, head 210, correction, suction 64": the name says which one is put right
                other = new.reading.point is not None and new.reading.point != old.reading.point
                joined = other and self.words[old.end : cue.start] == [","]
                near = near or (joined and new.start - cue.end <= 5)
                return cue if near and not STOPS & set(self.words[cue.end + 1 : new.start]) else None
        return None

    def _misread_behind(self, old: Taken, new: Taken) -> Cue | None:
        """Return the clause behind a value that tells why it was said anew.

        As in "eleven, hmm, thirteen degrees, I read the wrong column".
        """
        gap = set(self.words[old.end : new.start])
        paused = bool(gap & word_list("self_correction_paused"))
        regretted = (self._regretted(new, gap) or self._bare_again(old, new, gap)) and not new.label_here
        if not (paused and old.reading.quantity == new.reading.quantity) and not regretted:
            return None
        for m in self.mistakes:
            if m.clear and new.end <= m.start <= new.end + 8:
                between = self.words[new.end : m.start]
                if between.count(",") <= 1 + (not paused) and not STOPS & set(between):
                    return Cue(m.start, m.end, True)
        return None

    def _regretted(self, new: Taken, gap: set[str]) -> bool:
        """Tell whether a bare value is followed by a word of regret: "86 minutes. 82, sorry, I'd ..."."""
        behind = [w for w in self.words[new.end : new.end + 3] if w != ","]
        return gap <= {",", "."} and new.value.bare and behind[:1] in (["sorry"], ["no"], ["rather"])

    def _bare_again(self, old: Taken, new: Taken, gap: set[str]) -> bool:
        """Tell whether a bare number of the same size stands alone behind a value: "15 inches. Ten, ..."."""
        a, b = abs(old.value.value), abs(new.value.value)
        parted = gap <= {",", "."} and "." in gap and new.value.bare and old.said_unit
        return parted and bool(a and b) and 0.5 <= a / b <= 2 and old.reading.unit == new.reading.unit

    def _past_place(self, gap: list[str]) -> list[str]:
        """Return the words between two values without a place behind the first: "24 at the coil, 26"."""
        if gap[:1] and gap[0] in {"at", "on", "in", "across", "off", "from", "out"} and "," in gap[2:6]:
            return gap[gap.index(",") :]
        return gap

    def _said_behind(self, old: Taken, new: Taken, j: int) -> Cue | None:
        """Return the cue behind the repair: "six point five, nought point six five I should say"."""
        gap = self._past_place(self.words[old.end : new.start])
        if (
            len(gap) > 10
            or not set(gap) <= SMALL | {",", "hmm", "hm"}
            or self._something_new(old.end, new, old)
        ):
            return None
        quantity = old.reading.quantity
        if any(
            t is not old and 0 <= old.start - t.end <= 2 and t.reading.quantity == quantity
            for t in self.taken[max(0, j - 3) : j]
        ):
            return None  # the third of a list: nothing tells which one is meant
        at = new.end + (self.words[new.end : new.end + 1] == [","])
        stop = self.behind.get(at)
        ended = self.words[stop : stop + 1] in (["."], []) if stop is not None else False
        if (
            stop is not None
            and not ended
            and any(stop <= t.start <= stop + 3 for t in self.taken[j + 1 : j + 2])
        ):
            return None  # "says 5, the meter reads 2.3, excuse me, 2.8": the next one is the repair
        if at in self.behind:
            return Cue(at, self.behind[at], True)
        misread = self._misread_behind(old, new)
        if misread is not None:
            return misread
        if self._rather(new):
            return Cue(new.end, new.end + 1, True)
        if at == new.end or self.words[at : at + 1] not in (["sorry"], ["rather"], ["correction"]):
            return None
        # "three eighty, three one eight, sorry, supply ninety four": the next value has a name of its own
        if self.words[at + 1 : at + 2] not in ([","], ["."], []):
            return None
        nxt = self.taken[j + 1] if j + 1 < len(self.taken) else None
        if nxt is not None and nxt.start - at < 6 and not (nxt.label_here or STOPS & {self.words[at + 1]}):
            return None
        once_more = gap == [","] or (gap[:1] == ["."] and gap[1:] in (["that", "was"], ["it", "was"]))
        return Cue(at, at + 1, True) if once_more and new.value.bare else None

    def _rather(self, new: Taken) -> bool:
        """Tell whether "rather" ends the clause behind a value: "95 seconds. Say 90 seconds rather"."""
        ends = self.words[new.end + 1 : new.end + 2]
        led = self.words[new.start - 1 : new.start] in (["say"], ["it"], ["that"], ["write"], ["put"])
        return led and self.words[new.end : new.end + 1] == ["rather"] and (not ends or ends[0] in CUTS)
