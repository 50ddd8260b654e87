"""A value that is said anew a few words later, with the words that tell that the first one does not hold.

"blue eleven. Blue again, jaws weren't shut, fourteen point three"      the same place, measured again
"outlet minus eighteen. Was it minus eighteen? Minus sixteen"           his own value asked for
"Fan winding open. ... no, it isn't open, it's sixty-eight ohms"        a state denied
"four point eight, or is it four point three, glasses, four point eight" settled on the first
"Held 15 minutes, 480. 10 minutes I mean."                              the unit tells which one is meant
"strike the eleven, the eleven point six and the fourteen"              a row taken back by its numbers
"Suction eighteen inches. Eighteen pounds, pounds."         the same number, the gauge's other side
"""

from __future__ import annotations

from dictate.mentions.corrections.alike import alike, clear_loose, same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_words
from dictate.mentions.corrections.made_values import MakesValues
from dictate.mentions.corrections.replaced import Replaces
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.whose.taken import Taken
from dictate.units import UCUM

_FAR = 16
"""Words between a value and the one said anew."""
_NEAR = 3.0
"""The two are at most so many times one another."""
_DENIED_OPEN = (["isn't", "open"], ["not", "open"], ["wasn't", "open"], ["ain't", "open"], ["n't", "open"])
_CUES = frozenset(("again", "open", "was", "is", "did", "really"))
"""Words of which one stands behind every value that is said anew here."""
_ASKS = (["was", "it"], ["is", "it"], ["is", "that"], ["was", "that"], ["did", "i", "say"], ["really"])


class SaidAnew(MakesValues, Replaces):
    """Takes back what was said anew."""

    def _said_anew(self) -> None:
        for k, old in enumerate(self.taken):
            if old.reading.role not in {"measured", "target", "rated"} or old.movement:
                continue
            near = self.words[old.end : old.end + _FAR + 6]
            if not _CUES.intersection(near):
                continue
            for new in self.taken[k + 1 : k + 4]:
                if new.start - old.end > _FAR + 6:
                    break
                if new.reading.role == "retracted" or new.movement or new.start < old.end:
                    continue
                if self._denied_open(old, new) or self._again(old, new) or self._asked_for(k, old, new):
                    self._replace(old, new)
                    clear_loose(new)
                    break
        self._settled_on_first()
        self._unit_behind()
        self._struck()
        self._other_side_of_gauge()

    def _denied_open(self, old: Taken, new: Taken) -> bool:
        """Tell whether an open circuit is denied before an ohm value of the same thing."""
        if old.value.state == "value" or new.value.state != "value" or new.reading.quantity != "resistance":
            return False
        if old.reading.quantity != "resistance" or not alike(old, new):
            return False
        gap = self.words[old.end : new.start]
        return any(gap[i : i + 2] in _DENIED_OPEN for i in range(len(gap)))

    def _again(self, old: Taken, new: Taken) -> bool:
        """Tell whether the place of the first is named once more with "again", and why it was misread."""
        gap = self.words[old.end : new.start]
        if "again" not in gap or old.reading.quantity != new.reading.quantity or not _like(old, new):
            return False
        if old.value.state != "value" or new.value.state != "value" or same_number(old, new):
            return False
        at = gap.index("again")
        cut = max((i + 1 for i in range(at) if gap[i] in STOPS | {","}), default=0)
        name = [w for w in gap[cut:at] if w not in {"the", "on", "and", "then"}]
        front = self.words[max(0, old.start - 5) : old.start]
        if not name or len(name) > 4 or name != [w for w in front if w in set(name)][-len(name) :]:
            return False
        return any(old.end <= m.start < new.start for m in self.mistakes)

    def _asked_for(self, k: int, old: Taken, new: Taken) -> bool:
        """Tell whether his own value is asked for before the new one: "Was it minus eighteen? Minus 16"."""
        if old.value.state != "value" or new.value.state != "value" or same_number(old, new):
            return False
        if not alike(old, new) or not _like(old, new):
            return False
        for t in self.taken[k + 1 : k + 3]:
            if t.start >= new.start or not same_number(old, t) or t.reading.quantity != old.reading.quantity:
                continue
            lead = self.words[max(0, t.start - 3) : t.start]
            asks = any(lead[-len(a) :] == a for a in _ASKS)
            if asks and {"?", ":"} & set(self.words[t.end : t.end + 3]) and new.start - t.end <= 4:
                t.reading.role = "retracted"
                return True
        return False

    def _settled_on_first(self) -> None:
        """Take back what was only asked between two sayings of one value: "4.8, or is it 4.3, no, 4.8"."""
        for a, b, c in zip(self.taken, self.taken[1:], self.taken[2:], strict=False):
            if not (same_number(a, c) and not same_number(a, b)) or a.reading.quantity != b.reading.quantity:
                continue
            if c.reading.quantity != a.reading.quantity or c.start - a.end > _FAR or a.value.state != "value":
                continue
            gap = [w for w in self.words[a.end : b.start] if w != ","]
            if gap[:2] not in (["or", "is"], ["or", "was"]) or "it" not in gap[2:3]:
                continue
            b.reading.role = "retracted"
            for t in (a, c):
                t.reading.review = [r for r in t.reading.review if "nothing was taken back" not in r]
                clear_loose(t)
            self.back.done.append((a.end, b.start))

    def _unit_behind(self) -> None:
        """Take back the value of the unit that "10 minutes I mean" names, with another between the two."""
        for k, new in enumerate(self.taken):
            at = new.end + (self.words[new.end : new.end + 1] == [","])
            if k < 2 or self.words[at : at + 2] not in (["i", "mean"], ["i", "meant"]) or not new.said_unit:
                continue
            near, before = self.taken[k - 1], self.taken[k - 2]
            if near.said_unit or not before.said_unit or before.reading.quantity != new.reading.quantity:
                continue
            if near.reading.quantity == new.reading.quantity and near.label_here:
                continue
            if before.value.word != new.value.word or new.start - before.end > _FAR or not _like(before, new):
                continue
            if before.reading.role == "measured":
                self._replace(before, new)
                self.cues = [c for c in self.cues if not new.end <= c.start < at + 2]
                self.behind_used.add(at)
                self.back.done.append((new.end, at + 2))

    def _struck(self) -> None:
        """Take back a row of values by their numbers: "so strike the eleven, the 11.6 and the fourteen"."""
        strikes = correction_words("again", "strikes")
        if strikes.isdisjoint(self.words):
            return
        numbers = find_numbers(self.n)
        for i in [k for k, word in enumerate(self.words) if word in strikes]:
            if self.words[i + 1 : i + 2] != ["the"]:
                continue
            if i and self.words[i - 1] not in STOPS | {",", "so", "and", "then", "please"}:
                continue
            row: list[Number] = []
            at = i + 1
            for x in numbers:
                if x.start < at:
                    continue
                if not set(self.words[at : x.start]) <= {"the", ",", "and"} or x.pronoun:
                    break
                row.append(x)
                at = x.end
            if len(row) < 2:
                continue
            for x in row:
                meant = [t for t in self.taken if t.end <= i and abs(t.value.value - x.value) < 1e-9]
                meant = [t for t in meant if t.value.state == "value" and i - t.end < 80 and not t.movement]
                if meant and meant[-1].reading.role in {"measured", "retracted"}:
                    meant[-1].reading.role = "retracted"
                    meant[-1].reading.review = []
                for t in self.taken:
                    if t.start < x.end and x.start < t.end:
                        t.reading.role = "retracted"
            self.back.done.append((i, at))

    def _other_side_of_gauge(self) -> None:
        """Take "eighteen inches. Eighteen pounds" of a suction for 18 psi: the number is said again."""
        numbers = find_numbers(self.n)
        for old in list(self.taken):
            a = old.reading
            if a.unit != "inHg" or a.role != "measured" or a.point != "suction":
                continue
            for x in numbers:
                if not old.end <= x.start <= old.end + 6 or abs(x.value - old.value.value) > 1e-9:
                    continue
                if self.words[x.end : x.end + 1] not in (["pounds"], ["pound"], ["psi"]):
                    continue
                gap = set(self.words[old.end : x.start])
                if gap & {"with", "over", "to", "then", "into", "and"}:
                    continue
                there = [t for t in self.taken if t.start < x.end + 1 and x.start < t.end]
                read = next((t for t in there if t.reading.unit == "psi"), None)
                if read is not None and not read.label_here:
                    a.role, a.review = "retracted", []
                    read.reading.point = read.reading.point or a.point
                    self._link(old, read)
                    self.back.done.append((old.end, x.start))
                    continue
                if any(t.reading.unit != "lb" for t in there):
                    continue
                new = self._of_number(old, x)
                if new is None:
                    continue
                b = new.reading
                b.quantity, b.unit, b.ucum = "pressure", "psi", UCUM["psi"]
                b.value, b.reference, b.unit_assumed, b.review = x.value, "gauge", False, []
                a.role = "retracted"
                a.review = []
                self._link(old, new)
                self.taken = [t for t in self.taken if all(t is not x for x in there)]
                self.taken.append(new)
                self.back.done.append((old.end, x.start))
        self.taken.sort(key=lambda t: t.start)


def _like(old: Taken, new: Taken) -> bool:
    a, b = abs(old.value.value), abs(new.value.value)
    return bool(a and b) and 1 / _NEAR <= a / b <= _NEAR


__all__ = ["SaidAnew"]
