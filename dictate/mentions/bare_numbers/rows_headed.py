"""Amps of fans and motors that are read off in a row under a heading: "Then fans. Left | 1.1, right | 1.3".

The heading names what is measured, and each value of the row is led by which one it is and by nothing else.
A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, Link
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!", "and", "then"))
_SIDE_WORDS = frozenset(("the", "one", "number", "fan", "motor", "side", "at", "draws", "pulls"))
_LARGEST = 20.0
_HEADING = 8  # words that a heading may have
_ROW = 40  # words from a heading to the last value of its row


class RowsHeaded(Compared):
    """Tells the bare amps of a row whose heading is a sentence of its own."""

    def _headed_amps(self, v: Value) -> Link | None:
        """Return the amps that a value of a row under the heading of a fan or a motor is."""
        if not v.bare or v.clock or v.range or not 0 < v.value <= _LARGEST or not self._side_leads(v):
            return None
        if not any(w is not v and w.state == "value" and self._side_leads(w) for w in self.values):
            return None
        if any(c.start < v.start for c in self.components) or any(
            x.start < v.start and not x.label.weak for x in self.labels
        ):
            return None
        heading = self._heading()
        if heading is None:
            return None
        link = self._assume(v, "current", None, "row")
        if link is not None:
            link.component = heading
        return link

    def _side_leads(self, v: Value) -> bool:
        """Tell whether the clause in front of a value says which one, and nothing else."""
        begin = v.start
        while begin > self.first and (self.words[begin - 1] not in _STOPS or self._only_a_filler(begin - 1)):
            begin -= 1
        names = word_list("readings_sides") | word_list("headed_numbers")
        lead = [w for w in self.words[begin : v.start] if w in names or (w not in FILLERS and w != ",")]
        if lead[-2:] == ["number", "one"]:
            return len(lead) == 2
        said = [w for w in lead if w in names or (w not in _SIDE_WORDS and w not in COPULAS)]
        return len(said) == 1 and said[0] in names

    def _only_a_filler(self, at: int) -> bool:
        """Tell whether a comma only parts a filler from what it stands in: "right, uh, one point three"."""
        if self.words[at] != ",":
            return False
        behind, before = self.words[at + 1 : at + 2], self.words[max(self.first, at - 1) : at]
        return bool((FILLERS - word_list("readings_sides")) & {*behind, *before} - {","})

    def _heading(self) -> str | None:
        """Return the fan or motor that the short sentence in front names, if it has no value itself."""
        number = self.number - 1
        sentences = self.r.narration.sentences
        if number < 0 or self.first - sentences[number][0] > _HEADING + 1:
            return None
        start, end = sentences[number]
        if any(t.sentence == number for t in self.r.found.readings[-3:]):
            return None
        named = self.r.components[self.r.span("components", start, end)]
        if len(named) != 1 or not named[0].name.endswith(("fan motor", "motor", "blower", "pump")):
            return None
        said = self.words[named[0].end - 1]
        return named[0].name if said.endswith("s") else None


__all__ = ["RowsHeaded"]
