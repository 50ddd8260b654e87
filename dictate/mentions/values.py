"""Candidate values of a narration, before anyone knows what they are values of.

A candidate is a quantity with its unit said, a bare number, or a word that stands for a value on a meter
("OL", "nothing", "dead"). `find_values(narration)` returns them in order, sizes, prices, dates and names
left out.
"""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left
from dataclasses import dataclass, field

from dictate.mentions.labels import find_components, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.not_values import identity_spans, kept_out
from dictate.mentions.not_values.called_by_number import called_by_number
from dictate.mentions.not_values.meter_scales import is_scale
from dictate.mentions.quantities import Quantity, find_quantities, lost_hundred
from dictate.mentions.refrigerants import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end, numbers_by_start
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate


@dataclass(slots=True)
class Value:
    """A candidate at the tokens [start, end): `number` as said; `state` is value, open or zero."""

    start: int
    end: int
    value: float
    numbers: tuple[Number, ...] = ()
    quantity: Quantity | None = None
    state: str = "value"
    ground: bool = False
    points: tuple[str, ...] = ()
    range: str | None = None
    change: str | None = None
    reasons: list[str] = field(default_factory=list)
    candidates: list[Candidate] = field(default_factory=list)
    clock: bool = False
    below: bool = False
    """True for "five below": a temperature."""
    above: bool = False
    """True for "two above": a temperature."""
    marking: bool = False
    """True for what is printed on a part, whatever stands around it."""
    aside: bool = False
    """True for a tolerance: said, and no value of anything."""
    opens: bool = False
    """True when the value begins a new list whatever stands before it."""

    @property
    def word(self) -> str | None:
        """Return the id of the said unit, None for a bare number."""
        return self.quantity.word if self.quantity is not None else None

    @property
    def bare(self) -> bool:
        """Tell whether no unit was said."""
        return self.quantity is None and self.state == "value"


def find_values(narration: Narration) -> list[Value]:
    """Return the candidate values in order, without overlaps; computed once per narration."""
    done: list[Value] | None = narration.found.get("values")
    if done is not None:
        return done
    used_names = _designators(narration)
    names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
    named = {t for s, e in identity_spans(narration) for t in range(s, e)}
    out: list[Value] = []
    taken: set[int] = set()
    skip: set[int] = set()
    called = called_by_number(narration)
    for q in find_quantities(narration):
        span = range(q.start, q.end)
        if q.numbers and q.numbers[0].start in called and q.numbers[0].end == q.end - 1:
            continue  # "pump 3 amps 6.2"
        if q.kind != "reading":
            skip.update(span)
            continue
        name = range(q.numbers[0].start, q.numbers[0].end)
        if not named.isdisjoint(name) or is_scale(narration, q.start, q.end, q.word):
            skip.update(span)
            continue
        apart = _time_behind(narration, q)
        if apart is not None:
            out.append(Value(apart.start, apart.end, apart.value, (apart,)))
        out.append(
            Value(
                q.start, q.end, q.value, q.numbers, q, range=q.range, change=q.change,
                reasons=list(q.reasons), candidates=list(q.candidates),
            )
        )  # fmt: skip
        taken.update(span)
    outside = kept_out(narration)
    states = _states(narration)
    for state in states:
        if narration.tokens[state.start].lower in {"0", "oh", "zero"}:
            skip.update(range(state.start, state.end))  # "0 L" is what a meter shows over range, no number
    for number in find_numbers(narration):
        span = range(number.start, number.end)
        if not taken.isdisjoint(span) or not names.isdisjoint(span) or not skip.isdisjoint(span):
            continue
        if not used_names.isdisjoint(span):
            continue
        why = outside.get(number.start)
        if why is not None and why != "clock":
            continue
        if number.form == "clock" and not _MACHINE_TIMES & {
            t.lower for t in narration.tokens[max(0, number.start - 6) : number.start]
        }:
            continue  # "at 12:50 cabinet minus 58"
        part = narration.tokens[number.end].lower if number.end < len(narration.tokens) else ""
        if number.form == "fraction" and abs(number.value) < 1 and part != "across":
            continue  # "quarter to four", "half of them": a share of something needs its unit
        if _test_volts(narration, number):
            continue
        dual = _dual_capacitor(narration, number)
        if dual is not None:
            out += [Value(n.start, n.end, n.value, (n,), marking=True) for n in dual]
            taken.update(span)
            continue
        value = Value(number.start, number.end, number.value, (number,), clock=why == "clock")
        value.aside = _tolerance(narration, number)
        lead = lost_hundred(narration, number)
        if lead is not None:
            text = f'"to" before {number.value:g} may be the digit two, then it is {lead:g}'
            value.reasons.append(text)
            value.candidates.append(
                Candidate(value=lead, heard=narration.heard(number.start - 1, number.end), why=text)
            )
        _below_zero(narration, value)
        out.append(value)
        taken.update(span)
    for first, second in _dual_markings(narration):
        if first.start not in taken and first.start not in named:
            out += [Value(n.start, n.end, n.value, (n,)) for n in (first, second)]
            taken.add(first.start)
    for state in states:
        if taken.isdisjoint(range(state.start, state.end)):
            out.append(state)
            taken.update(range(state.start, state.end))
    out.sort(key=lambda v: v.start)
    _bare_ranges(narration, out)
    narration.found["values"] = out
    return out


def _tolerance(narration: Narration, number: Number) -> bool:
    """Tell whether a number is how far something may be off: "fifty-five plus or minus two"."""
    words = narration.lowers
    front = words[max(0, number.start - 3) : number.start + 1]
    return front[-3:] in (["plus", "or", "minus"], ["plus", "and", "minus"]) or front[:3] == [
        "give",
        "or",
        "take",
    ]


def _test_volts(narration: Narration, number: Number) -> bool:
    """Tell whether a number is the volts of an insulation tester: "megger to earth at 500"."""
    if number.value not in {50, 100, 250, 500, 1000, 2500, 5000}:
        return False
    words = narration.lowers
    if words[number.start - 1 : number.start] not in (["at"], ["on"], ["with"], ["set"]):
        return False
    behind = words[number.end : number.end + 2]
    if behind and behind[0].startswith(("meg", "gig")):
        return False
    front = words[max(0, number.start - 8) : number.start]
    return any(w.startswith(("megger", "meggar", "megged", "insulation")) for w in front)


def _time_behind(narration: Narration, q: Quantity) -> Number | None:
    """Take "suction forty eight | two minutes in" apart: nobody says minutes and their tenths like that.

    The time keeps the last word; the number in front of it is returned.
    """
    number = q.numbers[0]
    if q.word not in {"minute", "second", "hour"} or len(q.numbers) > 1 or number.form != "short_decimal":
        return None
    words = [t.lower for t in narration.tokens[number.start : number.end]]
    large, small = divmod(round(number.value * 10), 10)
    if number.written or "point" in words or len(words) < 3 or not small:
        return None
    q.start, q.value = number.end - 1, float(small)
    q.numbers = (Number(number.end - 1, number.end, float(small)),)
    return Number(number.start, number.end - 1, float(large))


def _dual_capacitor(narration: Narration, number: Number) -> tuple[Number, Number] | None:
    """Split "a 45 5" or "forty five five, 440 volt" into the two markings of a dual capacitor."""
    if number.form not in {"short_decimal", "two_digits", "decimal"} or number.places != 1:
        return None
    tokens = narration.tokens
    if "point" in [t.lower for t in tokens[number.start : number.end]] or number.end - number.start < 2:
        return None
    large, small = divmod(round(number.value * 10), 10)
    if not (15 <= large <= 100 and large % 5 == 0 and small in {3, 4, 5, 6}):
        return None
    caps = [c for c in find_components(narration) if 0 <= number.start - c.end <= 6]
    if not caps or "capacitor" not in caps[-1].name:
        return None
    before = tokens[number.start - 1].lower
    after = [t.lower for t in tokens[number.end : number.end + 4]]
    marked = bool({"volt", "volts", "vac"} & set(after)) or before in {
        "a",
        "an",
        "rated",
        "dual",
        "new",
        "says",
        "marked",
    }
    if not marked:
        return None
    cut = number.end - 1
    return Number(number.start, cut, float(large)), Number(cut, number.end, float(small))


_MACHINE_TIMES = frozenset({"freeze", "harvest", "cycle", "defrost", "froze", "cycles", "pulldown", "drip"})


def _below_zero(narration: Narration, value: Value) -> None:
    """Make the bare "five below" negative, and note "two above"; nothing but a temperature is said so."""
    tokens = narration.tokens
    end = value.end
    if end >= len(tokens) or tokens[end].lower not in {"below", "above"} or value.value <= 0:
        return
    nxt = tokens[end + 1].lower if end + 1 < len(tokens) else "."
    if tokens[end].lower == "above":
        value.above = nxt in word_list("values_below_zero")
    elif nxt in word_list("values_below_zero"):
        value.value, value.end, value.below = -value.value, end + 1 + (nxt == "zero"), True


def _dual_markings(narration: Narration) -> list[tuple[Number, Number]]:
    """Return both numbers of "45/5" on a dual capacitor."""
    out = []
    for token in narration.tokens:
        match = re.fullmatch(r"(\d{1,3}(?:\.\d)?)/(\d{1,2}(?:\.\d)?)", token.lower)
        if (
            match
            and 10 <= float(match[1]) <= 100
            and 1.5 <= float(match[2]) <= 15
            and float(match[1]) > float(match[2])
        ):
            i = token.index
            out.append(
                (
                    Number(i, i + 1, float(match[1]), written=True),
                    Number(i, i + 1, float(match[2]), written=True),
                )
            )
    return out


def _designators(narration: Narration) -> set[int]:
    """Return the tokens that are part of a name: "fan two", "leg 1", "L 2", "the second fan"."""
    out: set[int] = set()
    for point in find_points(narration):
        out.update(range(point.start, point.end))
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    for c in find_components(narration):
        # "Fans 1 to 4 run", "circuits 2 and 3": a row of names
        near = [starts[i] for i in (c.end, c.end + 2) if i in starts]
        row = [n for n in near if 1 <= n.value <= 12 and n.value.is_integer()]
        if (
            (
                len(row) == 2
                and row[0].end + 1 == row[1].start
                and narration.tokens[row[0].end].lower in {"to", "and", "through", "-"}
            )
            and not row[0].places
            and not row[1].places
            and narration.tokens[c.end - 1].lower.endswith("s")
        ):
            out.update(range(row[0].start, row[1].end))
        if c.which is None or not c.which.isdigit():
            continue
        beside = (starts.get(c.end), starts.get(c.end + 1), ends.get(c.start))
        for number in beside:
            if number is not None and f"{number.value:g}" == c.which:
                out.update(range(number.start, number.end))
                break
    return out


def _bare_ranges(narration: Narration, values: list[Value]) -> None:
    """Mark "between forty and forty five", "six to seven", "six or seven" of bare numbers as ranges."""
    tokens = narration.tokens
    for a, b in itertools.pairwise(values):
        if a.range or b.range or a.change or not (a.numbers and b.numbers) or not (a.bare and b.bare):
            continue
        between = [t.lower for t in tokens[a.end : b.start]]
        before = [t.lower for t in tokens[max(0, a.start - 4) : a.start]]
        close = 0 < b.value - a.value <= max(3.0, 0.35 * abs(b.value))
        if (between == ["and"] and "between" in before) or (
            between in (["to"], ["or"], ["-"])
            and close
            and not {"from", "went", "dropped", "down", "up"} & set(before)
        ):
            a.range, b.range = "low", "high"
        elif between == ["to"] and {"from", "went", "dropped", "rose", "climbed", "came"} & set(before):
            a.change, b.change = "from", "to"


# -- words that stand for a value on a meter


def _any(name: str) -> str:
    """Return a pattern for any phrase of a word list, the longest first."""
    return "(?:" + "|".join(sorted((re.escape(p) for p in word_list(name)), key=len, reverse=True)) + ")"


_OPEN = re.compile(_any("values_open"))
_GROUND = rf"to (?:{_any('values_ground_articles')} )?{_any('values_ground')}"
# Nothing on the meter to ground, however it is said, and in either order.
_TO_GROUND = re.compile(
    rf"{_any('values_nothing')}(?: {_any('values_nothing_between')}){{0,9}}? {_GROUND}"
    rf"|{_GROUND}(?: {_any('values_ground_between')})*? {_any('values_open_after_ground')}"
    r"|(?:grounds?|earth)(?: is| are| was| ,| :)? (?:clear|good|open)(?! wire)"
    r"|(?:shell|frame|casing|chassis|case)(?: is| was| ,| :)? clear(?! of)"
    rf"|{_any('values_no')} {_any('values_grounds')}(?! (?:wire|screw|rod|lug|strap|connection|bond))"
    rf"|{_any('values_not')} (?:shorted to |going to )?ground(?:ed)?"
)
_THREE = re.compile(rf"\b{_any('values_three')}\b")
_TWO = re.compile(rf"\b{_any('values_two')}\b")
_AGAIN = re.compile(rf"(?: ,)? (?:and )?{_any('values_open_after_ground')}\b")
_ZERO = re.compile(_any("values_zero"))


def _clause(narration: Narration, start: int, end: int) -> tuple[int, int]:
    """Return the span between the commas or full stops around the tokens [start, end)."""
    tokens = narration.tokens
    stops = {".", ",", ";", "?", "!"}
    a = start
    while a > 0 and tokens[a - 1].lower not in stops:
        a -= 1
    b = end
    while b < len(tokens) and tokens[b].lower not in stops:
        b += 1
    return a, b


def _states(narration: Narration) -> list[Value]:
    """Find what a meter said without a number."""
    words = narration.lowers
    text = "".join(f"{word} " for word in words)
    offsets = [0, *itertools.accumulate(len(word) + 1 for word in words)]
    out: list[Value] = []
    taken: set[int] = set()

    def span(match: re.Match[str]) -> tuple[int, int] | None:
        # At blanks between words only: a word begins at its offset and ends in front of the next one's.
        a, b = bisect_left(offsets, match.start()), bisect_left(offsets, match.end() + 1)
        begins = a < len(words) and offsets[a] == match.start()
        return (a, b) if begins and 0 < b < len(offsets) and offsets[b] == match.end() + 1 else None

    for match in _TO_GROUND.finditer(text):
        found = span(match)
        if found is None:
            continue
        a, b = found
        if _stops_inside(words, a, b):
            continue
        clause = _clause(narration, a, b)
        if _ground_is_wiring(words, a, b) or word_list("values_not_metered") & set(words[max(0, a - 2) : a]):
            continue
        said = " ".join(words[clause[0] : clause[1]]).replace("at all", "")
        tail = "" if words[b : b + 1] == ["."] else " ".join(words[b : b + 6]).partition(" .")[0]
        if _dead_test(words, a, b):
            value = Value(a, b, 0.0, state="zero")
            value.points = ("ground",) * (2 if _TWO.search(said) or _TWO.search(tail) else 1)
            out.append(value)
            taken.update(range(a, b))
            continue
        value = Value(a, b, 0.0, state="open", ground=True)
        times = 1
        while again := _AGAIN.match(" " + " ".join(words[b : b + 5])):
            if "." in words[b : b + len(again[0].split())]:
                break
            b += len(again[0].split())
            times += 1
        value.end = b
        if times == 3 or (times == 1 and (_THREE.search(said) or _THREE.search(tail))):
            value.points = ("common-ground", "run-ground", "start-ground")
        elif times == 2 or _TWO.search(said) or _TWO.search(tail):
            value.points = ("ground", "ground")
        out.append(value)
        taken.update(range(a, b))
    for match in _OPEN.finditer(text):
        found = span(match)
        if found is None or not taken.isdisjoint(range(*found)):
            continue
        a, b = found
        before = next((v for v in reversed(out) if v.state == "open" and not v.ground and v.end <= a), None)
        if before is not None and a - before.end <= 5 and not {".", "and", "to"} & set(words[before.end : a]):
            before.end = b  # "open, OL": said twice
            continue
        ground = next((v for v in reversed(out) if v.ground and v.end <= a), None)
        if ground is not None and len(ground.points) == 3 and a - ground.end <= 6:
            tail = " ".join(words[b : b + 6])
            if not _full_stop(words, ground.end, a) and _THREE.search(tail.partition(" .")[0]):
                ground.end = b  # "none of them went to the shell, I checked, infinity on every lead"
                continue
        if before is not None and words[a - 1] in {"burnt", "burned"} and "." not in words[before.end : a]:
            continue  # "ohms at open, nothing through it, so it's burned open"
        if _is_open(narration, words, a, b):
            out.append(Value(a, b, 0.0, state="open"))
            taken.update(range(a, b))
    for match in _ZERO.finditer(text):
        found = span(match)
        if found is None or not taken.isdisjoint(range(*found)):
            continue
        a, b = found
        gone = words[b : b + 1] in (["through"], ["thru"], ["going"])
        if any(
            v.state == "open"
            and (0 <= a - v.end <= 3 if gone else 0 <= a - v.end <= 1)
            and (gone or "," not in words[v.end : a])
            for v in out
        ):
            continue  # "ohms at open, nothing through it": the same meter, said again
        if _is_zero(narration, words, a, b):
            out.append(Value(a, b, 0.0, state="zero"))
            taken.update(range(a, b))
    return out


def _one_of_a_row(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether "nothing" is the value of one of several that were measured: "third one zip"."""
    i = a
    while i > 0 and words[i - 1] in {
        "one",
        ",",
        ":",
        "is",
        "'s",
        "was",
        "gets",
        "gives",
        "shows",
        "reads",
        "leg",
        "lead",
    }:
        i -= 1
    counted = i > 0 and (words[i - 1] in word_list("readings_sides") or words[i - 1].isdigit())
    # "two point five, | three, nothing"
    named_so = _COUNTS | {"a", "b", "c"}
    counted = counted or (i > 1 and words[i - 1] in named_so and words[i - 2] in {",", ".", "and", ";"})
    if words[i - 1 : i] == ["and"] and i > 1:  # "eight point one, eight point two and zip"
        numbers = [n for n in find_numbers(narration) if i - 12 <= n.end <= i - 1]
        counted = counted or (len(numbers) >= 2 and numbers[-1].end == i - 1)
    named = any(c.which is not None and 0 <= a - c.end <= 3 for c in find_components(narration))
    if not (counted or named):
        return False
    row = set(words[max(0, i - 30) : i - 1]) & word_list("values_row_talk")
    return bool(row) and any(i - 20 <= n.end <= i - 1 for n in find_numbers(narration))


def _ohms_row(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether ohms of several things are being read off in front of token a."""
    near = set(words[max(0, a - 40) : a])
    return bool(near & {"ohm", "ohms", "ohmed", "resistance"}) and any(
        a - 14 <= n.end <= a - 1 and n.value > 12 for n in find_numbers(narration)
    )


def _dead_test(words: list[str], a: int, b: int) -> bool:
    """Tell whether "nothing to ground" was said of volts: the proof that a circuit is dead."""
    first = a
    while first > 0 and words[first - 1] not in {".", "?", "!"} and a - first < 30:
        first -= 1
    before, inside = set(words[first:a]), set(words[a:b])
    if word_list("values_ohms_talk") & (before | inside):
        return False
    meter = {"voltmeter", "volts", "voltage", "tester"} & set(words[b : b + 4])
    return bool(meter or word_list("values_dead_test") & before)


def _stops_inside(words: list[str], a: int, b: int) -> bool:
    return any(w in {".", ";", "?", "!"} for w in words[a:b])


def _ground_is_wiring(words: list[str], a: int, b: int) -> bool:
    near = words[max(0, a - 4) : b + 3]
    return bool(word_list("values_ground_is_wiring") & set(near[-3:]))


_COUNTS = frozenset({"one", "two", "three", "four", "five", "six", "seven", "eight"})
_METER = word_list("values_meter")
_DOERS = word_list("values_doers")
_SWITCHES = word_list("values_switches")


def _is_open(narration: Narration, words: list[str], a: int, b: int) -> bool:
    """Tell whether "open" and the like is what a meter says."""
    said = " ".join(words[a:b])
    before = words[max(0, a - 3) : a]
    after = words[b : b + 2]
    last = before[-1] if before else ""
    if {"if", "should", "would"} & set(before):
        return False
    if said not in {"open", "oh well", "out of range", "open line"}:
        return True
    if said == "open" and _conductor_said(narration, words, a, b):
        return True
    if said == "oh well":
        if any(p.kind in {"winding", "ground"} and 0 <= a - p.end <= 2 for p in find_points(narration)):
            return True
        return bool({"reads", "read", "reading", "meter", "shows"} & set(before))
    if _winding_said(narration, words, a):
        return True
    counted = last in _COUNTS or last.isdigit() or last in {"a", "b", "c"}
    if counted and before[-2:-1] in ([","], ["."], ["and"], [";"]) and _ohms_row(narration, words, a):
        return True  # "one is 172, two 174, three open"
    if last in {"coil", "winding", "windings", "element"} and (
        not after or after[0] in {".", ",", "so", ";"}
    ):
        return before[-2:-1] != ["the"] or not {"valve", "stuck"} & set(words[max(0, a - 8) : a])
    copula = last in {
        "is",
        "was",
        "'s",
        "reads",
        "read",
        "tests",
        "tested",
        "measured",
        "measures",
        "checks",
        "checked",
    }
    if copula and before[-2:-1] and before[-2] in {"coil", "winding", "windings", "element"}:
        return True
    if last == "at" and before[-2:-1] and before[-2] in {"ohms", "ohmed", "reads", "meters", "out"}:
        return True  # "the coil ohms at open"
    if last in word_list("values_is_open_5") and last not in {"to"}:
        return False
    if last == "to" and not any(p.end == a for p in find_points(narration)):
        return False
    goes_on = after[:1] and after[0] in word_list("values_is_open_4")
    metered_list = goes_on and after[0] == "and" and last in _METER
    while_said = goes_on and after[0] in {"when", "all", "for"} and last in {"is", "was", "reads", "'s"}
    if goes_on and not metered_list and not while_said:
        return False
    if word_list("values_is_open_3") & set(words[max(0, a - 4) : a]):
        coil = {"coil", "ohms", "reads", "winding", "solenoid", "meter"} & set(words[max(0, a - 6) : b + 2])
        coil |= {"contactor"} & set(words[max(0, a - 4) : a]) if "coil" in words[max(0, a - 3) : a] else set()
        if not coil or "door" in before or "wide" in before or "stuck" in before:
            return False
    point = any(
        p.kind in {"winding", "ground", "legs"} and 0 <= a - p.end <= 3 for p in find_points(narration)
    )
    if point:
        return True
    point_after = any(p.kind in {"winding"} and 0 <= p.start - b <= 2 for p in find_points(narration))
    if point_after:
        return True
    comps = [
        c
        for c in find_components(narration)
        if c.end <= a and a - c.end <= 14 and not _full_stop(words, c.end, a)
    ]
    comp = comps[-1].name if comps else None
    metered = bool(word_list("values_is_open_2") & set(words[max(0, a - 8) : b + 3]))
    if comp in _SWITCHES or (
        comp is not None and metered and not comps[-1].name.startswith(("disconnect", "breaker", "contactor"))
    ):
        found = comps[-1]
        concluded = words[max(0, found.start - 3) : found.start]
        if found.end == a and {"that's", "it's", "'s"} & set(concluded) and concluded[-1:] == ["the"]:
            return False  # "so that's the overload open inside" is a conclusion
        return last in _METER or found.end == a or last in {"one", ","}
    prop = word_list("values_is_open") & set(before)
    if comp is None and last in {"it", "one", "winding", "windings", "element", "reads", "read"} and not prop:
        return True
    ohms = {"ohm", "ohms", "ohmed", "meter", "continuity"} & set(words[max(0, a - 30) : b + 3])
    if (
        last in {"is", "was", "'s", "reads"}
        and before[-2:-1]
        and before[-2] in {"it", "one", "that", "first", "second", "third", "fourth", "other", "she"}
        and ohms
    ):
        return True
    return comp is None and metered and last in {"reads", "read", "was", "is", "'s", "ohmed"}


def _conductor_said(narration: Narration, words: list[str], a: int, b: int) -> bool:
    """Tell whether "open" was said of something that should conduct, or of one of a row that was ohmed.

    As in "that coil read wide open", "second one's eighteen point eight, the third's wide open". Doors and
    valves stand open as well, so the thing itself has to be named, or ohms of its neighbours.
    """
    i = a
    while i > 0 and words[i - 1] in word_list("values_open_adverbs"):
        i -= 1
    if words[b : b + 1] and words[b] in word_list("values_is_open_4") - {"and", "for", "all", "a", "the"}:
        return False
    on = words[b : b + 1] in (["on"], ["through"], ["across"], ["for"])
    if on and _row_ohmed(narration, words, a):
        after = [w for w in words[b + 1 : b + 4] if w not in {"the", "that"}]
        return bool(after) and after[0] in word_list("values_row_names")
    j = i
    while j > 0 and words[j - 1] in word_list("values_open_verbs"):
        j -= 1
    if j == 0 or (j < i and {"left", "be", "not", "if", "when"} & set(words[j:i])):
        return False
    subject = words[j - 1]
    lead = words[max(0, j - 4) : j - 1]
    if word_list("values_is_open") & set(lead) or {"if", "when", "with", "leave", "held"} & set(lead):
        return False
    if subject in word_list("values_conductors") or (subject == "overload" and i < a):
        if j == a and lead[-2:] in (["at", "the"], ["on", "the"], ["across", "the"], ["to", "the"]):
            return False  # "twenty five volts at the coil open and twenty four pulled in"
        return not word_list("values_no_conductors") & set(lead[-1:])
    near = [c for c in find_components(narration) if c.end <= j]
    last = near[-1] if near else None
    if last is not None and last.end == j and not {"valve", "door", "switch"} & set(last.name.split()):
        return any(w in last.name for w in ("heater", "element", "transformer", "sensor"))
    here = words[max(0, j - 12) : j]
    here = here[max((k for k, w in enumerate(here) if w in {"?", "!"}), default=-1) + 1 :]
    if subject == "it" or (subject in {",", "and"} and here.count(".") == 0 and a - i >= 1):
        return bool(word_list("values_conductors") & set(here)) or _row_ohmed(narration, words, a)
    if subject in word_list("values_row_names") or subject.isdigit():
        return _row_ohmed(narration, words, a)
    if last is not None and last.end == j:
        return _row_ohmed(narration, words, a) and not {"door", "switch"} & set(last.name.split())
    if subject in {",", "and", ":", "circuit"}:
        number = next((n for n in find_numbers(narration) if 0 <= j - 1 - n.end <= 1), None)
        if number is not None:
            return _row_ohmed(narration, words, a)
        return bool({"coil", "winding", "element", "overload", "leads"} & set(here[-9:])) and j == i
    return False


def _row_ohmed(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether ohms were read in this sentence or the one before it, with a number to them."""
    first, stops = a, 0
    while first > 0 and a - first < 40:
        if words[first - 1] in {".", "?", "!"}:
            stops += 1
            if stops > 1:
                break
        first -= 1
    talk = set(words[first : a + 3])
    if not word_list("values_row_ohms") & talk or {"door", "doors", "valve"} & set(words[max(0, a - 3) : a]):
        return False
    return any(first <= n.start and n.end <= a for n in find_numbers(narration))


def _winding_said(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether two terminals were named just before: "common to run, nothing, wide open"."""
    for p in find_points(narration):
        if p.kind not in {"winding", "ground"} or not 0 <= a - p.end <= 5:
            continue
        gap = words[p.end : a]
        if not {".", "?", "!", ";", "but", "if", "the", "for"} & set(gap):
            return not any(p.end <= n.start < a for n in find_numbers(narration))
    return False


def _full_stop(words: list[str], a: int, b: int) -> bool:
    return any(w in {".", "?", "!"} for w in words[a:b])


_PLACE = word_list("values_place")
_NOT_A_METER = word_list("values_not_a_meter")
_ELECTRIC_PLACES = word_list("values_electric_places")
_LIVE = word_list("values_live")


def _tested_dead(words: list[str], a: int) -> bool:
    """Tell whether a meter, or terminals named with the test, showed a circuit dead once switched off.

    As in "locked off, checked the terminals, dead", "meter says dead", "tested dead on all three". A bare
    "proved it dead" is the step alone.
    """
    first = a
    while first > 0 and words[first - 1] not in {".", "?", "!"} and a - first < 12:
        first -= 1
    lead, behind = words[first:a], words[a + 1 : a + 4]
    tests, places = word_list("values_dead_tests"), word_list("values_dead_at")
    if word_list("values_dead_others") & set(lead[-5:]) or "if" in lead or "for" in lead[-1:]:
        return False
    shown = bool(word_list("values_dead_meters") & set(lead)) and lead[-1:] in (
        ["says"], ["said"], ["reads"], ["'s"], ["is"], ["tester"], ["meter"], ["shows"],
    )  # fmt: skip
    three = behind[:2] == ["on", "all"] or behind[:3] == ["on", "each", "leg"]
    at = bool(places & set(lead[-4:])) and lead[-1:] in ([","], ["'s"], ["is"], ["and"], ["were"], ["are"])
    tested = bool(tests & set(lead[-8:]))
    return (shown or (tested and (three or at))) and bool(
        word_list("values_dead_off") & set(words[max(0, a - 30) : a])
    )


def _is_zero(narration: Narration, words: list[str], a: int, b: int) -> bool:
    """Tell whether "nothing", "dead", "no voltage" is what a meter says on a live test."""
    said = " ".join(words[a:b])
    before = words[max(0, a - 8) : a]
    after = words[b : b + 5]
    nxt = after[0] if after else "."
    last = before[-1] if before else "."
    cut = next((k for k, w in enumerate(after) if w in word_list("values_is_zero_8")), len(after))
    near = after[:cut]
    place_after = nxt in _PLACE and bool(_ELECTRIC_PLACES & set(near))
    if {"drop", "reading", "taken", "if", "should"} & set(near[:2]) or "if" in before[-3:]:
        return False
    if said.startswith(("no ", "not ")):
        if last == "for" or nxt in word_list("values_is_zero_7"):
            return False
        return (
            place_after
            or bool({"at", "on", "across"} & set(near))
            or any(0 <= a - p.end <= 3 for p in find_points(narration) if p.kind != "winding")
        )
    if said == "dead":
        if _tested_dead(words, a) and nxt not in {"short", "battery", "compressor", "motor", "air", "end"}:
            return True
        if last in word_list("values_is_zero_6"):
            return False
        everywhere = after[:2] in (["on", "all"], ["on", "both"], ["on", "every"], ["on", "each"])
        cut_off = {"off", "locked", "out", "pulled", "isolated", "killed"}
        if everywhere and cut_off & set(words[max(0, a - 14) : a]):
            return True
        if nxt in word_list("values_is_zero_5") and not place_after:
            return False
        electric = any(0 <= a - p.end <= 3 for p in find_points(narration))
        return (
            electric
            or (place_after and last in {"is", "'s", "was", "side", ",", ".", "are"} and nxt == "across")
            or ("ground" in before[-3:] and "to" in before[-4:])
        )
    # "nothing"
    if last in {"pulled", "got", "took"} and after[:2] == ["out", "of"]:
        return False  # no gas came out of it
    if last in word_list("values_draws") and nxt in {".", ",", ";", "and", "but", "at", "now"}:
        return True  # "the right fan isn't turning and draws nothing"
    told = last in {"says", "said", "was"} and place_after and nxt in {"between", "across", "to"}
    told = told or (
        last in {"says", "said"}
        and nxt in {"on", "at"}
        and bool({"meter", "tester", "voltmeter"} & set(before))
        and bool(word_list("values_is_zero_3") & set(near))
    )
    ends = {"line", "leg", "phase", "hot", "live", "l1", "l2", "l3", "neutral", "pole"}
    if after[1:2] == ["to"] and nxt in ends and set(after[2:3]) & (ends | {"ground", "earth"}):
        return not word_list("values_ohms_talk") & set(words[max(0, a - 10) : a])
    if (last in {"with", "for", "was", "did", "do", "says", "said"} and not told) or nxt in {
        "calling",
        "running",
        "happening",
        "happens",
        "happened",
    }:
        return False
    if nxt in word_list("values_is_zero_4"):
        return False
    point_before = any(
        0 <= a - p.end <= 5 and not _full_stop(words, p.end, a)
        for p in find_points(narration)
        if p.kind in {"point", "leg", "legs"}
    )
    electric = bool(_LIVE & set(words[max(0, a - 30) : b + 12]))
    if place_after and nxt in {"on", "at", "across", "from", "between", "out", "to"}:
        strong = word_list("values_is_zero_3")
        return electric or (bool(strong & set(near)) and nxt != "to")
    if point_before:
        return True
    comps = [
        c
        for c in find_components(narration)
        if c.end <= a and a - c.end <= 4 and not _full_stop(words, c.end, a)
    ]
    comp_zero = bool(comps) and "voltage" in comps[-1].component.measures
    ender = nxt in word_list("values_is_zero_2")
    if (
        comp_zero
        and ender
        and electric
        and last
        in {
            "get",
            "getting",
            "got",
            "gets",
            "is",
            "reads",
            "terminals",
            "terminal",
            "coil",
            "has",
            "had",
            "shows",
            "pulling",
            "drawing",
            ",",
            "'s",
            comps[-1].name.split()[-1],
        }
    ):
        return True
    if (
        comp_zero
        and ender
        and electric
        and all(w in word_list("values_is_zero") for w in words[comps[-1].end : a])
    ):
        return True
    led = last if last not in {",", ":"} else before[-2] if len(before) > 1 else "."
    if led in word_list("values_dead_places") and ender and (last not in {",", ":"} or electric):
        return True
    if nxt in {"on", "anywhere"} and {"meter", "tester", "voltmeter", "clamp"} & set(after[:4]):
        return True  # "nothing anywhere on the meter"
    if ender and _one_of_a_row(narration, words, a):
        return True
    return last in {"reads", "reading", "read", "pulling", "drawing", "pulls"} and ender and electric
