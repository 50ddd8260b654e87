"""Do the words around it, taken together, look like a value of that kind at all."""

from __future__ import annotations

from dictate.mentions.doubts.evidence import of_test
from dictate.mentions.doubts.talk import Case
from dictate.mentions.second_opinion import NONE, opinions
from dictate.mentions.told_outright import is_told_outright

_UNLIKE, _UNLIKE_SAID = 0.1, 0.01
"""Below these chances a bare value, and one whose unit was said, is doubted.

Chosen on narrations that the weights were not trained on: at these a needless doubt is about as rare as a
found fault. Whether it is of now is left to the roles: a plate value beside it colours the words around.
"""
_UNLIKE_NOT_MEASURED = 0.2
"""The same for a bare target or plate value: it is wrong four times as often."""
_BORNE_OUT = 0.7
"""From this chance on, the looks at a few words beside a value give way (`YIELDING` in looks.py)."""
_OUTWEIGHED, _BORNE_OUT_WEIGHED = 0.76, 0.97
"""The same for the shares of all evidence (`weighing.py`), where they were weighed."""


def _weighed(c: Case) -> dict[str, float] | None:
    if not c.bare or c.number is None:
        return None
    shares: dict[str, float] | None = c.talk.n.found.get("weighed", {}).get(c.number.start)
    return shares


def unlike(c: Case) -> str | None:
    """Doubt a value that the second opinion, which knows no grammar, takes for something else."""
    r, number = c.reading, c.number
    opinion = opinions(c.talk.n).get(number.start) if number is not None else None
    if opinion is None or r.state != "value" or not r.value:
        return None
    if number is not None and is_told_outright(c.talk.n, number.start):
        return None
    weighed = _weighed(c)
    bare = _UNLIKE if r.role == "measured" else _UNLIKE_NOT_MEASURED
    best = opinion.best
    if weighed is not None:
        if r.retracts or weighed.get(r.quantity, 0.0) >= _OUTWEIGHED:
            return None  # what puts another value right is of its quantity
        most = max(weighed, key=weighed.__getitem__)
        best = opinion.best if most == r.quantity else most
    elif opinion.quantities.get(r.quantity, 0.0) >= (bare if c.bare else _UNLIKE_SAID):
        return None
    if r.quantity == "vacuum" and opinion.best == "pressure" and of_test(c):
        return None  # both are levels of a test, and the pump told which
    if best not in {r.quantity, NONE}:
        return f"the words around it sound more like a {best.replace('_', ' ')}"
    return "the words around it do not sound like a value that was read"


def bears_out(c: Case) -> bool:
    """Tell whether the words around a value, taken together, clearly look like a value of its kind."""
    if c.number is not None and is_told_outright(c.talk.n, c.number.start):
        return True
    weighed = _weighed(c)
    if weighed is not None and weighed.get(c.reading.quantity, 0.0) >= _BORNE_OUT_WEIGHED:
        return True
    opinion = opinions(c.talk.n).get(c.number.start) if c.number is not None else None
    return opinion is not None and opinion.of(c.reading.quantity) >= _BORNE_OUT
