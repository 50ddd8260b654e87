"""A later sentence names what it corrects: "correction on the head pressure, that was 230"."""

from __future__ import annotations

from dictate.mentions.corrections.alike import same_number
from dictate.mentions.corrections.cues import Corrections
from dictate.mentions.labels import find_labels
from dictate.vocabulary.load import table


class ByName(Corrections):
    """Puts a value of before right by its name."""

    def _by_name(self) -> None:
        """Handle "correction on the head pressure, that was 230", "scratch the superheat, it was 12"."""
        leads = [tuple(x.split()) for x in table("cues")["correction"]["by_name"]]
        firsts = {x[0] for x in leads}
        for i, word in enumerate(self.words):
            if word not in firsts or self.back.handled(i, i + 2):
                continue
            lead = next((x for x in leads if tuple(self.words[i : i + len(x)]) == x), None)
            if lead is None or (
                lead in {("change", "the"), ("had", "the"), ("back", "to", "the")}
                and "wrong" not in self.words[i : i + 8]
            ):
                continue
            label = next((x for x in find_labels(self.n) if i < x.start <= i + 6), None)
            if label is None:
                continue
            if "wrong" in self.words[i : label.start]:
                continue  # "I had the wrong scale, bottom is twenty-seven" names no value that was wrong
            new = next((t for t in self.taken if label.end <= t.start <= label.end + 10), None)
            if new is None:
                continue
            for t in reversed(self.taken):
                same = t.reading.quantity == new.reading.quantity and t.reading.point == new.reading.point
                if t.end <= i and same and same_number(t, new):
                    break  # "it was 9.8, I had the clamp on wrong, so 9.8": it was said once more
                if t.end <= i and same and t.reading.role == "measured":
                    t.reading.role = "retracted"
                    new.reading.role = "measured"
                    self._link(t, new)
                    break
