"""Amounts by all the words around them: what no verb told is taken, what sounds like none is asked about.

The text encoder (`second_opinion.told`) judges for each number whether it tells an amount that went in or
came out. It overrules nothing that was told: an amount that it is nearly certain of is added where nothing
else was taken, with a reason; an amount that it does not take for one gets a reason.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dictate.mentions.movements.mass import Mass, same_weight
from dictate.mentions.movements.talk import Talk
from dictate.mentions.quantities import mass_of
from dictate.mentions.second_opinion import Told, told

BY_WORDS = "no plain phrase told this amount: taken because of all the words around it"
_TAKEN = 0.9
"""The share from which an amount is taken that nothing told."""
_ASKED = 0.02
"""The share below which an amount that was told is asked about.

Both were chosen on narrations that the weights were not trained on."""
_MOVED = ("recovered", "charged")


def with_what_sounds_moved(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Return the amounts with those that only the words around them tell."""
    left = [a for a in talk.masses if _is_free(a, moved)]
    if not left:
        return moved
    shares = told(talk.narration, "way")
    out = list(moved)
    for a in left:
        own = {way: _share(shares, a, way) for way in _MOVED}
        way = max(own, key=own.__getitem__)
        if own[way] < _TAKEN or _told_near(talk, a, way, out):
            continue
        a.kind, a.status, a.trigger = way, "done", a.start
        a.review.append(BY_WORDS)
        out.append(a)
    return sorted(out, key=lambda a: a.start)


def doubted(shares: Mapping[int, Told], starts: Sequence[int], way: str) -> str | None:
    """Return why an amount is asked about whose numbers begin at `starts`; None when it is not."""
    seen = [shares[t] for t in starts if t in shares]
    if not seen or max(s.of(way) for s in seen) >= _ASKED:
        return None
    other = next(w for w in _MOVED if w != way)
    if max(s.of(other) for s in seen) > 0.5:
        return f"the words around it sound more like an amount that was {other}"
    return "the words around it do not sound like an amount that was moved"


def _is_free(a: Mass, moved: Sequence[Mass]) -> bool:
    """Tell whether an amount is a weight that nothing else has taken, and no cylinder's."""
    if a.kind == "vessel" or mass_of(a.q) is None or not a.q.numbers or not a.value > 0:
        return False
    if a.unit not in {"lb", "oz", "g", "kg"}:
        return False
    return not any(m is a or (m.start < a.end and a.start < m.end) for m in moved)


def _share(shares: Mapping[int, Told], a: Mass, way: str) -> float:
    return max((shares[n.start].of(way) for n in a.q.numbers if n.start in shares), default=0.0)


def _told_near(talk: Talk, a: Mass, way: str, moved: Sequence[Mass]) -> bool:
    """Tell whether an amount that went the same way was told close by, or is the same."""
    here = talk.w.sentence_of[a.start]
    return any(
        m.kind == way and (same_weight(m, a) or abs(talk.w.sentence_of[m.start] - here) <= 1) for m in moved
    )


__all__ = ["BY_WORDS", "doubted", "with_what_sounds_moved"]
