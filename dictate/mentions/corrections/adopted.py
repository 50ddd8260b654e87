"""A loose number beside a cue is the repair, or what was taken back: "two thirteen, no, fourteen volts"."""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.corrections.correction_words import STOPS
from dictate.mentions.corrections.cues import SMALL, Cue
from dictate.mentions.corrections.made_values import MakesValues
from dictate.mentions.whose.taken import Taken
from dictate.mentions.word_lists import word_list


class Adopts(MakesValues):
    """Takes the number beside a cue for the value that it is."""

    def _adopt(self) -> None:
        """Take the number behind a cue for the repair that it is, where nothing else made it a value."""
        self.loose = self._loose()
        for cue in self.cues:
            if cue.only_clause:
                continue
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if old is None or cue.start - old.end > 12 or old.reading.role == "retracted":
                continue
            if not cue.strong and self.words[old.end : cue.start] != [","] and not self._place_then(old, cue):
                continue
            if self._unheard(old.end, cue.start):
                continue
            at = bisect_left(self.loose, cue.end, key=lambda v: v.start)
            new = self.loose[at] if at < len(self.loose) else None
            if (
                new is None
                or new.start - cue.end > 14
                or any(cue.end <= t.start < new.start for t in self.taken)
            ):
                continue
            if STOPS & set(self.words[old.end : cue.start]) and not self._opens_sentence(cue):
                continue
            if not self._repair_words(cue.end, new.start) or not self._stands_alone(new):
                continue
            made = self._made(old, new)
            if made is not None:
                self.loose.remove(new)
                self.taken.append(made)
                self.taken.sort(key=lambda t: t.start)

    def _adopt_behind(self) -> None:
        """Take a loose number with a word of regret behind it: "86 minutes. 82, sorry, I started late"."""
        for v in list(self.loose):
            if v.quantity is not None:
                continue
            at = v.end + (self.words[v.end : v.end + 1] == [","])
            regret = at > v.end and self.words[at : at + 1] in (["sorry"], ["no"], ["rather"])
            told = any(m.clear and 0 < m.start - at <= 6 for m in self.mistakes)
            if not (regret and told) and at not in self.behind:
                continue
            old = next((t for t in reversed(self.taken) if t.end <= v.start), None)
            if old is None or old.reading.role == "retracted" or old.value.state != "value":
                continue
            if not set(self.words[old.end : v.start]) <= {",", "."} | word_list("self_correction_paused"):
                continue
            made = self._made(old, v)
            if made is not None and made.reading.value != old.reading.value:
                self.loose.remove(v)
                self.taken.append(made)
                self.taken.sort(key=lambda t: t.start)

    def _place_then(self, old: Taken, cue: Cue) -> bool:
        """Tell whether only the place of a value stands before the cue: "210 on the strip, no, 110"."""
        before = self.words[old.end : cue.start]
        if len(before) > 7 or before[-1:] != [","] or "," in before[:-1] or STOPS & set(before):
            return False
        return before[0] in {"on", "at", "in", "across", "off"} and self.words[cue.end : cue.end + 1] == [","]

    def _adopt_before(self) -> None:
        """Take the number in front of a cue for what was taken back: "two thirteen, no, fourteen volts"."""
        for cue in self.cues:
            if cue.only_clause or self.words[cue.start - 1 : cue.start] not in ([","], ["."]):
                continue
            if not cue.strong and self.words[cue.end : cue.end + 1] != [","]:
                continue
            new = next((t for t in self.taken if t.start >= cue.end), None)
            if new is None or not set(self.words[cue.end : new.start]) <= SMALL | {","}:
                continue
            at = bisect_left(self.loose, cue.start - 1, key=lambda v: v.end)
            old = self.loose[at] if at < len(self.loose) else None
            if old is None or old.end != cue.start - 1 or old.quantity is not None or new.movement:
                continue
            if any(t.start < cue.start and t.end > old.start for t in self.taken):
                continue
            made = self._made(new, old)
            if made is not None and made.reading.value != new.reading.value:
                self.loose.remove(old)
                self.taken.append(made)
                self.taken.sort(key=lambda t: t.start)
