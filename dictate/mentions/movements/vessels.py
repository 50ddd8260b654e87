"""What a cylinder or its scale weighs or still holds, which is no amount that was moved.

    "Recovery bottle weighed in at thirty pounds."          the vessel is the subject of a state
    "About a pound left in the jug."                        what it still holds
    "... 38 pounds 2 when I started and 33 pounds 14 when I finished"    the second weight of a pair

Two weights of one vessel give the amount that was moved, see `worked_out`.
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.surroundings import vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.vocabulary.load import word_set

_BETWEEN = 16  # words between two weights of one vessel: "... when I cracked the valve open, and at the end"
_UNLIKE = 8.0  # two weights of one vessel are never further apart than this


def weight_of_vessel(talk: Talk, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether the amount is what a vessel weighs or holds, not what went into or out of it."""
    if talk.words[end : end + 1] in (("tare",), ("gross",)):
        return True
    if set(talk.words[max(s0, start - 3) : start - 1]) & word_set("weighed_at_an_end") and (
        talk.words[start - 1] in ("with", "at")
        and "up" not in talk.words[max(s0, start - 3) : start]
        and vessel_in(talk.words[s0:s1])
    ):
        return True  # "started with 25 pounds in the jug, ended with 21"
    if weighed_again(talk, start) or weighed_at(talk, start, end, s0):
        return True
    return vessel_is_subject(talk, start, end, s0) or still_held(talk, start, end, s0, s1)


def vessel_is_subject(talk: Talk, start: int, end: int, s0: int) -> bool:
    """Tell whether a vessel and nothing but words of a state lead to the amount."""
    j = start
    states = 0
    while j > s0 and talk.words[j - 1] in word_set("vessel_states"):
        if talk.words[j - 1] == "got" and talk.words[j - 2] not in ("'s", "has", "have"):
            return False  # "the first bottle got eleven pounds"
        states += talk.words[j - 1] not in (",", ":")
        j -= 1
    if j == s0 or talk.words[j - 1] not in word_set("weighed_vessels"):
        return False
    if talk.words[j : j + 2] in phrases("that_holds"):
        return True  # "into a drum that had eleven pounds in it"
    k = j - 1
    while k > s0 and talk.words[k - 1] in word_set("names_a_vessel"):
        k -= 1
    if k > s0 and talk.words[k - 1] in ("weighed", "weigh", "weighing", "reweighed"):
        return True  # "weighed the recovery jug first, sixteen pounds"
    if k > s0 and talk.words[k - 1] not in word_set("before_subject"):
        return False  # "into the yellow bottle, four pounds"
    # "Recovery drum, 21 pounds" may head what was recovered into it.
    if states or (talk.words[start - 1] in word_set("weighed_vessels") and pair_follows(talk, start)):
        return True
    rest = talk.words[end : end + 3]
    timed = rest[1:] if rest[:1] == ("at",) else rest
    return bool(set(timed[:2]) & word_set("when_weighed"))  # "jug sixteen pounds at the start"


def weighed_again(talk: Talk, start: int) -> bool:
    """Tell whether "weighed it again" leads to the amount, behind the weight of a vessel."""
    row = [w for w in talk.words[max(0, start - 6) : start] if w not in (",", "now", "at")]
    last = talk.masses[-1] if talk.masses else None
    return row[-3:] in (
        ["weighed", "it", "again"],
        ["weighed", "it", "after"],
        ["weighed", "it", "afterwards"],
    ) and (last is not None and last.kind in ("vessel", "weight"))


def weighed_at(talk: Talk, start: int, end: int, s0: int) -> bool:
    """Tell whether a scale showed the amount before or after: "scale said 24 pounds on the bottle before"."""
    rest = talk.words[end : end + 5]
    k = next((n for n, w in enumerate(rest) if w in word_set("when_weighed")), None)
    if k is None or any(w in (",", ".", "and", "then") for w in rest[:k]):
        return False
    if k and rest[0] in ("on", "in") and vessel_in(rest[:k]):
        return True
    lead = talk.words[max(s0, start - 3) : start]
    return k == 0 and lead[-2:-1] in (("scale",), ("scales",)) and rest[0] in ("before", "after")


def pair_follows(talk: Talk, start: int) -> bool:
    """Tell whether "to" and another amount stand right behind ("recovery drum 21 pounds 6 to 25")."""
    return any(
        talk.words[k] == "to" and talk.number_at(k + 1)
        for k in range(start + 1, min(len(talk.words), start + 6))
    )


def still_held(talk: Talk, start: int, end: int, s0: int, s1: int) -> bool:
    """Tell whether the amount is what is left in a vessel: "about a pound left in the jug"."""
    rest = talk.words[end : min(s1, end + 8)]
    place = next((n for n, w in enumerate(rest) if w in ("in", "inside", "of", "on")), None)
    if place is None or place > 4 or any(w in (",", ".", "and", "then", "into") for w in rest[:place]):
        return False
    tail = rest[place + 1 : place + 5]
    stop = next((n for n, w in enumerate(tail) if w in (",", ".", "and", "so")), len(tail))
    receiver = bool(set(tail[:stop]) & word_set("holds_gas"))
    if not vessel_in(tail[:stop]) and not receiver:
        return False
    lead = talk.words[max(s0, start - 6) : start]
    if any(w in word_set("still_there") for w in (*rest[:place], *lead[-3:])):
        return True
    return any(lead[i : i + len(p)] == p for p in phrases("holds_still") for i in range(len(lead)))


def goes_on_weighing(talk: Talk, last: Mass | None, start: int, end: int, value: float) -> bool:
    """Tell whether an amount is the second weight of the vessel that was weighed right before.

    "... 38 pounds 2 when I started charging and 33 pounds 14 when I finished", "from 30.2 to 26.9",
    "24.3 before, 26.4 after".
    """
    if last is None or last.kind not in ("weight", "vessel") or start - last.end > _BETWEEN:
        return False
    if not last.value / _UNLIKE <= value <= last.value * _UNLIKE or value == last.value:
        return False
    between = talk.words[last.end : start]
    if sum(w in (".", ";", "?") for w in between) > 1:
        return False
    if between[-1:] == ("to",) and len(between) <= 3:
        return True
    k = len(between)
    while k and between[k - 1] in word_set("vessel_states"):
        k -= 1
    lead = [w for w in between[k:] if w not in (",", "and", "then", "just", "about")]
    head = between[:k]
    while head and head[-1] in (",", ".", "and", "then", "but"):
        head = head[:-1]
    if head and head[0] in (",",):
        head = head[1:]
    timed = bool(head) and head[0] in word_set("when_weighed")
    if head and not timed:
        return False
    rest = talk.words[end : end + 2]
    late = bool(rest) and rest[0] in word_set("when_weighed")
    return bool(set(lead) & word_set("when_weighed")) or late or (timed and bool(lead))
