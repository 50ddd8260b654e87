"""Pressures on both sides of a filter or strainer: "58 psi in front of the filter and 21 behind it".

    across_filters(found, words, components)

The words of the side name the thing, or stand alone behind one that its sentence, or the value before, named.
Such a pressure is of the water or oil that runs through, whatever was spoken of before.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import ComponentAt
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_THINGS = frozenset(("water filter", "strainer", "oil filter", "filter drier"))
_SIDES = (
    ("in", "front", "of"), ("in", "front"), ("ahead", "of"), ("ahead",), ("upstream", "of"), ("upstream",),
    ("before",), ("behind",), ("downstream", "of"), ("downstream",), ("after",), ("past",),
    ("on", "the", "inlet", "of"), ("on", "the", "outlet", "of"), ("out", "of"), ("into",),
)  # fmt: skip
_BEGIN_SIDES = frozenset(side[0] for side in _SIDES)
_ALONE = frozenset((("in", "front"), ("ahead",), ("upstream",), ("behind",), ("downstream",)))
_IT = frozenset(("it", "that", "them"))
_NOUNS = frozenset(("filter", "filters", "cartridge", "cartridges", "housing", "element"))
_OF_WATER = frozenset(("water", "ice", "flush", "cartridge", "harvest"))
_WORK = frozenset(("change", "swap", "cleaning", "clean", "replacement", "was", "went", "got", "is"))
_REACH = 25  # words from the thing to a side told alone


def across_filters(found: Found, words: Sequence[str], components: Sequence[ComponentAt]) -> None:
    """Set the component of pressures read on a side of a filter or strainer, in place."""
    if not word_list("across_filter_words") & set(words):
        return
    ordered = sorted(found.readings, key=lambda t: t.start)
    previous: tuple[Taken, str] | None = None
    for before, t in pairwise([None, *ordered]):
        assert t is not None
        if previous is not None and previous[0] is not before:
            previous = None
        thing = _thing(t, before, previous, words, components)
        if thing is None:
            continue
        if thing == "filter drier":  # where the temperature drops that tells of a plugged one
            if t.reading.quantity != "temperature":
                continue
        elif t.reading.quantity != "pressure" and not _like(t, previous, words):
            continue
        t.reading.component, t.reading.which = thing, None
        if thing == "filter drier":
            t.reading.point = (
                "liquid" if t.reading.point in {"ambient", "outlet", "inlet"} else t.reading.point
            )
        elif t.reading.point in {"suction", "discharge", "ambient", "liquid"}:
            t.reading.point = None
        previous = (t, thing)


def _like(t: Taken, previous: tuple[Taken, str] | None, words: Sequence[str]) -> bool:
    """Take a bare number behind a pressure of the other side for a pressure, and tell whether it is one."""
    if previous is None or t.said_unit or t.reading.state != "value" or t.start - previous[0].end > 12:
        return False
    if {".", ";"} & set(words[previous[0].end : t.start]):
        return False
    one, r = previous[0].reading, t.reading
    if r.role != "measured" or r.value is None or one.value is None or one.value < r.value / 3:
        return False
    r.quantity, r.unit, r.ucum, r.reference = one.quantity, one.unit, one.ucum, one.reference
    r.point, r.derived, r.unit_assumed = None, False, True
    r.review = [x for x in r.review if not x.startswith(("no unit was said", "°F was", "°C was"))]
    return True


def _thing(
    t: Taken,
    before: Taken | None,
    previous: tuple[Taken, str] | None,
    words: Sequence[str],
    components: Sequence[ComponentAt],
) -> str | None:
    """Return the filter or strainer that a value is said to be on a side of."""
    k = t.end
    for side in _SIDES if words[k : k + 1] and words[k] in _BEGIN_SIDES else ():
        if tuple(words[k : k + len(side)]) == side:
            return _behind(k + len(side), side, t, previous, words, components)
    begin = max(before.end if before is not None else 0, t.start - 10)
    for i in range(t.start - 1, begin - 1, -1):
        if words[i] in {".", ";"}:
            break
        if words[i] not in _BEGIN_SIDES:
            continue
        for side in _SIDES:
            if side in _ALONE or tuple(words[i : i + len(side)]) != side:
                continue
            at = i + len(side)
            if at < t.start and words[at] in _IT | {"the", "that", "my"}:
                return _behind(at, side, t, previous, words, components)
    return None


def _behind(
    k: int,
    side: tuple[str, ...],
    t: Taken,
    previous: tuple[Taken, str] | None,
    words: Sequence[str],
    components: Sequence[ComponentAt],
) -> str | None:
    """Return what stands behind the words of a side at word k, or what they look back to."""
    if words[k : k + 1] and words[k] in _IT:
        return _known(t, previous, words, components)
    j = k + (words[k : k + 1] in (["the"], ["that"], ["my"]))
    for c in components:
        if j <= c.start <= j + 1 and c.name in _THINGS:
            return None if set(words[c.end : c.end + 1]) & _WORK else c.name
    n = j + (words[j : j + 1] in (["water"], ["new"], ["inlet"], ["first"], ["second"]))
    while words[n : n + 1] and words[n] in _NOUNS:
        n += 1
    if n > j and words[n - 1] in _NOUNS:
        return None if set(words[n : n + 1]) & _WORK else _plain(words, t)
    alone = side in _ALONE and (words[k : k + 1] in ([], [","], ["."], [";"], ["and"], ["so"], ["now"]))
    return _known(t, previous, words, components) if alone else None


def _plain(words: Sequence[str], t: Taken) -> str | None:
    """Return the water filter for a plain "filter" or "cartridge" where water is talked of."""
    near = set(words[max(0, t.start - 60) : t.end + 12])
    return "water filter" if near & _OF_WATER else None


def _known(
    t: Taken, previous: tuple[Taken, str] | None, words: Sequence[str], components: Sequence[ComponentAt]
) -> str | None:
    """Return the thing that "it" or a side alone looks back to."""
    if previous is not None:
        return previous[1]
    begin = max(0, t.start - _REACH)
    for k in range(t.start - 1, begin, -1):
        if words[k] in {".", ";"}:
            begin = k
            break
    named = [c.name for c in components if begin <= c.start < t.start and c.name in _THINGS]
    if named:
        return named[-1]
    return _plain(words, t) if _NOUNS & set(words[begin : t.start]) else None


__all__ = ["across_filters"]
