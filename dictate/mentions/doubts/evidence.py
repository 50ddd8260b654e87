"""How well the words around a value bear it out: the nearest label, and values of its kind before it."""

from __future__ import annotations

from dictate.mentions.doubts.talk import CUTS, Case
from dictate.mentions.temperatures.words_behind import leaving_behind, place_behind, side_behind
from dictate.mentions.test_stretches import find_stretches, stretch_at
from dictate.mentions.whose.taken import DIFFERENCES
from dictate.mentions.word_lists import phrase_at, word_list


def goes_on(c: Case, low: float = 0.7, high: float = 1.4) -> bool:
    """Tell whether the value is close to one of the same kind said a little before it."""
    r = c.reading
    p = c.previous
    while p is not None and c.start - p.end <= 45:
        if (
            p.reading.quantity == r.quantity
            and p.reading.unit == r.unit
            and p.reading.role in {"measured", "earlier"}
            and p.reading.value
            and r.value
        ):
            return low <= r.value / p.reading.value <= high
        p = p.previous
    return False


def spent(c: Case, i: int) -> bool:
    """Tell whether a word of a wish, a plate or another time at token i was said of a value in between.

    Its role is then told from the words, and the next value is another one: "supposed to be 28, it's 29".
    """
    p = c.previous
    while p is not None and p.start > i:
        if p.reading.role not in {"measured", "retracted"} and c.talk.words[p.end : c.start] not in (
            ["to"],
            ["or"],
            ["-"],
            ["and"],
        ):
            return True
        p = p.previous
    return False


def evidence(c: Case) -> tuple[float, float, str]:
    """Return how near the next word for this quantity is, the next for another one, and that word."""
    if c.evidence is None:
        c.evidence = _evidence(c)  # many looks ask for it
    return c.evidence


def _evidence(c: Case) -> tuple[float, float, str]:
    r = c.reading
    talk = c.talk
    own = other = 99.0
    what = ""

    def gap(start: int, end: int) -> float:
        if start >= c.end:
            d = float(start - c.end) * 1.5 + 1
            d += 4.0 * sum(w in CUTS or w in {"and", "then"} for w in talk.words[c.end : start])
            return d
        d = float(c.start - end)
        d += 3.0 * sum(w in CUTS for w in talk.words[end : c.start])
        d += 3.0 * talk.numbers_between(end, c.start)
        return d

    for label in talk.labels_from(c.low, c.high):
        if label.start < c.end and c.start < label.end:
            continue
        kind = label.label.quantity or label.label.default
        if kind is None or kind == "duration" != r.quantity:
            continue
        d = gap(label.start, label.end)
        if label.start >= c.end and (d > 5 or talk.number_at.get(label.end) is not None):
            continue
        if label.label.fits(r.quantity) and (kind == r.quantity or r.quantity in label.label.only):
            own = min(own, d - 6 if label.label.quantity == r.quantity else d)
        elif d < other:
            other, what = d, talk.n.heard(label.start, label.end)
    for comp in talk.components_from(c.low, c.high):
        if r.quantity in comp.component.measures:
            d = gap(comp.start, comp.end)
            own = min(own, d + (0 if comp.component.bare == r.quantity else 2))
    if r.quantity == "current":
        # "legs: 21, 21 and a half", "14, 14.3 and 14.1 on the legs"
        for i in range(max(c.low, c.start - 14), min(c.high, c.end + 12)):
            if talk.words[i] in {"legs", "phases"}:
                own = min(own, 2.0)
    for p in talk.points_from(c.low, c.high):
        if r.quantity in p.only:
            own = min(own, gap(p.start, p.end))
    if of_test(c):
        own = min(own, 1.0)
    return own, other, what


def told_by_words(c: Case) -> bool:
    """Tell whether the words behind a number make it a temperature: "up here", "coming off", "above"."""
    words = c.talk.words
    if place_behind(words, c.end) is not None or leaving_behind(words, c.end):
        return True
    if words[c.end : c.end + 1] == ["above"]:
        return True
    side = side_behind(words, c.end)
    twins = (c.previous, c.following)
    return side is not None and any(
        t is not None
        and t.reading.quantity == "temperature"
        and side_behind(words, t.end) not in {None, side}
        for t in twins
    )


def told_by_frame(c: Case) -> bool:
    """Tell whether the words behind a number of the size of a supply make it volts: "on it", "before"."""
    words, at = c.talk.words, c.end
    return any(
        phrase_at(name, words, at) for name in ("live_on_it", "live_moments", "live_into", "live_out_of")
    )


def told_difference(c: Case) -> bool:
    """Tell whether a bare difference is the one of the two levels before it, or its noun stands behind it."""
    words = c.talk.words
    at = c.end + (words[c.end : c.end + 1] == ["of"])
    if word_list("readings_spreads") & set(words[at : at + 1]):
        return True
    if {"makes", "making", "made"} & set(c.before(4)):
        return True
    levels: list[float] = []
    p = c.previous
    while p is not None and len(levels) < 3 and c.start - p.end <= 45:
        if p.reading.quantity == "temperature" and p.reading.value is not None:
            levels.append(p.reading.value)
        p = p.previous
    value = c.reading.value or 0.0
    return any(abs(abs(x - levels[0]) - value) < 0.11 for x in levels[1:])


def of_test(c: Case) -> bool:
    """Tell whether the value is of the quantity of the test that is under way around it."""
    stretch = stretch_at(find_stretches(c.talk.n), c.start)
    if stretch is None:
        return False
    kind, point = c.reading.quantity, c.reading.point
    if kind == "vacuum" or (kind == "pressure" and c.bare):
        return stretch.kind == ("vacuum" if kind == "vacuum" else "pressure_test") and point is None
    return (kind == "duration" and point in {None, "hold"}) or (kind == "temperature" and point == "ambient")


def by_itself(c: Case) -> bool:
    """Tell whether the number speaks for its quantity: two mains voltages in a row, a vacuum by the pump."""
    r = c.reading
    if r.value is None:
        return False
    if r.quantity == "vacuum":
        near = set(c.talk.words[max(0, c.start - 30) : c.start])
        return r.value >= 100 and bool(near & {"pump", "vacuum", "micron", "microns", "valved", "evacuated"})
    if r.quantity == "voltage" and 105 <= r.value <= 500:
        behind = c.after(6)
        cut = next((i for i, w in enumerate(behind) if w in CUTS or w == "and"), len(behind))
        if {"at", "on", "across"} & set(behind[:cut]) and word_list("readings_voltage_places") & set(
            behind[:cut]
        ):
            return True  # "one eighteen at its plug"
    if r.quantity == "voltage" and (r.value >= 95 or 20 <= r.value <= 30) and told_by_frame(c):
        return True
    if r.quantity == "temperature":
        return told_by_words(c)
    if r.quantity in DIFFERENCES:
        return told_difference(c)
    if r.quantity != "voltage" or not (195 <= r.value <= 260 or 375 <= r.value <= 500):
        return False
    twins = (c.previous, c.following)
    return any(
        t is not None
        and t.reading.quantity == "voltage"
        and t.reading.value
        and abs(t.reading.value - r.value) <= 0.05 * r.value
        for t in twins
    )
