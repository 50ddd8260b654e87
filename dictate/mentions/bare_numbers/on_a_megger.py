"""Bare numbers of a tour with an insulation tester: all are told in the megohms that were said once.

"Megger. T one to the shell, two hundred meg. T two, | one ninety. Now the other one. T one, | point three",
"... above a hundred meg on the first two, the pan's | eighty". The tour goes on over the sentences until
another meter or another thing to measure is spoken of. A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.values.rows import COUNTS
from dictate.mentions.whose.taken import COPULAS, Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!"))
_FAR = 45  # words since the last value of the tour
_MEGOHM = 1e6
_ALIKE = 20.0  # how far apart two values may lie before a person is asked
_ROW = 6  # readings back among which plain ohms of the same size are looked for
_NOT_SAID = "megohms were not said; an insulation tester reads in them"
_NAME = 5  # words of a name that the vocabulary does not know: "the outside one's"


class OnAMegger(Compared):
    """Tells the bare numbers of a tour with an insulation tester."""

    def _on_a_megger(self, v: Value) -> Link | None:
        """Read "T one two hundred meg, T two, | one ninety" in the megohms of the first."""
        if not v.bare or v.clock or v.range or v.value <= 0:
            return None
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or not self._in_megohms(last) or not 0 <= v.start - last.end <= _FAR:
            return None
        between = self.words[last.end : v.start]
        ends = word_list("on_a_megger_ends")
        if not ends.isdisjoint(between) or not ends.isdisjoint(self.words[v.end : v.end + 4]):
            return None
        if any(w.start > v.start and w.word in {"meg", "megohm"} for w in self.values):
            return None  # "the new one a hundred and ten, over two hundred meg": its ohms first
        if self._like_plain_ohms(v.value):
            return None  # "24 ohms, 5 meg to ground. Second one | 24.1"
        here = last.sentence == self.number
        if not self._megged_name(v, here) or not self._megger_tour(last):
            return None
        if any(p.kind in {"winding", "legs"} and 0 <= v.start - p.end <= 3 for p in self.points):
            return None  # "one to two, one point one": of its windings
        lead = self.words[max(self.first, v.start - 5) : v.start]
        if "to" in lead and lead[-1:] == [","] and (lead[-2].isdigit() or lead[-2] in COUNTS):
            return None
        link = Link("resistance", "ohm", tidy(v.value * _MEGOHM), unit_said=False, explicit=True, how="row")
        link.point = "ground" if "ground" in (last.reading.point or "") else None
        self.r.narration.found.setdefault("megged", set()).add(v.start)
        apart = max(v.value, last.value.value) / min(v.value, last.value.value)
        doubted = _NOT_SAID in last.reading.review  # of a row each is as doubtful as the first
        if doubted or (apart > _ALIKE and not (here and last.said_unit)):
            link.reasons.append(_NOT_SAID)
        tell_outright(self.r.narration, v.start)
        return link

    def _like_plain_ohms(self, value: float) -> bool:
        """Tell whether a number is of the size of ohms that were just read on parts of the same kind."""
        return any(
            t.reading.quantity == "resistance" and t.reading.value and 0.8 <= value / t.reading.value <= 1.25
            for t in self.r.found.readings[-_ROW:]
        )

    def _in_megohms(self, t: Taken) -> bool:
        """Tell whether a value is one of the tour: said in megohms, or taken over from such a one."""
        r, said = t.reading, t.value.value
        if r.quantity != "resistance" or not r.value or t.value.state != "value" or said <= 0:
            return False
        return 0.9 * _MEGOHM <= r.value / said <= 1.1 * _MEGOHM

    def _megger_tour(self, last: Taken) -> bool:
        """Tell whether the tester or what is tested against was named: a meg of a sensor begins no tour."""
        if last.reading.point and "ground" in last.reading.point:
            return True
        near = self.words[max(0, last.start - 60) : last.end + 6]
        return any(w.startswith(("megg", "insulation")) for w in near)

    def _megged_name(self, v: Value, here: bool) -> bool:
        """Tell whether nothing but names of what is tested leads to a number within its clause."""
        begin = v.start
        while begin > self.first and self.words[begin - 1] not in _STOPS and v.start - begin < 14:
            begin -= 1
        named = {
            i for c in self.components if begin <= c.start and c.end <= v.start for i in range(c.start, c.end)
        }
        lead = [
            w for i, w in enumerate(self.words[begin : v.start], begin)
            if i not in named and w not in FILLERS | COPULAS
        ]  # fmt: skip
        if self.words[begin - 1 : begin] == [","] and not lead:
            before = self._megged_clause(begin - 1)
            return here or len(before) <= _NAME
        known = all(
            len(w) <= 2 or w in word_list("row_of_legs_gap") | word_list("on_a_megger_names") for w in lead
        )
        told = here and len(lead) <= _NAME and not COPULAS.isdisjoint(self.words[v.start - 1 : v.start])
        return known or told

    def _megged_clause(self, end: int) -> list[str]:
        """Return the words of the clause that ends at a token."""
        begin = end
        while begin > self.first and self.words[begin - 1] not in _STOPS:
            begin -= 1
        return self.words[begin:end]


__all__ = ["OnAMegger"]
