"""The same number said of something else, and a value reckoned anew behind other words.

"superheat 11, sorry, subcooling 11"                        the name was wrong
"39 superheat, no, wrong line, saturated is 9, so 38"       the sum was wrong
"""

from __future__ import annotations

from dictate.mentions.corrections.alike import same_number
from dictate.mentions.corrections.correction_words import STOPS, correction_words
from dictate.mentions.corrections.cues import SMALL, Corrections
from dictate.mentions.whose.taken import DIFFERENCES


class Relabels(Corrections):
    """Takes back a value whose name or whose sum was wrong."""

    def _relabelled(self) -> None:
        """Handle "leaving water 44, I mean entering water 44"."""
        for cue in self.cues:
            if not cue.strong or cue.only_clause:
                continue
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            new = next((t for t in self.taken if t.start >= cue.end), None)
            if old is None or new is None or not same_number(old, new):
                continue
            if (
                cue.start - old.end > 2
                or new.start - cue.end > 5
                or STOPS & set(self.words[cue.end : new.start])
            ):
                continue
            a, b = old.reading, new.reading
            if a.role != "measured" or b.role != "measured" or not (new.label_here or new.place_said):
                continue
            other = (a.quantity != b.quantity and new.label_here) or (
                a.quantity == b.quantity and a.point != b.point and b.point is not None
            )
            if other and a.unit.removeprefix("delta_") == b.unit.removeprefix("delta_"):
                a.role = "retracted"
                self._link(old, new)

    def _should_read(self) -> None:
        """Handle "it was 455. That should read 480, I looked at the gauge again"."""
        for i, new in enumerate(self.taken[1:], 1):
            old = self.taken[i - 1]
            if new.reading.role != "target" or old.reading.role != "measured":
                continue
            low, high = self.n.sentences[self.back.sentence_at[new.start]]
            lead = self.words[low : new.start]
            if lead[:2] != ["that", "should"] or len(lead) > 4 or not 0 <= low - old.end <= 1:
                continue
            if not correction_words("should_read", "why") & set(self.words[new.end : high]):
                continue
            if new.reading.quantity == old.reading.quantity or not new.said_unit:
                old.reading.role, new.reading.role = "retracted", "measured"
                self._link(old, new)

    def _reckoned_anew(self) -> None:
        """Handle "39 degrees of superheat, no, wrong line, saturated is 9, so 38"."""
        for cue in self.cues:
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if old is None or cue.start - old.end > 3 or cue.only_clause:
                continue
            if old.reading.role != "measured" or old.reading.quantity not in DIFFERENCES:
                continue
            low, high = self.n.sentences[self.back.sentence_at[cue.start]]
            if old.start < low:
                continue
            for t in self.taken:
                if t.start < cue.end or t.start >= high or t.reading.role != "measured":
                    continue
                lead = self.words[max(cue.end, t.start - 4) : t.start]
                so = next(
                    (i for i in range(len(lead) - 1, -1, -1) if lead[i] in correction_words("anew", "so")),
                    None,
                )
                if so is None or not set(lead[so + 1 :]) <= SMALL | correction_words("anew", "leads"):
                    continue
                if (
                    t.reading.quantity != old.reading.quantity
                    or same_number(t, old)
                    or t.start - cue.end > 24
                ):
                    continue
                old.reading.role = "retracted"
                self._link(old, t)
                break


__all__ = ["Relabels"]
