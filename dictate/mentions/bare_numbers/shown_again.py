"""Flows and shares of glycol, read again without their unit once something was done about them.

"Flow meter had nine gallons a minute. Strainer rinsed, and now she's doing | seventeen", "eighteen percent,
so I put three gallons in. It reads | thirty-four now". Nothing else is read on such a meter, and the clause
names nothing but "it". A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!"))
_METERED = frozenset(("flow", "concentration"))
_FAR = 70  # words since it was read before
_ALIKE = (0.25, 4.0)  # how much it can have changed


class ShownAgain(Compared):
    """Tells a bare number that a meter of its own showed again."""

    def _shown_again(self, v: Value) -> Link | None:
        """Read "and now she's doing | seventeen" as the flow that was read last."""
        if not v.bare or v.clock or v.range or v.value <= 0:
            return None
        last = self._metered_before(v)
        if last is None or not last.reading.value:
            return None
        if not _ALIKE[0] <= v.value / last.reading.value <= _ALIKE[1] or self._something_between(last, v):
            return None
        behind = self.words[v.end : v.end + 1]
        if behind and behind[0] not in _STOPS | word_list("shown_again_behind"):
            return None
        begin = v.start
        while begin > self.first and self.words[begin - 1] not in _STOPS and v.start - begin < 8:
            begin -= 1
        lead = [w for w in self.words[begin : v.start] if w not in FILLERS]
        if not lead or not word_list("shown_again_leads").issuperset(lead):
            return None
        if word_list("shown_again_verbs").isdisjoint([*lead, *behind]):
            return None
        tell_outright(self.r.narration, v.start)
        link = self._like(v, last)
        if link is not None:
            link.how = "row"
        return link

    def _metered_before(self, v: Value) -> Taken | None:
        """Return the last reading before, where it is one of a meter of its own."""
        last = self.r.last(before=v.start, within=_FAR)
        return last if last is not None and last.reading.quantity in _METERED else None

    def _something_between(self, last: Taken, v: Value) -> bool:
        """Tell whether something else that has a value of its own was named since."""
        between = self.labels[self.r.span("labels", last.end, v.start)]
        return any(
            not x.label.weak and (x.label.quantity or x.label.default or last.reading.quantity)
            != last.reading.quantity
            for x in between
        )  # fmt: skip


__all__ = ["ShownAgain"]
