"""What was read to ground, and what is lost across a contact."""

from __future__ import annotations

import re

from dictate.mentions.electric.supply import SupplyVolts
from dictate.mentions.values import Value
from dictate.mentions.word_lists import word_list

LINE_TO_LOAD = re.compile(r"\bl ?([123]) to t ?\1\b|\bline to load\b")
"""The two ends of one pole: what is read between them is lost across it."""

GROUNDED = re.compile(
    rf"\b(?:to|and) (?:(?:the|its|their|any|a|bare|outer|motor|compressor) )*"
    rf"(?:{'|'.join(map(re.escape, sorted(word_list('values_ground'))))}) "
    r"|\b(?:shorted|short) to ground "
)
"""Words that a meter's other lead was on the shell."""


class Grounds(SupplyVolts):
    """What was read to ground, and what is lost across a contact."""

    def _to_ground(self, v: Value) -> bool:
        """Tell whether a value was read to the shell: the words beside it say so, or those of its row.

        As in "T1 to the shell I get 2.2", "point eight to the case", and "one and two to the shell clear,
        terminal three twelve K".
        """
        if v.start in self.r.narration.found.get("megged", ()):
            return True  # an insulation tester reads to the shell only
        before = [x for x in self.values if x.end <= v.start and x.end > self.first]
        begin = max([self.first, v.start - 9, *(x.end for x in before)])
        lead = self.words[begin : v.start]
        said = [*GROUNDED.finditer(" ".join(lead) + " ")]
        if said and said[0].start() == 0 and before and before[-1].end == begin:
            said = said[1:]  # "7 megohms to ground, minimum is 5": said of the value before
        if said:  # "to ground it's open, then the windings forty ohms"
            since = " ".join(lead)[said[-1].end() - 1 :].split()
            return not {"then", "winding", "windings", "leg", "legs"} & set(since)
        if GROUNDED.match(" ".join(self.words[v.end : min(self.last, v.end + 5)]) + " "):
            return True
        if not before or not before[-1].ground or not word_list("places_pins") & set(lead):
            return False
        return "to" not in lead

    def _ohms_to_ground(self, v: Value) -> bool:
        """Tell whether a bare number to the shell is ohms, as ohms were spoken of: "0.8 to the case"."""
        if not v.bare or v.clock or v.value > 90 or not self._to_ground(v):
            return False
        last = self.r.last(before=v.start, within=40)
        ohms = last is not None and last.reading.quantity == "resistance" and self.number - last.sentence <= 1
        near = self.words[max(self.first, v.start - 12) : min(self.last, v.end + 12)]
        if {"volts", "volt", "voltage", "voltmeter", "dead", "amps"} & set(near):
            return False
        behind = set(self.words[v.end : min(self.last, v.end + 8)])
        if (
            v.value.is_integer()
            and v.value <= 6
            and ({"clear", "open", "nothing", "ol"} & behind or v.numbers[0].start == self.first)
        ):
            return False  # "terminals one and two to the shell both clear": which ones
        return ohms or "grounded" in near

    def _contact_drop(self, v: Value) -> bool:
        """Tell whether a few volts lost across closed contacts are read: "across the contacts, 0.4 on A"."""
        if not 0 <= v.value < 60 or (v.value >= 30 and v.quantity is None and not self._row_of_drops(v)):
            return False
        begin = v.start
        talk = word_list("electric_contact_talk")
        while begin > 0 and v.start - begin < 45 and self.words[begin - 1] not in {"amps", "amp", "legs"}:
            begin -= 1
        if v.bare and v.value > 2:
            begin = max(begin, self._sentence_of_a_load(v))
        said = self.words[begin : v.start] + self.words[v.end : v.end + 1]
        near = " ".join(self.words[max(begin, v.start - 8) : v.start])
        lost = word_list("electric_drop_talk") & set(said) or "over the pole" in " ".join(said)
        through = LINE_TO_LOAD.search(near) is not None
        if v.value < 3 and (v.word == "volt" or not v.bare) and {"pole", "poles"} & set(said[-8:]):
            return True  # "Pole one now, a tenth of a volt"
        behind = self.words[v.end : v.end + 5]
        if v.value < 3 and v.word == "volt" and "across" in behind and {"pole", "poles"} & set(behind):
            return True  # "half a volt across any pole"
        return bool((lost and talk & set(said)) or (through and v.value < 60 and v.word in {None, "volt"}))

    def _sentence_of_a_load(self, v: Value) -> int:
        """Return where the last sentence begins that is of something that draws amps, 0 when none does.

        As in "Drop on pole C 0.1. Compressor two, running. A: 16.4".
        """
        for c in reversed(self.r.components):
            if c.end <= v.start and c.component.bare == "current":
                k = c.start
                while k > 0 and c.start - k < 4 and self.words[k - 1] not in {".", "?", "!", ";"}:
                    k -= 1
                return k if k > 0 and self.words[k - 1] in {".", "?", "!", ";"} else 0
        return 0

    def _row_of_drops(self, v: Value) -> bool:
        """Tell whether the value before was volts lost across another pole of the same contactor."""
        last = self.r.last("voltage", before=v.start, within=14)
        return last is not None and last.reading.derived and last.reading.component == "contactor"
