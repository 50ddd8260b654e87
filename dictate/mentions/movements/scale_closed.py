"""Amounts that a scale tells when gas stops moving, and no verb of recovering or charging beside them.

"Zeroed the scale, opened the bottle, closed it at 2 pounds 10."          charged
"The recovery machine stopped at 0 psi with 4 pounds 9 on the scale."     recovered
"Recovered to 0 psi, scale at 38 ounces."                                 recovered
"Scale read minus 14 ounces when I shut the valve."                       charged
"She's in at 28 ounces."                                                  charged
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Direction
from dictate.mentions.movements.surroundings import vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.patterns import Hit
from dictate.mentions.quantities import Quantity
from dictate.vocabulary.load import word_set

_REACH = 7
"""Words between the verb of closing and the amount at which a valve was closed."""
_PASSED = ("about", "exactly", "just", "right", "around", "roughly", "an", "a", "even")


def by_closed_valve(talk: Talk, start: int, end: int, s0: int, s1: int, q: Quantity) -> Direction | None:
    """Return the way of an amount that the scale told when the valve was closed or the machine stopped."""
    if not q.parts and any(u == "psi" for u, _ in q.means):
        return None
    k = start
    while k > s0 and talk.words[k - 1] in _PASSED:
        k -= 1
    before = talk.words[s0:k]
    if q.value < 0 and set(talk.words[max(s0, start - 3) : start + 1]) & word_set("weighing_words"):
        return "charged"  # a cylinder's scale that was set to nought falls below it
    if before[-1:] == ("minus",) and set(before[-4:]) & word_set("weighing_words"):
        return "charged"  # a cylinder's scale that was set to nought falls below it
    if before[-2:] in (("in", "at"), ("in", "for")) and before[-3:-2] and before[-3] in word_set("is_now"):
        return "charged"
    rest = talk.words[end : min(s1, end + 4)]
    scaled = rest[:3] in phrases("on_scale") or (rest[:1] in (("in",), ("on",)) and vessel_in(rest))
    if scaled and _machine_stopped(before) and not _moves(talk, s0, start):
        return "recovered"
    if before[-1:] != ("at",):
        return None
    last = talk.masses[-1] if talk.masses else None
    if last is not None and last.kind in ("vessel", "weight") and last.start >= s0:
        return None  # "the jug started at 24.5 pounds and finished at 20.4"
    for n in range(2, min(_REACH, len(before)) + 1):
        if before[-n] in word_set("closes_a_valve"):
            break
        if before[-n] not in word_set("closed_things"):
            return None
    else:
        return None
    number = talk.w.sentence_of[start]
    low = talk.w.sentences[max(0, number - 1)][0]
    around = talk.words[low:s1]
    if not set(around) & word_set("weighing_words") and not vessel_in(around):
        return None
    if talk.scopes.noun(start, end) != "done":
        return None
    for word in reversed(talk.words[low:start]):
        if word in word_set("stage_out"):
            return "recovered"
        if word in word_set("stage_in"):
            break
    return "charged"


def _machine_stopped(before: tuple[str, ...]) -> bool:
    """Tell whether a recovery machine was told of before, or one that stopped at a depth of vacuum."""
    row = set(before)
    if row & {"recovery", "reclaim"} and row & {"machine", "unit", "recovered"}:
        return True
    stopped = bool(row & word_set("closes_a_valve")) and bool(row & {"machine", "unit", "pump"})
    return stopped and bool(row & {"inches", "psi", "zero", "flat"})


def _moves(talk: Talk, first: int, last: int) -> bool:
    return any(h.verb is not None and h.label == "charged" for h in talk.hits_in(first, last))


def work_beside_scale(talk: Talk, left: Hit, s0: int, start: int) -> Hit | None:
    """Return the verb whose amount "scale at" gives: "recovered to 0 psi, scale at 38 ounces"."""
    if talk.words[left.start] not in ("scale", "scales") or any(s0 <= a.start < start for a in talk.masses):
        return None
    work = [
        h
        for h in talk.hits_in(s0, left.start)
        if h.label in ("recovered", "charged") and h.verb is not None and trigger_status(talk, h) == "done"
    ]
    return work[-1] if work and len({h.label for h in work}) == 1 else None
