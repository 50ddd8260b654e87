"""Does it fit the values beside it: their units, their sizes, their twins, and doubts about them."""

from __future__ import annotations

from dictate.mentions.doubts.evidence import evidence
from dictate.mentions.doubts.talk import DIFFERENCES, ELECTRIC, LONGEST, STOPS, Case, plain_unit, word_set


def shared_unit(c: Case) -> str | None:
    """Doubt a value that took the unit of a neighbour in a list although the two are far apart."""
    r = c.reading
    if (
        not c.shared
        or r.value is None
        or r.quantity not in {"voltage", "temperature", "pressure", "current", "frequency"}
    ):
        return None
    for x in (c.previous, c.following):
        if (
            x is None
            or x.reading.unit != r.unit
            or not x.reading.value
            or not r.value
            or x.reading.role != "measured"
        ):
            continue
        if max(x.start - c.end, c.start - x.end) <= 2:
            ratio = abs(r.value / x.reading.value)
            if (
                not 0.5 <= ratio <= 2
                and abs(r.value - x.reading.value) > 15
                and not {"to", "from"} & set(c.before(2) + c.after(1))
            ):
                return f"took the unit of {x.reading.value:g} beside it, which is far from it"
    return None


_FAR = 12
"""A motor that starts draws five to eight times what it draws when it runs (common practice)."""


def unlike_itself(c: Case) -> str | None:
    """Doubt bare amps very far from those said of the same part: "0.12 of an amp ... down to 4.1"."""
    r = c.reading
    if r.quantity != "current" or not r.unit_assumed or not r.value or r.component is None:
        return None
    for o in c.talk.amps_said:
        same = (o.component, o.which) == (r.component, r.which)
        if same and o.value and not 1 / _FAR <= r.value / o.value <= _FAR:
            return f"it is far from the {o.value:g} A that were said of the same part"
    return None


_ROW_APART = 8
"""Words at most between two values of a row."""


def row_with_an_open(c: Case) -> str | None:
    """Doubt bare amps in a row of which another one is open: "heater one 18.6, two 18.9, three open"."""
    if c.reading.quantity != "current" or not c.bare or not c.reading.value:
        return None
    x, last = c.following, c.end
    while x is not None and x.start - last <= _ROW_APART and x.low == c.low:
        if x.reading.quantity == "resistance" and x.reading.state == "open":
            told = {"amps", "amp", "amperage", "draws", "drawing", "pulls", "pulling"}
            if told.isdisjoint(c.talk.words[c.low : x.end]):
                return "another one of the row is open: it may be ohms"
            return None
        last, x = x.end, x.following
    return None


_SMALLEST = 1.5
"""Microfarads below those of any run capacitor (EIA-456-A sizes begin at 2)."""
_AMPS_WITHIN = 45
"""Words within which the amps of a motor are still under talk where its capacitor is named."""


def drawn_with_it(c: Case) -> str | None:
    """Doubt bare microfarads that may be what the motor draws: "2.1 amps ... new capacitor, 1.2 now"."""
    r, p = c.reading, c.previous
    if r.quantity != "capacitance" or not c.bare or not r.value:
        return None
    near: list[float] = []
    while p is not None and c.start - p.end <= _AMPS_WITHIN:
        if p.reading.quantity == "capacitance":
            return None
        if p.reading.quantity == "current" and p.reading.value:
            near.append(p.reading.value)
        p = p.previous
    small = r.value < _SMALLEST
    # The number of a part follows its name at once; what it changed is told as of now.
    if near and (small or (c.after(1) == ["now"] and r.value <= max(near))):
        return "amps were said before it: it may be what the motor draws with the new one"
    return f"no run capacitor is as small as {r.value:g} uF" if small else None


def same_number(c: Case) -> str | None:
    """Doubt a bare number that was said with another unit before ("21.5 degrees first, 21.5 last")."""
    r = c.reading
    if not c.bare or r.value is None or c.number is None:
        return None
    number = c.number.value
    for q in c.talk.said_from(c.start - LONGEST, c.start):
        if q.end > c.start or c.start - q.end > 25 or q.kind != "reading" or not q.means:
            continue
        close = abs(q.value - number) <= max(0.02 * abs(number), 1e-9) or (
            c.talk.n.sentences and r.quantity == "mass" and abs(q.value - number) <= 0.1 * abs(number)
        )
        if q.means[0][0] in {"s", "min", "h"} or (r.quantity != "mass" and evidence(c)[0] <= 2):
            continue
        if (
            close
            and r.unit not in {u for u, _ in q.means}
            and not (r.unit.startswith("delta_") and r.unit[6:] in {u for u, _ in q.means})
        ):
            if number in {0, 1} or (
                r.quantity in ELECTRIC and q.word in {"volt", "amp", "ohm"} and number < 10
            ):
                continue
            return (
                f"the same number was said with another unit just before ({c.talk.n.heard(q.start, q.end)})"
            )
    return None


def far_off(c: Case) -> str | None:
    """Doubt a carried unit where the value is far from the one it goes on from."""
    r, p = c.reading, c.previous
    if (
        not c.bare
        or p is None
        or p.reading.review
        or r.value is None
        or p.reading.value is None
        or p.reading.quantity != r.quantity
    ):
        return None
    if (
        c.talk.sentence_of[p.start] != c.talk.sentence_of[c.start]
        or p.reading.unit != r.unit
        or p.reading.role != "measured"
    ):
        return None
    own, _, _ = evidence(c)
    if own <= 4 or r.quantity not in {"pressure", "current", "voltage"}:
        return None
    a, b = abs(p.reading.value), abs(r.value)
    if (
        min(a, b) > 0
        and max(a, b) / min(a, b) > 2
        and r.point == p.reading.point
        and r.component == p.reading.component
    ) and not {"from", "to", "dropped", "went", "then", "down", "up", "rose"} & set(
        c.talk.words[p.end : c.start]
    ):
        said = f"{p.reading.value:g} {plain_unit(p.reading.unit)}"
        return f"no unit was said and it is far from the {said} before it"
    return None


def parallel(c: Case) -> str | None:
    """Doubt a value whose twin has another quantity: "96 before and 89 after", "left 7.2, right 7.6 amps"."""
    r, p, nxt = c.reading, c.previous, c.following
    if not c.bare:
        return None
    words = c.talk.words
    if (
        p is not None
        and c.start - p.end <= 6
        and words[p.end : p.end + 1] == ["before"]
        and c.after(1) == ["after"]
        and p.reading.quantity != r.quantity
    ):
        return "stands beside a value of another kind, one before and one after"
    if (
        nxt is not None
        and not nxt.bare
        and nxt.reading.state == "value"
        and nxt.start - c.end <= 4
        and nxt.reading.quantity != r.quantity
        and not STOPS & set(words[c.end : nxt.start])
    ):
        pairs = (
            {"left", "right"},
            {"first", "second"},
            {"front", "rear"},
            {"top", "bottom"},
            {"upper", "lower"},
            {"inlet", "outlet"},
            {"in", "out"},
            {"one", "two"},
        )
        here, there = set(c.before(2)), set(words[c.end : nxt.start])
        if any(here & s and there & s and not (here & there & s) for s in pairs):
            return f"its twin has another unit ({plain_unit(nxt.reading.unit)})"
    if (
        p is not None
        and words[c.start - 1] == "with"
        and p.previous is not None
        and p.previous.reading.quantity != r.quantity
        and words[p.previous.start - 1 : p.previous.start] == ["with"]
    ):
        return 'the value after "with" was of another kind before'
    return None


def other_end(c: Case) -> str | None:
    """Doubt one end of a thing whose other end has another quantity: "inlet 58 psi outlet 31" as degrees."""
    p = c.previous
    if not c.bare or p is None or p.reading.quantity == c.reading.quantity or p.reading.state != "value":
        return None
    words = c.talk.words
    here, there = {*c.after(1), *c.before(1)}, {*words[p.end : p.end + 1], *words[p.start - 1 : p.start]}
    ends = ("inlet" in here and "outlet" in there) or ("outlet" in here and "inlet" in there)
    return (
        f"its twin has another unit ({plain_unit(p.reading.unit)})" if ends and c.start - p.end <= 3 else None
    )


def neighbours_unit(c: Case) -> str | None:
    """Doubt a bare number whose neighbour in a list, or whose difference, was said with another unit."""
    r, talk = c.reading, c.talk
    if not c.bare or r.value is None or c.number is None:
        return None
    for q in talk.said_from(c.end, min(c.high, c.end + 15)):
        if q.kind != "reading" or not q.means:
            continue
        units = {u for u, _ in q.means}
        fits = r.unit in units or r.unit.removeprefix("delta_") in units or "delta_" + r.unit in units
        if (
            fits
            or _KIND.get(q.means[0][0]) in {None, _KIND.get(r.unit)}
            or q.means[0][0] in {"s", "min", "h", "%"}
        ):
            continue
        between = talk.words[c.end : q.start]
        if len(between) <= 2 and set(between) <= {",", "or", "to", "-"} and between:
            return f"its neighbour was said with another unit ({talk.n.heard(q.start, q.end)})"
        for twin in (c.previous, c.following):
            if (
                twin is None
                or twin.reading.unit != r.unit
                or twin.reading.value is None
                or abs(twin.start - c.start) > 8
                or twin.end > q.start
            ):
                continue
            gap = abs(twin.reading.value - r.value)
            if (
                gap >= 2
                and abs(gap - q.value) <= 0.01 * gap
                and {"drop", "dropping", "difference", "so", "that's", "across", "losing"}
                & set(talk.words[c.end : q.end + 2])
            ):
                said = talk.n.heard(q.start, q.end)
                return f"its difference to {twin.reading.value:g} was said in another unit ({said})"
    return None


_KIND = {
    unit: kind
    for kind, units in {
        "V": "V", "A": "A", "ohm": "ohm", "uF": "uF", "W": "W", "Hz": "Hz", "rpm": "rpm", "%": "%",
        "psi": "psi kPa bar mbar Pa inHg micron", "deg": "degF degC delta_degF delta_degC",
        "lb": "lb oz g kg", "min": "s min h",
    }.items()
    for unit in units.split()
}  # fmt: skip


def difference(c: Case) -> str | None:
    """Doubt a level that is as large as the difference just said, or is said like a difference."""
    r = c.reading
    sensed = {"sensor", "probe", "thermistor", "ohm", "ohms"} & set(
        c.talk.words[max(0, c.start - 40) : c.start]
    )
    if r.quantity in DIFFERENCES and sensed and c.talk.words[c.end - 1] == "k" and evidence(c)[0] > 4:
        return "K can be kilohm here"
    if (
        r.unit == "ohm"
        and c.talk.words[c.end - 1] == "k"
        and c.after(1)
        and c.after(1)[0] in {"off", "out", "high", "low"}
    ):
        return "K can be kelvin here"
    if r.value is None or r.quantity not in {"temperature", "pressure", "voltage"} or r.derived:
        return None
    words = c.talk.words
    before = c.before(4)
    p = c.previous
    if (
        p is not None
        and p.previous is not None
        and p.reading.unit == p.previous.reading.unit == r.unit
        and p.reading.value is not None
        and p.previous.reading.value is not None
    ):
        gap = abs(p.reading.value - p.previous.reading.value)
        if {"drop", "dropping", "losing", "lost", "loss"} & set(before):
            return None
        told = {"so", "that's", "makes", "which", "that", "difference", "only", "split", "drop"} & set(
            words[p.end : c.start]
        )
        if c.start - p.end <= 8 and told and gap > 0 and abs(gap - abs(r.value)) <= 0.051 * max(1.0, gap):
            return f"may be the difference of {p.previous.reading.value:g} and {p.reading.value:g}"
    if r.quantity == "temperature" and before[-1:] == ["by"] and not {"passing", "close"} & set(before):
        return '"by" speaks of a difference, not of a level'
    moved = (
        r.quantity in {"temperature", "pressure"}
        and r.unit != "inHg"
        and word_set("change") & set(before[-1:])
    )
    if moved and not c.bare and c.value is not None and c.value.change is None:
        return "may be a change and not a level"
    limit = 20 if r.unit == "degF" else 11
    if c.after(1) and c.after(1)[0] in {"off", "apart", "warmer", "cooler", "colder", "hotter"}:
        limit = 60
    if r.quantity == "temperature" and not c.bare and abs(r.value) <= limit:
        after = c.after(2)
        here = after in (["out", "here"], ["out", "there"], ["out", "today"])  # "nineteen degrees out here"
        if after[:1] and after[0] in word_set("difference_after") and not here:
            return "may be a difference and not a level"
    return None


def follows_doubt(c: Case) -> str | None:
    """Doubt what was carried on from a value that is in doubt itself."""
    p = c.previous
    if (
        not c.loose
        or p is None
        or not (p.doubted or p.reading.review)
        or p.reading.quantity != c.reading.quantity
        or p.reading.role != "measured"
    ):
        return None
    if c.start - p.end > 6 or STOPS & set(c.talk.words[p.end : c.start]):
        return None
    own, _, _ = evidence(c)
    return "goes on from a value that is in doubt" if own > (2 if p.doubted else 20) else None


def side_told_warm(c: Case) -> str | None:
    """Doubt a bare pressure of a side of which, or beside the other of which, only degrees were read."""
    r = c.reading
    if not c.bare or r.quantity != "pressure" or not r.value:
        return None
    p = c.previous
    other = p is not None and p.low == c.low and p.reading.point in {"suction", "discharge"} - {r.point}
    if other and p is not None and p.reading.quantity == "temperature" and not p.bare:
        return "the other side beside it was told in degrees: it may be a temperature too"
    if r.point not in {"discharge", "liquid"}:
        return None
    said = set(c.talk.words[max(c.low, c.start - 4) : c.end + 3])
    if {"pressure", "head", "psi", "gauge", "side"} & said:
        return None
    warm: float | None = None
    p = c.previous
    while p is not None and c.start - p.end <= 400:
        x, low = p.reading, p.low
        p = p.previous
        if x.point != r.point and not (x.quantity == "pressure" and low == c.low):
            continue
        if x.quantity == "pressure":
            return None  # pressures are being read here, or were of this side
        if x.quantity == "temperature" and warm is None:
            warm = x.value
    nxt = c.following
    if nxt is not None and nxt.low == c.low and nxt.reading.quantity == "pressure":
        return None
    if warm is not None and warm > 0 and 0.6 <= r.value / warm <= 1.6:
        return f"a temperature of the {r.point} side was read before and no pressure: it may be one too"
    return None
