"""What stands around an amount: a gas, a vessel, a pump, a phrase at its edge."""

from __future__ import annotations

from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases_by_first
from dictate.mentions.patterns import Hit
from dictate.mentions.quantities import Quantity
from dictate.vocabulary.load import word_set


def phrase_length(rest: tuple[str, ...], name: str) -> int:
    """Return how many words of a list's phrase stand at the head of `rest`."""
    longest = 0
    for phrase in phrases_by_first(name).get(rest[0], ()) if rest else ():
        if len(phrase) > longest and rest[: len(phrase)] == phrase:
            longest = len(phrase)
    return longest


def gas_named(talk: Talk, first: int, last: int, clause: tuple[str, ...]) -> bool:
    """Tell whether the clause names a refrigerant."""
    if first >= min(last, len(talk.w.tokens)):
        return False
    low, high = talk.w.tokens[first], talk.w.tokens[last - 1] + 1
    return any(low <= n.start < high for n in talk.names) or any(w in word_set("gas_words") for w in clause)


def vessel_in(clause: tuple[str, ...]) -> bool:
    """Tell whether the words name a cylinder or another vessel that is weighed."""
    return any(w in word_set("weighed_vessels") for w in clause)


def of_pump_or_water(talk: Talk, s0: int, s1: int) -> bool:
    """Tell whether the sentence is of a pump or of water.

    ("twenty-six pounds in, fifty out").
    """
    return any(w in word_set("pumped_words") for w in talk.words[s0:s1])


def inlet_told(talk: Talk, k: int) -> bool:
    """Tell whether the sentence is of a pump or of water and names no gas."""
    s0, s1 = talk.scopes.sentence(k)
    return of_pump_or_water(talk, s0, s1) and not gas_named(talk, s0, s1, talk.words[s0:s1])


def through_pump(talk: Talk, k: int) -> bool:
    """Tell whether "in" is a pump's or a water's inlet: "twenty-six pounds in, fifty-one out"."""
    s0, s1 = talk.scopes.sentence(k)
    behind = talk.words[k + 1 : min(s1, k + 8)]
    return talk.words[k - 1] in ("pounds", "lb", "lbs", "pound") and (
        of_pump_or_water(talk, s0, s1) or ("out" in behind and talk.number_at(k + 1) and behind[:1] != (".",)
        and not any(w in ("pounds", "ounces", "lb", "oz") for w in behind))
    )  # fmt: skip


def of_another(talk: Talk, hit: Hit, q: Quantity | None) -> bool:
    """Tell whether "oil" or "high side" says nothing of this amount.

    "Two pounds of oil and two pounds of gas"; "three pounds into the high side and eight ounces more".
    """
    before = talk.words[max(0, hit.start - 2) : hit.start]
    if before[-1:] == ("of",) and hit.start - 1 in talk.weight_ends:
        return True
    sure = q is not None and (bool(q.parts) or not any(u == "psi" for u, _ in q.means))
    return (
        sure
        and talk.words[hit.start] in ("high", "low", "suction", "discharge", "head")
        and before[-1:] in (("the",), ("side",))
        and before[:1] in (("into",), ("in",), ("through",), ("on",), ("at",), ("to",), ("from",))
    )


def other_visit(talk: Talk, start: int) -> bool:
    """Tell whether the sentence tells of a former visit ("last time I added two pounds").

    Where both visits are named, the one named last before the amount counts, then the one right behind it.
    """
    s0, s1 = talk.scopes.sentence(start)
    row = talk.words[s0:s1]
    marks = [
        (i, False) for i, w in enumerate(row) if w in ("today", "now") or row[i : i + 2] == ("this", "time")
    ]
    marks += [
        (i, True)
        for i, w in enumerate(row)
        if any(row[i : i + len(p)] == p for p in phrases_by_first("other_visit").get(w, ()))
    ]
    marks.sort()
    before = [old for i, old in marks if i < start - s0]
    if before and len({old for _, old in marks}) == 2:
        return before[-1]
    if not before and marks:
        return marks[0][1]
    return bool(marks) and all(old for _, old in marks)
