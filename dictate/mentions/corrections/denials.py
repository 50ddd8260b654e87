"""What a value was not: "208, not 280", "no, that's the label", "that's the right, left is 5.8"."""

from __future__ import annotations

from typing import cast

from dictate.mentions.corrections.alike import clear_loose, same_number
from dictate.mentions.corrections.cues import Corrections
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record


class Denials(Corrections):
    """Takes a value for what the words behind it say that it is."""

    def _denials(self) -> None:
        """Take "208, not 280" and "not 280, 208" for what they are."""
        for i, t in enumerate(self.taken):
            before = self.words[max(0, t.start - 2) : t.start]
            if not before or before[-1] != "not" or t.reading.role != "measured":
                continue
            near = [
                o for o in (self.taken[i - 1 : i] + self.taken[i + 1 : i + 2]) if o.sentence == t.sentence
            ]
            if any(
                o.reading.quantity == t.reading.quantity
                and min(abs(o.start - t.end), abs(t.start - o.end)) <= 4
                for o in near
            ):
                t.reading.role = "retracted"

    def _that_is_the_plate(self) -> None:
        """Take "three point one amps, no, that's the label" as what the label says, not as measured."""
        kinds = dict.fromkeys(("label", "plate", "nameplate", "rating", "tag", "sticker"), "rated")
        kinds |= dict.fromkeys(("setting", "setpoint", "target", "spec"), "target")
        for taken in self.taken:
            after = [
                w for w in self.words[taken.end : taken.end + 8] if w not in {",", "no", "wait", "sorry"}
            ]
            if after[:1] == ["that's"]:
                after = ["that", "'s", *after[1:]]
            if after[:1] == ["that"] and after[1:2] in (["'s"], ["is"], ["was"]) and after[2:3] == ["the"]:
                kind = kinds.get(after[3]) if len(after) > 3 else None
                ends = len(after) < 5 or after[4] in {".", "it", "i", "but", "mine", "she", "actual", "and"}
                if kind is not None and ends and taken.reading.role in {"measured", "retracted"}:
                    taken.reading.role = cast("record.Role", kind)

    def _other_side(self) -> None:
        """Handle "draws 6.1, no, sorry, that's the right, left is 5.8, right is 6.1"."""
        sides = word_list("self_correction_sides")
        for cue in self.cues:
            at = cue.end + (self.words[cue.end : cue.end + 1] == [","])
            if self.words[cue.end - 2 : cue.end] == ["that", "'s"]:
                at = cue.end - 2  # "sorry that's | the right"
            if self.words[at : at + 3] not in (["that", "'s", "the"], ["that", "was", "the"]):
                continue
            old = next((t for t in reversed(self.taken) if t.end <= cue.start), None)
            if old is None or cue.start - old.end > 2 or not sides & set(self.words[at + 3 : at + 5]):
                continue
            again = next(
                (
                    t
                    for t in self.taken
                    if at < t.start <= at + 30
                    and same_number(t, old)
                    and t.reading.quantity == old.reading.quantity
                ),
                None,
            )
            if again is not None:
                old.reading.role = "retracted"
                self._link(old, again)
                clear_loose(again)
