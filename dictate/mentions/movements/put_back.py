"""What was recovered went in again, and the amount was told by that alone.

"Recovered 2 pounds 2 ounces. ... Put back what I took out."     charged 2 lb 2 oz
"... After the vacuum I put the same amount back in."            charged 650 g
"""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.movements.from_cylinders import said_again_bare
from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.surroundings import other_visit
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases_by_first

_REACH = 10
"""Words behind the verb among which "what I took out" stands."""


def with_same_put_back(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Add the amount that was put back where only "what I took out" says how much it was."""
    out = [m for m in moved if m.kind == "recovered"]
    if len(out) != 1 or any(m.kind == "charged" for m in moved):
        return moved
    first = out[0]
    bare = said_again_bare(talk, moved)
    if bare is not None and not other_visit(talk, bare[0]):
        tokens = talk.w.tokens
        q = replace(first.q, start=tokens[bare[0]], end=tokens[bare[1] - 1] + 1)
        return [*moved, replace(
            first, q=q, kind="charged", start=bare[0], end=bare[1], trigger=bare[0],
            review=list(first.review), candidates=[], retracted=[], also=[],
        )]  # fmt: skip
    for hit in talk.hits:
        if hit.start < first.end or hit.label != "charged" or hit.verb is None:
            continue
        _, s1 = talk.scopes.sentence(hit.start)
        if any(hit.start <= m.start < s1 for m in talk.masses) or trigger_status(talk, hit) != "done":
            continue
        k = _same(talk, hit.start, min(s1, hit.start + _REACH))
        if k is None or other_visit(talk, hit.start):
            continue
        why = "the amount was not said with it: what was recovered is taken"
        again = replace(
            first, kind="charged", start=hit.start, end=k, trigger=hit.start,
            review=[*first.review, why], candidates=[], retracted=[], also=[],
        )  # fmt: skip
        return [*moved, again]
    return moved


def _same(talk: Talk, first: int, last: int) -> int | None:
    """Return the word behind "the same amount" or "what I took out"."""
    begun = phrases_by_first("same_as_came_out")
    for k in range(first, last):
        for phrase in begun.get(talk.words[k], ()):
            if talk.words[k : k + len(phrase)] == phrase:
                return k + len(phrase)
    return None
