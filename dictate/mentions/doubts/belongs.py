"""May the words of a value belong to something else than it was taken for."""

from __future__ import annotations

from dictate.mentions.doubts.talk import Case
from dictate.mentions.word_lists import word_list

_ELECTRIC = frozenset(("resistance", "voltage", "current", "capacitance"))
_WARM, _COLD = 20.0, -20.0
_NEAR, _CAPACITOR_TALK = 12, 60


def below_where(c: Case) -> str | None:
    """Doubt a cold that only "below" tells beside a warm place: "40 on the rail and 37 below"."""
    r, p = c.reading, c.previous
    if c.value is None or not c.value.below or r.quantity != "temperature" or p is None:
        return None
    if p.reading.quantity != "temperature" or p.reading.value is None or c.start - p.end > _NEAR:
        return None
    if p.reading.value < _WARM or (r.value or 0.0) > _COLD or not c.bare:
        return None
    return "'below' may tell where it was read, and not that it was below zero"


def on_a_pipe(c: Case) -> str | None:
    """Doubt a bare electric value that was read on a pipe: "sixty-one on the center tube"."""
    if c.reading.quantity not in _ELECTRIC or not c.bare:
        return None
    behind = c.after(5)
    if behind[:1] not in (["on"], ["at"]):
        return None
    for word in behind[1:]:
        if word in word_list("belongs_pipes"):
            return f"on a {word} one reads a temperature; no unit was said"
        if word in {",", "and", "."} or word in word_list("belongs_terminals"):
            return None
    return None


def of_the_old_one(c: Case) -> str | None:
    """Doubt what the old part "was" behind what the new one is made for: it is a marking as well."""
    p = c.previous
    if p is None or p.reading.role != "rated" or p.reading.quantity != c.reading.quantity or not c.bare:
        return None
    led = c.before(4)
    if c.start - p.end > _NEAR or led[-1:] not in (["was"], ["is"], ["had"]):
        return None
    return "it may be what the old one is marked with" if {"old", "other", "existing"} & set(led) else None


def of_a_capacitor(c: Case) -> str | None:
    """Doubt bare ohms of a new part where a capacitor was under talk: "new 45 5 went in, 45.3 and 5.1"."""
    r = c.reading
    if r.quantity != "resistance" or not c.bare or not r.value or r.value > 200:
        return None
    words = c.talk.words
    here = set(words[c.low : c.start])
    if "new" not in here or here & word_list("belongs_ohms"):
        return None
    before = words[max(0, c.start - _CAPACITOR_TALK) : c.start]
    if word_list("belongs_capacitors").isdisjoint(before):
        return None
    return "a capacitor is under talk: it may be microfarads"


def one_put_right(c: Case) -> str | None:
    """Doubt what was said of both where one is put right: "both draw 0.4, actually the left one's 0.42"."""
    f = c.following
    while f is not None and f.start == c.start:
        f = f.following
    both = (c.previous is not None and c.previous.start == c.start) or (
        c.following is not None and c.following.start == c.start
    )
    if not both or f is None or f.reading.quantity != c.reading.quantity or f.start - c.end > _NEAR:
        return None
    gap = [w for w in c.talk.words[c.end : f.start] if w not in {",", "-", ".", "amps", "each"}]
    if word_list("belongs_right").isdisjoint(gap[:1]) or word_list("belongs_sides").isdisjoint(gap):
        return None
    return "one of them was put right behind it"


def unlike_pair(c: Case) -> str | None:
    """Doubt two bare amps of one thing said together and far apart: "now two runs at 3.0 and 15.2"."""
    r = c.reading
    if not c.bare or r.quantity != "current" or not r.value:
        return None
    for other in (c.previous, c.following):
        if other is None or other.low != c.low or not other.bare or not other.reading.value:
            continue
        first, second = sorted((c, other), key=lambda x: x.start)
        if c.talk.words[first.end : second.start] != ["and"] or other.reading.component != r.component:
            continue
        if other.reading.quantity == "current" and not 1 / 3 < other.reading.value / r.value < 3:
            return "two bare values said together lie far apart: they may be pressures or something else"
    return None
