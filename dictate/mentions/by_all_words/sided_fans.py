"""Fans of a cabinet that are told by their side: all plain fans of such a visit are those over its coil.

"Top fan is an open circuit. Bottom fan | 410 ohms. ... Compressor is 0.60. Fan | 0.08 amps": beside a
compressor most plain fans are a condenser's; but the visit has named none of these.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Reading

_COLD, _WARM = "evaporator fan motor", "condenser fan motor"
_PLAIN = frozenset(("fan", "fans", "motor", "motors"))


def settle_sided_fans(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give the plain fans of a visit that tells cabinet fans by their side to its coil, in place."""
    words = narration.lowers
    sided = False
    for c in find_components(narration):
        if c.name not in {_COLD, _WARM}:
            continue
        plain = _PLAIN.issuperset(words[c.start : c.end])
        if c.name == _COLD:
            sided = sided or (plain and c.which in word_list("sides_of_fans"))
        elif not plain or (
            words[c.start - 1 : c.start] != [] and words[c.start - 1] in word_list("warm_fans")
        ):
            return
    if not sided or not word_list("warm_fan_talk").isdisjoint(words):
        return
    for r in readings:
        if r.component == _WARM and r.role == MEASURED:
            r.component = _COLD


__all__ = ["settle_sided_fans"]
