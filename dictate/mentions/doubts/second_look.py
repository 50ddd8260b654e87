"""Do the words around it, taken together, look like a value of that kind at all."""

from __future__ import annotations

from dictate.mentions.doubts.evidence import of_test
from dictate.mentions.doubts.talk import Case
from dictate.mentions.second_opinion import NONE, opinions
from dictate.mentions.told_outright import is_proved, is_told_outright

_UNLIKE, _UNLIKE_SAID = 0.2, 0.01
"""Below these chances a bare target or plate value, and one whose unit was said, is doubted.

Chosen on narrations that the weights were not trained on.
"""
_AGAINST, _SURE = 0.05, 0.75
"""Where its own quantity has less and another one more, a bare one is doubted whatever its frame says."""
_OUTWEIGHED = 0.76
"""The share of all evidence (`weighing.py`), where it was weighed, from which on nothing is doubted."""


def weighed(c: Case) -> dict[str, float] | None:
    """Return the shares of the quantities of a bare value, None where its evidence was not weighed."""
    if not c.bare or c.number is None:
        return None
    shares: dict[str, float] | None = c.talk.n.found.get("weighed", {}).get(c.number.start)
    return shares


def unlike(c: Case) -> str | None:
    """Doubt a target or plate value that the second opinion takes for something else."""
    r, number = c.reading, c.number
    opinion = opinions(c.talk.n).get(number.start) if number is not None else None
    if opinion is None or number is None or r.state != "value" or not r.value:
        return None
    if is_proved(c.talk.n, number.start):
        return None
    against = opinion.quantities.get(r.quantity, 0.0) < _AGAINST
    if not against and is_told_outright(c.talk.n, number.start):
        return None
    if against and c.bare and opinion.quantities.get(opinion.best, 0.0) > _SURE:
        return sounds_like(opinion.best)
    shares = weighed(c)
    best = opinion.best
    if shares is not None:
        if r.retracts or shares.get(r.quantity, 0.0) >= _OUTWEIGHED:
            return None  # what puts another value right is of its quantity
        most = max(shares, key=shares.__getitem__)
        best = opinion.best if most == r.quantity else most
    elif opinion.quantities.get(r.quantity, 0.0) >= (_UNLIKE if c.bare else _UNLIKE_SAID):
        return None
    if r.quantity == "vacuum" and opinion.best == "pressure" and of_test(c):
        return None  # both are levels of a test, and the pump told which
    return sounds_like(NONE if best == r.quantity else best)


def sounds_like(best: str) -> str:
    """Return the reason for a value whose words sound like another quantity, or like no value."""
    if best in {NONE, "movement"}:
        return "the words around it do not sound like a value that was read"
    return f"the words around it sound more like a {best.replace('_', ' ')}"
