"""Warmth and humidity of a room told as a pair: "the chamber is | 74 | with 31 percent humidity".

A percent behind such a pair is of its second number alone. Which of the two is the warmth is proved where its
unit was said as well, or where "with" joins them; a pair without units, or with a percent only, is told in
the order of one that is proved ("It climbed to | 91 | and 78 percent", "the card wants | 92 | and | 80").
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.values import Value, find_values
from dictate.mentions.word_lists import word_list

WARMTH, HUMIDITY = "temperature", "concentration"
_FAR = 5
"""Tokens between the two numbers of a pair at most."""
_LEAD = 8
"""Tokens in front of a pair among which words make a range of it, or a wish."""
_KINDS = {"percent": HUMIDITY, "degree": WARMTH, "celsius": WARMTH, "fahrenheit": WARMTH}
_ALIKE = (0.8, 1.25)
"""How many times one percentage another of the same visit may be, to be of a second place or time."""
_DEGREES = frozenset(("degree", "celsius", "fahrenheit"))
_MOST = 130
"""What neither the degrees of a room nor its humidity exceed."""
_BREAKS = frozenset((".", ";", "?", "!"))


def climate_kinds(narration: Narration) -> dict[int, tuple[str, bool]]:
    """Return what the bare numbers of such pairs are, and whether that is proved, by their first token."""
    done: dict[int, tuple[str, bool]] | None = narration.found.get("climates")
    if done is not None:
        return done
    out: dict[int, tuple[str, bool]] = {}
    if not word_list("humidity_talk").isdisjoint(narration.lowers):
        values = [v for v in find_values(narration) if v.state == "value"]
        pairs = [(a, b) for a, b in pairwise(values) if _paired(narration.lowers, a, b)]
        proofs = {order for a, b in pairs if (order := _proved(narration.lowers, a, b)) is not None}
        known: dict[str, list[float]] = {WARMTH: [], HUMIDITY: []}
        looked = False  # at a pair with one unit whose numbers are not of two places
        for a, b in pairs:
            own = _proved(narration.lowers, a, b)
            order = own or (next(iter(proofs)) if len(proofs) == 1 else (WARMTH, HUMIDITY))
            if own is None and not _may_be(narration.lowers, order, a, b):
                continue
            sure = own is not None or len(proofs) == 1
            unlike = _unit(a) is None and _unit(b) == "percent" and not _alike(a, b)
            again = looked and (_unit(b) is None or _nearer(known, order, a, b))
            if not sure and not unlike and not again:
                continue  # "60 and 63 percent": of two places
            looked = looked or unlike
            if not sure and _wanted_behind(narration.lowers, b.end):
                continue  # "30 and 80 percent is what they want"
            if (
                sure
                and own is None
                and _unit(a) != _unit(b)
                and _alike(a, b)
                and not _nearer(known, order, a, b)
            ):
                continue  # "the far end read 88 and 91 percent on two meters"
            narration.found.setdefault("climate pairs", []).append((a.start, b.start))
            for v, kind in zip((a, b), order, strict=True):
                known[kind].append(v.value)
                if _unit(v) is None:
                    v.quantity, v.clock = None, False
                    out[v.start] = (kind, sure)
    narration.found["climates"] = out
    return out


def _paired(words: Sequence[str], a: Value, b: Value) -> bool:
    """Tell whether little but joining words stands between two numbers that may be warmth and humidity."""
    between = words[a.end : b.start]
    if len(between) > _FAR or not between or not word_list("climates_between").issuperset(between):
        return False
    if (
        any(
            _unit(v) not in {None, "percent", *_DEGREES} or (v.clock and _unit(b) != "percent")
            for v in (a, b)
        )
        or a.range
        or b.range
    ):
        return False
    if not 0 < max(a.value, b.value) <= _MOST:
        return False
    lead = words[max(0, a.start - _LEAD) : a.start]
    lead = lead[max((i for i, w in enumerate(lead) if w in _BREAKS), default=-1) + 1 :]
    return word_list("climates_ranges").isdisjoint(lead[-3:]) and {"to", "or"}.isdisjoint(between)


def _wanted_behind(words: Sequence[str], end: int) -> bool:
    """Tell whether the clause goes on behind a pair with who wants it so."""
    behind = words[end : end + _LEAD]
    cut = next((k for k, w in enumerate(behind) if w in _BREAKS | {","}), len(behind))
    return not word_list("climates_wanted").isdisjoint(behind[:cut])


def _alike(a: Value, b: Value) -> bool:
    return bool(b.value) and _ALIKE[0] <= a.value / b.value <= _ALIKE[1]


def _nearer(known: dict[str, list[float]], order: tuple[str, str], a: Value, b: Value) -> bool:
    """Tell whether the number without its unit is nearer to what was told of its own kind."""
    v, kind = (a, order[0]) if _unit(a) is None else (b, order[1])
    other = HUMIDITY if kind == WARMTH else WARMTH
    own_gap, other_gap = (min((abs(v.value - x) for x in known[k]), default=0.0) for k in (kind, other))
    return own_gap <= other_gap


def _unit(v: Value) -> str | None:
    """Return the unit that was said right behind a number, and not only behind the other of its pair."""
    return v.quantity.word if v.quantity is not None and not v.quantity.shared else None


def _proved(words: Sequence[str], a: Value, b: Value) -> tuple[str, str] | None:
    """Return the order of a pair of which the words themselves tell it."""
    between = words[a.end : b.start]
    if _unit(a) in _DEGREES and _unit(b) == "percent":
        return WARMTH, HUMIDITY
    if _unit(a) == "percent" and _unit(b) in _DEGREES:
        return HUMIDITY, WARMTH
    if _unit(a) is None and _unit(b) == "percent" and "with" in between:
        return WARMTH, HUMIDITY
    lead = set(words[max(0, a.start - 3) : a.start])
    if _unit(a) is None and _unit(b) is None:
        if not word_list("humidity_names").isdisjoint(lead) and not word_list("climates_rooms").isdisjoint(
            between
        ):
            return HUMIDITY, WARMTH
        if not word_list("climates_rooms").isdisjoint(lead) and not word_list("humidity_names").isdisjoint(
            between
        ):
            return WARMTH, HUMIDITY
    return None


def _may_be(words: Sequence[str], order: tuple[str, str], a: Value, b: Value) -> bool:
    """Tell whether a pair that does not prove its order is of a climate: its unit or a wish says so."""
    told = [_KINDS.get(_unit(v) or "") for v in (a, b)]
    if any(told):
        return all(kind is None or kind == own for kind, own in zip(told, order, strict=True))
    lead = words[max(0, a.start - _LEAD) : a.start]
    lead = lead[max((i for i, w in enumerate(lead) if w in _BREAKS), default=-1) + 1 :]
    return not word_list("climates_wished").isdisjoint(lead[-4:]) and words[b.end : b.end + 1] not in (
        ["bar"],
    )


__all__ = ["HUMIDITY", "WARMTH", "climate_kinds"]
