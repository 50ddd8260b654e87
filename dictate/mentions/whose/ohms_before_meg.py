"""A row of bare numbers in front of megohms: ohms of the windings, or megohms like the last.

"B three windings fourteen, fourteen, eleven and a half, and one point two meg to earth" tells three windings
and what lies between them and earth; "phases to earth a hundred and ten, a hundred and twenty, one fifteen
meg" tells three values of one tester. The unit of the last is that of the row only where the words say so.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.quantities import FILLERS
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import word_list

MEG = frozenset(("meg", "megs", "megohm", "megohms", "mega"))
MAY_BE_OHMS = "the unit was said behind another value of the row: it may be plain ohms"
_LEAD, _BEHIND = 10, 5
"""Words in front of a row, and behind the megohms, among which is told what was measured."""
_APART = 5.0
_UNLIKE = 2.0
"""How many times the megohms are more or less than the row where they are hardly another of it."""
_STOPS = frozenset((".", "?", "!", ";"))


def own_row(words: Sequence[str], first: int, row: Sequence[Value], source: Value) -> bool | None:
    """Tell whether a row before megohms is of ohms; None where the words leave it open.

    `first` is the first token of the sentence.
    """
    lead = words[max(first, row[0].start - _LEAD) : row[0].start]
    cut = max((i for i, w in enumerate(lead) if w in _STOPS), default=-1)
    lead = lead[cut + 1 :]
    if _to_earth(lead) or not row[-1].value or not source.value:
        return False
    if not word_list("own_ohms_named").isdisjoint(lead):
        return True
    between = [w for w in words[row[-1].end : source.start] if w not in FILLERS and w != ","]
    if _of_all(between):
        return True  # "eighty-seven and eighty-eight, and each went past two hundred meg"
    apart = min(max(v.value / source.value, source.value / v.value) for v in row if v.value)
    earth = _to_earth(words[source.end : source.end + _BEHIND])
    if apart >= _APART and (between or earth or any(v.numbers and v.numbers[0].places for v in row)):
        return True
    if apart >= _UNLIKE and earth and len(row) == 3:
        return True
    return None if apart >= _UNLIKE else False


def _of_all(between: Sequence[str]) -> bool:
    """Tell whether megohms are told of all of the row, so that the row itself is of something else."""
    return not word_list("own_ohms_of_all").isdisjoint(between) and not word_list(
        "own_ohms_bounds"
    ).isdisjoint(between[-3:])


def _to_earth(words: Sequence[str]) -> bool:
    return any(w in word_list("own_ohms_earth") or w.startswith(("megg", "insulat")) for w in words)


__all__ = ["MAY_BE_OHMS", "MEG", "own_row"]
