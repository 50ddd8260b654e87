"""What an amount was made up of is not counted again: the old gas and the new one of which it was the whole.

"In went eight pounds, six of it the old stuff and two pounds new out of the jug."      charged 8 lb
"Twelve and a half kilos back in, eleven of the old and one and a half of new."         charged 12.5 kg
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.talk import Talk
from dictate.units import convert
from dictate.vocabulary.load import word_set

_MOST = 3
"""Shares of one amount."""
_EXACT = 1e-3


def without_shares(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Leave out the amounts behind a whole, in its sentence, that it is the sum of."""
    out = list(moved)
    for whole in moved:
        if not any(m is whole for m in out):
            continue
        _, s1 = talk.scopes.sentence(whole.end - 1)
        shares = [m for m in out if whole.end <= m.start < s1 and m.kind == whole.kind]
        if shares and _made_up(talk, whole, shares, s1):
            out = [m for m in out if all(m is not s for s in shares)]
    return out


def _made_up(talk: Talk, whole: Mass, shares: list[Mass], s1: int) -> bool:
    """Tell whether amounts, with the bare numbers between them, give the one before them as its shares."""
    said = set(talk.words[whole.end : s1])
    if said.isdisjoint(word_set("shares_of_gas")) or not said.isdisjoint(word_set("one_portion_more")):
        return False
    own = {n.start for m in shares for n in m.q.numbers} | {m.q.start for m in shares}
    bare = [
        n
        for n in talk.numbers_in(whole.end, shares[-1].start)
        if n.start not in own and not n.pronoun and n.value > 0
    ]
    total = sum(convert(m.value, m.unit, whole.unit) for m in shares)
    return (
        len(bare) + len(shares) in range(2, _MOST + 1)
        and abs(total + sum(n.value for n in bare) - whole.value) <= _EXACT * whole.value
    )


__all__ = ["without_shares"]
