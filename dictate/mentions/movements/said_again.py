"""Amounts that only say again what an earlier one said, alone or as a total or its parts."""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass, how_far_apart, same_weight
from dictate.mentions.movements.talk import Talk
from dictate.record.visit import Amount
from dictate.units import convert
from dictate.vocabulary.load import word_set

_ROUNDED = 0.011
"""Pounds and ounces are this near to the same amount in tenths of a pound."""


def says_again(talk: Talk, a: Mass, out: list[Mass]) -> bool:
    """Tell whether an amount only says again what an earlier one said.

    A different unit is kept with it.
    """
    s0, _ = talk.scopes.sentence(a.start)
    before = talk.words[max(s0, a.start - 8) : a.start]
    if a.status != "done":
        return True
    for m in out:
        if m.kind == a.kind and _rounded_beside(talk, m, a):
            return True
        if (
            m.kind == a.kind
            and same_weight(m, a)
            and not any(w in (*before, talk.words[a.start]) for w in (*word_set("one_portion_more"), "again"))
            and not one_of_a_row(talk, a)
            and not into_another_machine(talk, m, a)
        ):
            if m.unit != a.unit:
                m.also.append(Amount(value=a.value, unit=a.unit))
            return True
    # a total of what was said before
    total = [m for m in out if m.kind == a.kind]
    if len(total) > 1 and any(
        w in (*before, *talk.words[a.end : a.end + 3]) for w in ("total", "all", "altogether", "together")
    ):
        grams = sum(convert(m.value, m.unit, "g") for m in total)
        if abs(grams - convert(a.value, a.unit, "g")) <= 0.03 * grams:
            return True
    return False


def _rounded_beside(talk: Talk, m: Mass, a: Mass) -> bool:
    """Tell whether an amount right behind another is it in tenths or in ounces: "8.7 lb out, 8 lb 11 oz"."""
    between = talk.words[m.end : a.start]
    if len(between) > 3 or (bool(m.q.parts) == bool(a.q.parts) and m.unit == a.unit):
        return False
    return set(between) <= word_set("between_said_again") and how_far_apart(m, a) <= _ROUNDED


def one_of_a_row(talk: Talk, a: Mass) -> bool:
    """Tell whether the amount is one more of a row ("four ounces, then four ounces")."""
    return any(w in ("then", "last") for w in talk.words[max(0, a.start - 2) : a.start])


def into_another_machine(talk: Talk, m: Mass, a: Mass) -> bool:
    """Tell whether the same amount went into another machine ("Unit two, charged two pounds")."""
    return (
        bool(places_named(talk, a))
        and bool(places_named(talk, m))
        and not places_named(talk, a) & places_named(talk, m)
    )


def places_named(talk: Talk, a: Mass) -> set[tuple[str, ...]]:
    """Return the numbered or sided machines named in the amount's sentence before it, or just behind."""
    s0, s1 = talk.scopes.sentence(a.start)
    inside = [b.end for b in talk.masses if s0 < b.end <= a.start]
    first, last = max([s0, *inside]), min(s1, a.end + 5)
    row = talk.words[first:last]
    found: set[tuple[str, ...]] = set()
    for i, word in enumerate(row):
        if word in word_set("numbered_places") and i + 1 < len(row) and row[i + 1] not in (",", "."):
            found.add((word, row[i + 1]))
        elif word in ("left", "right", "first", "second", "third", "other", "upper", "lower"):
            found.add((word,))
    return found


def without_parts(talk: Talk, out: list[Mass]) -> list[Mass]:
    """Leave out the parts of a total said before them ("three pounds total, two liquid, one vapor")."""
    dropped: list[Mass] = []
    for i, m in enumerate(out):
        behind = talk.words[m.end : m.end + 2]
        before = talk.words[max(0, m.start - 3) : m.start]
        if not any(w in ("total", "altogether", "all") for w in (*behind, *before)):
            continue
        parts = [
            a
            for a in out[i + 1 :]
            if a.kind == m.kind and talk.w.sentence_of[a.start] - talk.w.sentence_of[m.start] <= 1
        ]
        grams = sum(convert(a.value, a.unit, "g") for a in parts)
        if len(parts) > 1 and abs(grams - convert(m.value, m.unit, "g")) <= 0.03 * grams:
            dropped += parts
    return [a for a in out if all(a is not d for d in dropped)]
