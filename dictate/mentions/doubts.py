"""A second look at what was taken from the words: whatever may be wrong gets a reason to look at it.

    doubt(narration, mentions)      adds reasons to `review` and values to `candidates`, in place

The readers decide what a value is; this net decides nothing and changes no value. It asks, on other evidence
than the readers used, whether a value can be what it is said to be: is it usual for this part and place
(vocabulary/plausible.toml), do the words next to it speak of something else, is the number perhaps a name,
a count, a clock time or a setting, was a correction said near it that took nothing back, can its words mean
another number. A value whose unit was said is looked at more mildly than one whose unit was carried over.

Every look is a small function from a `_Case` to a reason or None, listed in `_LOOKS`.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Any

from dictate.mentions.labels import LabelAt, find_components, find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.mentions.plausible import in_unit
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.refrigerants import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.values import Value, find_values
from dictate.record.base import At
from dictate.record.mentions import Mentions
from dictate.record.visit import Candidate, Movement, Reading
from dictate.vocabulary.load import table

_STOPS = frozenset({".", "?", "!"})
_CUTS = frozenset({".", "?", "!", ",", ";", ":"})


@cache
def _linking() -> frozenset[str]:
    return _words("link")


_DIFFERENCES = frozenset({"superheat", "subcooling", "temperature_difference"})
_ELECTRIC = frozenset({"voltage", "current", "resistance", "capacitance", "power"})


_BROKEN_NAME = re.compile(r"\bR\d{1,2}\. ?[A-Z]?\d|\bR\d \d\d?[A-Z]\b")
_BROKEN = re.compile(r"\d\.[A-Za-z]")


@cache
def _bands() -> tuple[dict[str, Any], ...]:
    return tuple(table("plausible")["band"])


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("plausible")["words"][name])


@cache
def _ambiguous() -> tuple[dict[str, Any], ...]:
    return tuple(table("plausible")["ambiguous"])


@cache
def _corrections() -> Phrases:
    return Phrases({"cue": table("plausible")["words"]["corrects"]})


@cache
def _saturation() -> dict[str, list[float]]:
    found: dict[str, list[float]] = table("plausible")["saturation"]["gauge"]
    return found


class _Talk:
    """What all the looks share: the words of the visit and what was found in them."""

    def __init__(self, narration: Narration, mentions: Mentions) -> None:
        self.n = narration
        self.tokens = narration.tokens
        self.words = [t.lower for t in narration.tokens]
        self.mentions = mentions
        self.metric = mentions.units == "metric"
        self.first: dict[tuple[int, int], int] = {}
        self.last: dict[tuple[int, int], int] = {}
        for t in narration.tokens:
            self.first.setdefault((t.segment, t.word), t.index)
            self.last[t.segment, t.word] = t.index
        self.values = find_values(narration)
        self.labels = find_labels(narration)
        self.components = find_components(narration)
        self.points = find_points(narration)
        self.numbers = find_numbers(narration)
        self.number_at = {t: n for n in self.numbers for t in range(n.start, n.end)}
        self.sentence_of: list[int] = [0] * len(self.tokens)
        for i, (a, b) in enumerate(narration.sentences):
            self.sentence_of[a:b] = [i] * (b - a)

    @cached_property
    def _starts(self) -> tuple[list[int], list[int], list[int]]:
        return [n.start for n in self.numbers], [n.end for n in self.numbers], [x.start for x in self.labels]

    def numbers_between(self, start: int, end: int) -> int:
        """Count the numbers that lie whole between two tokens."""
        starts, ends, _ = self._starts
        return max(0, bisect_right(ends, end) - bisect_left(starts, start))

    def labels_from(self, start: int, end: int) -> list[LabelAt]:
        """Return the labels that begin in [start, end)."""
        starts = self._starts[2]
        return self.labels[bisect_left(starts, start) : bisect_left(starts, end)]

    @cached_property
    def machines(self) -> str:
        return " / ".join(e.type or "" for e in self.mentions.equipment).lower()

    @cached_property
    def refrigerants(self) -> set[str]:
        return {r.name for r in find_refrigerants(self.n)}

    @cached_property
    def cold_room(self) -> bool:
        """Tell whether a room indoors would be below 45 degF as taken: then Celsius was spoken."""
        indoors = {"kitchen", "kitchen's", "room", "shop", "indoor", "indoors", "store", "office", "bar"}
        for r in self.mentions.readings:
            if (
                r.point != "ambient"
                or not r.unit_assumed
                or r.unit != "degF"
                or r.value is None
                or r.role != "measured"
            ):
                continue
            span = self.span(r.at)
            if span is not None and r.value < 45 and indoors & set(self.words[max(0, span[0] - 4) : span[1]]):
                return True
        return False

    @cached_property
    def damaged(self) -> bool:
        """Tell whether the text shows what a recogniser does to the trade's words."""
        if self.n.recognised or any(r.reasons for r in find_refrigerants(self.n)):
            return True
        if any(w in {"£", "€"} for w in self.words):
            return True
        return any(_BROKEN_NAME.search(segment.text) for segment in self.n.segments)

    @cached_property
    def said(self) -> list[Quantity]:
        return find_quantities(self.n)

    def span(self, at: At) -> tuple[int, int] | None:
        """Return the tokens [start, end) of a place, None when it has none."""
        if at.segment is None or at.first_word is None or at.last_word is None:
            return None
        start = self.first.get((at.segment, at.first_word))
        end = self.last.get((at.segment, at.last_word))
        return None if start is None or end is None else (start, end + 1)


@dataclass(slots=True)
class _Case:
    """One reading under doubt, with its tokens [start, end) and its sentence [low, high)."""

    talk: _Talk
    reading: Reading
    start: int
    end: int
    low: int
    high: int
    value: Value | None
    previous: _Case | None
    following: _Case | None = None
    doubted: bool = False
    """True when this net found a reason, of the kind that also holds for what goes on from it."""

    @property
    def number(self) -> Number | None:
        if self.value is not None and self.value.numbers:
            return self.value.numbers[0]
        # A reader may have taken a number that is kept out of the values, as the name of a thing.
        return self.talk.number_at.get(self.start)

    @property
    def bare(self) -> bool:
        """Tell whether no unit was said for this value."""
        return self.reading.unit_assumed and self.reading.state == "value"

    @property
    def shared(self) -> bool:
        """Tell whether the unit was said for a neighbour in a list, and not right behind this number."""
        v = self.value
        return (
            v is not None
            and v.quantity is not None
            and v.state == "value"
            and self.number is not None
            and v.end <= self.number.end
            and len(v.numbers) == 1
        )

    @property
    def loose(self) -> bool:
        return self.bare or self.shared

    def before(self, count: int) -> list[str]:
        return self.talk.words[max(self.low, self.start - count) : self.start]

    def after(self, count: int) -> list[str]:
        return self.talk.words[self.end : min(self.high, self.end + count)]

    def clause(self) -> tuple[int, int]:
        """Return the tokens between the marks around the value."""
        words = self.talk.words
        a, b = self.start, self.end
        while a > self.low and words[a - 1] not in _CUTS:
            a -= 1
        while b < self.high and words[b] not in _CUTS:
            b += 1
        return a, b

    def clause_before(self, count: int) -> list[str]:
        """Return the last words of the clause in front of the value."""
        a, _ = self.clause()
        return self.talk.words[max(a, self.start - count) : self.start]


def _case_value(talk: _Talk, reading: Reading, start: int, end: int) -> Value | None:
    best = None
    for v in talk.values:
        if v.start >= end:
            break
        if v.end <= start:
            continue
        if best is None or (reading.value is not None and v.value == reading.value):
            best = v
    return best


# -- is it usual


def _unusual(c: _Case) -> str | None:
    """Compare with the bands of plausible.toml."""
    r = c.reading
    if r.value is None or r.derived:
        return None
    for band in _bands():
        if band["quantity"] != r.quantity or not (band.get("said") or c.loose):
            continue
        if "component" in band and r.component not in band["component"]:
            continue
        if r.component in band.get("not_component", ()) or r.point in band.get("not_point", ()):
            continue
        if "points" in band and r.point not in band["points"]:
            continue
        if band.get("no_point") and (r.point is not None or r.component is not None):
            continue
        if any(m in c.talk.machines for m in band.get("not_machines", ())):
            continue
        if c.talk.refrigerants & set(band.get("not_refrigerants", ())):
            continue
        if "machines" in band and not any(m in c.talk.machines for m in band["machines"]):
            continue
        if (
            r.quantity == "voltage"
            and r.value <= 20
            and (r.component or "")
            and "sensor" in (r.component or "")
        ):
            continue
        amount = in_unit(r.value, r.unit, band["unit"])
        if not any(low <= amount <= high for low, high in band["bands"]):
            what = r.component or (f"the {r.point}" if r.point else f"a {r.quantity.replace('_', ' ')}")
            return f"{r.value:g} {_plain(r.unit)} is unusual for {what}: {band['why']}"
    return None


def _plain(unit: str) -> str:
    return unit.replace("delta_", "").replace("degF", "°F").replace("degC", "°C")


def _saturated(c: _Case) -> str | None:
    """Tell whether a pressure can be one of the refrigerant named, at this place."""
    r = c.reading
    if (
        r.quantity != "pressure"
        or r.point not in {"suction", "discharge", "liquid"}
        or r.value is None
        or r.reference not in {None, "gauge"}
    ):
        return None
    known = [_saturation()[n] for n in c.talk.refrigerants if n in _saturation()]
    if not known or len(known) != len(c.talk.refrigerants):
        return None
    amount = in_unit(r.value, r.unit, "psi")
    if r.point == "suction":
        low, high = -15.0, max(k[4] for k in known)
    else:
        low, high = min(k[1] for k in known), max(1.45 * k[5] + 20 for k in known)
    if (low <= amount or r.point == "liquid") and amount <= high:
        return None
    names = ", ".join(sorted(c.talk.refrigerants))
    return f"{r.value:g} {_plain(r.unit)} is hardly a {r.point} pressure of {names}"


def _order(c: _Case) -> str | None:
    """Doubt a suction above the head pressure, and a liquid pressure well above it, of the same breath."""
    r = c.reading
    if (
        r.quantity != "pressure"
        or r.point not in {"suction", "liquid"}
        or not r.value
        or r.reference not in {None, "gauge"}
    ):
        return None
    for x in (
        c.previous,
        c.following,
        c.previous.previous if c.previous else None,
        c.following.following if c.following else None,
    ):
        if (
            x is None
            or abs(x.start - c.start) > 14
            or x.reading.quantity != "pressure"
            or x.reading.point != "discharge"
        ):
            continue
        if (
            x.reading.role != "measured"
            or not x.reading.value
            or x.reading.unit != r.unit
            or x.reading.review
        ):
            continue
        if r.point == "liquid" and r.value < 0.6 * x.reading.value:
            return f"a liquid pressure far below the discharge pressure, {x.reading.value:g}, is unusual"
        if r.value > (1.0 if r.point == "suction" else 1.2) * x.reading.value:
            return f"a {r.point} pressure above the discharge pressure, {x.reading.value:g}, is unusual"
    return None


def _celsius(c: _Case) -> str | None:
    """Doubt degrees Fahrenheit that were only assumed, where a room indoors would be freezing cold."""
    r = c.reading
    if r.quantity != "temperature" or not c.bare or r.unit != "degF" or not c.talk.cold_room:
        return None
    return "no unit was said, and the room's temperature sounds like Celsius"


def _small_pressure(c: _Case) -> str | None:
    """Doubt parts of a psi, and parts of a degree Fahrenheit: air pressures are said in that way."""
    r = c.reading
    if not c.bare or r.value is None or not 0 < abs(r.value) < 1:
        return None
    if r.unit == "degF" or (r.unit == "psi" and r.point in {None, "static", "supply", "return"}):
        return "may be inches of water, the unit was not said"
    return None


def _nominal(c: _Case) -> str | None:
    """Doubt a nominal voltage in a description: "standby 230 volts", "the controller's 24 volts is 25.1"."""
    r = c.reading
    if r.quantity != "voltage" or c.bare or r.value is None or r.derived:
        return None
    if r.value not in {12, 24, 110, 115, 120, 208, 230, 240, 277, 380, 400, 415, 440, 460, 480, 575, 600}:
        return None
    following = c.after(2)
    nxt = c.following
    if (
        following[:1] in (["is"], ["was"], ["'s"], ["reads"], ["measured"])
        and nxt is not None
        and nxt.reading.quantity == "voltage"
        and nxt.start - c.end <= 4
    ):
        return f"{r.value:g} volts may be the name of the circuit; what was read on it follows"
    before = c.before(10)
    if _words("reads") & set(before) or r.point in {
        "line",
        "load",
        "L1-L2",
        "L2-L3",
        "L1-L3",
        "secondary",
        "primary",
        "coil",
    }:
        return None
    close = c.talk.words[max(0, c.start - 26) : c.start]
    if {"model", "serial", "standby", "plate", "number", "rated"} & set(close) and not {
        "at",
        "across",
        "to",
    } & set(before[-3:]):
        return "stands in the description of the machine, so it may be the rating"
    return None


def _ounces(c: _Case) -> str | None:
    """Doubt decimal ounces in a damaged text: "1.5 ounces" is how a recogniser writes one pound five."""
    r, number = c.reading, c.number
    if r.unit != "oz" or number is None or not number.written or number.places != 1 or not c.talk.damaged:
        return None
    whole, rest = divmod(round(number.value * 10), 10)
    if not rest or not 1 <= whole <= table("plausible")["moved"]["split_ounces"]:
        return None
    why = f"may have been {whole} pounds {rest} ounces"
    r.candidates.append(Candidate(value=whole + rest / 16, unit="lb", heard=r.heard, why=why))
    return why


def _marking(c: _Case) -> str | None:
    """Doubt a bare standard size of a capacitor with no word of measuring: "dual cap 35 and 7.5"."""
    r = c.reading
    if not c.loose or r.quantity != "capacitance" or r.value not in table("plausible")["sizes"]["capacitor"]:
        return None
    a, _ = c.clause()
    near = c.talk.words[max(a, c.start - 8) : c.start] + c.after(2)
    if _words("reads") & set(near) or {"at", "is", "was", "herm", "fan", "only"} & set(c.before(1)):
        return None
    return "a standard size with no word of measuring: it may be the marking"


# -- is it a name, a count, a time


def _name_or_count(c: _Case) -> str | None:
    r, number = c.reading, c.number
    if number is None or r.value is None:
        return None
    words = c.talk.words
    whole = float(number.value).is_integer() and not number.places
    if c.value is not None and c.value.clock and c.bare and not _goes_on(c) and _evidence(c)[0] > 3:
        return "the number can be a time of day"
    if number.form == "clock" and r.quantity != "duration":
        return "the number is written like a time of day"
    small = whole and 0 < abs(number.value) <= 20
    before = words[c.start - 1] if c.start > c.low else ""
    nxt = words[number.end] if number.end < c.high else "."
    if (
        c.bare
        and small
        and number.value <= 3
        and nxt in {"to", "-"}
        and number.end + 1 < c.high
        and words[number.end + 1] in {"one", "two", "three", "1", "2", "3", "four", "4"}
    ):
        return "the number can be the name of a leg or the first of several"
    if before in {"between", "minus", "about", "at"}:
        pass
    elif (
        number.pronoun or (number.value == 1 and not number.written and before in _words("one_for"))
    ) and number.end - number.start == 1:
        return '"one" may stand for the thing and be no number'
    if not c.bare:
        if (
            r.quantity == "current"
            and whole
            and c.start
            and words[c.start - 1].startswith("r")
            and words[c.start - 1][1:].isdigit()
        ):
            return "may be a piece of a refrigerant's name"
        return None
    if (
        small
        and number.value >= 1
        and (before in _words("numbered") or words[c.start - 2 : c.start] in (["number", "'s"],))
    ) and (
        (nxt not in _CUTS and nxt not in {"now", "degrees", "on", "and"})
        or (r.quantity in _ELECTRIC and number.value <= 9)
    ):
        return f"the number may tell which {before} it was"
    if (
        small
        and number.value > 0
        and before in _words("told_apart")
        and nxt in _CUTS
        and number.value <= 12
        and r.quantity == "temperature"
    ):
        return f"the number may tell which {before} it was"
    if (
        whole
        and before in {"on", "of", "with"}
        and number.value in _names_in_digits()
        and c.after(1)[:1] != ["degrees"]
    ):
        return "may be the refrigerant and not a value"
    if whole and len(before) == 1 and before.isalpha() and before not in {"a", "b", "c", "i", "l", "t"}:
        return "may be a piece of a model or serial number"
    if (
        small
        and before in {"freezer", "cooler", "fridge"}
        and words[c.start - 2] in {"to", "from", "in", "behind", "beside"}
    ):
        return f"the number may tell which {before} it was"
    if r.quantity == "current" and whole and r.component is None:
        near = set(words[max(c.low, c.start - 7) : c.start]) | set(c.after(4))
        if not near & {
            "amps",
            "amp",
            "amperage",
            "current",
            "l1",
            "l2",
            "l3",
            "leg",
            "legs",
            "currents",
        } and not (r.point or "").startswith("L"):
            return "nothing says that these are amps, and of what"
    if r.quantity == "current" and small and number.value <= 12:
        near = set(words[max(c.low, c.start - 7) : c.start]) | set(c.after(4))
        if not near & {
            "amps",
            "amp",
            "amperage",
            "current",
            "pulling",
            "pulls",
            "pulled",
            "draws",
            "drawing",
            "drew",
            "draw",
            "drops",
            "settled",
            "l1",
            "l2",
            "l3",
            "leg",
        }:
            return "a small whole number with no word of amps near it may be a count or a name"
    listed = (
        c.previous is not None and c.previous.reading.quantity == r.quantity and c.start - c.previous.end <= 2
    )
    if (
        r.quantity in {"voltage", "resistance"}
        and small
        and not listed
        and number.value <= 6
        and before not in _linking()
        and not {"ohms", "ohm", "volts", "volt"} & set(c.before(8))
    ):
        return "a small whole number here may be a count or a name"
    if whole and nxt.isalpha() and not _may_follow(c, number.end, nxt):
        return f"the number may count or describe what follows, {nxt!r}"
    if c.talk.number_at.get(number.end) is not None and _clock_pair(c, number):
        return "two numbers in a row here can be a time of day"
    lead = c.talk.number_at.get(c.start - 1)
    first = c.talk.tokens[number.start]
    if before in {"at", "of", "after", "past"}:
        leader = c.talk.number_at.get(c.start - 2)
        if leader is not None and leader.start >= c.low:
            if before == "of" and small:
                return "some of several are spoken of, so the number may be a count"
            if (
                before == "at"
                and c.previous is not None
                and c.previous.end >= c.start - 2
                and c.previous.reading.quantity == r.quantity
            ):
                return "may be when or where, not a second value"
            if before in {"after", "past"} and whole and number.value <= 12:
                return "the number can be a time of day"
    if (
        (
            lead is not None
            and c.previous is not None
            and c.previous.end >= c.start
            and c.previous.reading.review
            and lead.value <= 24
        )
        and whole
        and not lead.places
        and c.previous.reading.quantity not in _ELECTRIC
    ):
        return "stands right behind a number that is in doubt"
    if lead is not None and whole and _evidence(c)[0] > 2:
        name = words[lead.start - 1] if lead.start > c.low else ""
        if name in _words("places") and not lead.places and lead.value <= 99:
            return f"may be part of the number of the {name}"
    if _BROKEN.search(c.talk.n.segments[first.segment].words[first.word].text):
        return "the number is written oddly"
    if words[number.end : number.end + 1] == ["point"]:
        return "the number breaks off behind its point"
    follower = c.talk.number_at.get(number.end)
    for a, b in ((number, follower), (lead, number)):
        if a is None or b is None or a.end != b.start or not (a.form == b.form == "plain"):
            continue
        if a.written and b.written and 0 <= a.value <= 9 and 0 <= b.value <= 9 and not a.places + b.places:
            return "single digits one after the other may be one number"
    if follower is not None and follower.written and c.talk.tokens[number.end].text.startswith(".") and whole:
        other = number.value + follower.value
        r.candidates.append(
            Candidate(
                value=other, unit=r.unit, heard=f"{number.value:g} {follower.value:g}", why="one number"
            )
        )
        return f"may be the one number {other:g}"
    if number.written and first.text.startswith(".") and lead is not None and not lead.places:
        return "may be the end of the number before it"
    previous = c.talk.number_at.get(c.start - 1)
    if previous is not None and _clock_pair_of(c.talk, previous, number, c.low):
        return "two numbers in a row here can be a time of day"
    if (
        whole
        and 0 <= number.value <= 24
        and {"lunch", "travel", "labor", "labour"} & set(words[c.low : c.high])
    ):
        return "working hours are spoken of, so the number can be a time of day"
    timed = whole and 100 <= number.value <= 1259 and number.value % 100 < 60
    if (
        timed
        and number.form == "pair"
        and before == "at"
        and {"on", "off", "started", "called", "left", "in", "out", "there", "here", "done", "gone"}
        & set(c.before(4))
    ):
        return "the number can be a time of day"
    if timed and {"after", "until", "till", "since"} & set(c.before(2)):
        return "the number can be a time of day"
    return None


@cache
def _names_in_digits() -> frozenset[float]:
    """Return the numbers that are short for refrigerants: "on 134"."""
    return frozenset(float(m.group(1)) for n in table("refrigerant_data") if (m := re.match(r"R-(\d+)", n)))


def _goes_on(c: _Case, low: float = 0.7, high: float = 1.4) -> bool:
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


def _clock_pair(c: _Case, number: Number) -> bool:
    following = c.talk.number_at[number.end]
    return _clock_pair_of(c.talk, number, following, c.low)


def _clock_pair_of(talk: _Talk, a: Number, b: Number, low: int) -> bool:
    if a.end != b.start or not (a.value.is_integer() and b.value.is_integer()):
        return False
    if not (1 <= a.value <= 24 and 0 <= b.value < 60):
        return False
    return bool(_words("clock_before") & set(talk.words[max(low, a.start - 3) : a.start]))


def _may_follow(c: _Case, at: int, word: str) -> bool:
    """Tell whether a word right behind a bare number says nothing against its being a reading."""
    if word in _words("follow") or word in _words("reads") or "'" in word:
        return True
    if word.endswith(("ing", "ly")):
        return True
    talk = c.talk
    far = abs(c.reading.value or 0) > 12
    if far and any(at <= x.start <= at + 1 for x in talk.components):
        return True
    if any(x.start == at for x in talk.labels) or any(p.start == at for p in talk.points):
        return True
    return any(x.start == at for x in talk.components) and c.reading.quantity in _ELECTRIC


# -- do the words next to it speak of something else


def _evidence(c: _Case) -> tuple[float, float, str]:
    """Return how near the next word for this quantity is, the next for another one, and that word."""
    r = c.reading
    talk = c.talk
    own = other = 99.0
    what = ""

    def gap(start: int, end: int) -> float:
        if start >= c.end:
            d = float(start - c.end) * 1.5 + 1
            d += 4.0 * sum(w in _CUTS or w in {"and", "then"} for w in talk.words[c.end : start])
            return d
        d = float(c.start - end)
        d += 3.0 * sum(w in _CUTS for w in talk.words[end : c.start])
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
    for comp in talk.components:
        if not c.low <= comp.start < c.high:
            continue
        if r.quantity in comp.component.measures:
            d = gap(comp.start, comp.end)
            own = min(own, d + (0 if comp.component.bare == r.quantity else 2))
    for p in talk.points:
        if not c.low <= p.start < c.high:
            continue
        if r.quantity in p.only:
            own = min(own, gap(p.start, p.end))
    return own, other, what


def _other_words(c: _Case) -> str | None:
    """Doubt a carried unit where the nearest words speak of another quantity."""
    r = c.reading
    if not c.bare or r.value is None:
        return None
    if r.quantity == "voltage" and _by_itself(c):
        return None
    own, other, what = _evidence(c)
    if what.startswith("across") and r.quantity in _DIFFERENCES:
        return None
    if other < own and other <= 5 and own > 3:
        return f"no unit was said and {what!r} beside it speaks of something else"
    previous = c.previous
    if previous is not None and _joined_to_other(c, previous):
        return 'no unit was said and it is joined by "and" to a value of another kind'
    if previous is not None and own > 2 and _close_to_other(c, previous):
        said = f"{previous.reading.value:g} {_plain(previous.reading.unit)}"
        return f"no unit was said and it is close to the {said} before it"
    if (r.quantity in {"pressure", "vacuum"} and _goes_on(c, 0.15, 6.0)) or _goes_on(c) or _by_itself(c):
        return None
    if (
        (
            own > 30
            and previous is not None
            and previous.reading.quantity == r.quantity
            and previous.start < c.low
        )
        and r.quantity in {"temperature", "pressure"} | _DIFFERENCES
        and not _goes_on(c, 0.4, 2.5)
    ):
        return "no unit was said and nothing beside it says what it is of"
    if own > 30 and previous is not None:
        same = previous.reading.quantity == r.quantity
        distance = c.start - previous.end
        if not same and distance <= 25:
            return "no unit was said and nothing beside it says what it is of"
    return None


def _by_itself(c: _Case) -> bool:
    """Tell whether the number speaks for its quantity: two mains voltages in a row, a vacuum by the pump."""
    r = c.reading
    if r.value is None:
        return False
    if r.quantity == "vacuum":
        near = set(c.talk.words[max(0, c.start - 30) : c.start])
        return r.value >= 100 and bool(near & {"pump", "vacuum", "micron", "microns", "valved", "evacuated"})
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


def _joined_to_other(c: _Case, p: _Case) -> bool:
    """Tell whether the value before, joined by "and", is of another quantity: "1.8 on one and 2.1 on ..."."""
    words = c.talk.words
    if p.reading.quantity == c.reading.quantity or words[c.start - 1] != "and" or c.start - p.end > 7:
        return False
    between = words[p.end : c.start - 1]
    if _CUTS & set(between) or p.reading.state != "value" or p.start < c.low:
        return False
    named = [*((x.start, x.end) for x in c.talk.labels), *((x.start, x.end) for x in c.talk.points)]
    return not any(c.end <= a <= c.end + 1 for a, _ in named) or between[:1] == c.after(1)


def _close_to_other(c: _Case, p: _Case) -> bool:
    """Tell whether the value before, of another quantity in the same breath, is nearly the same number."""
    a, b = p.reading.value, c.reading.value
    if not a or not b or p.reading.quantity == c.reading.quantity or p.reading.role == "retracted":
        return False
    near = c.start - p.end <= 9 and c.low <= p.start
    return near and abs(a) >= 5 and abs(a - b) <= 0.04 * abs(a)


def _ambiguous_words(c: _Case) -> str | None:
    r = c.reading
    if not c.bare:
        return None
    words = c.talk.words
    for entry in _ambiguous():
        if r.quantity not in entry["quantities"]:
            continue
        a = max(0, c.start - entry.get("window", 5))
        if not set(entry["said"]) & (set(words[a : c.start]) | set(c.after(3))):
            continue
        reach = entry["reach"]
        if set(entry.get("unless", ())) & set(c.before(3)):
            continue
        if not _phrase_near(words[max(0, c.start - reach) : c.end + entry.get("after", 12)], entry["near"]):
            continue
        if r.value is not None and not entry.get("whole_above", 0) <= abs(r.value) < entry.get(
            "whole_below", 1e9
        ):
            continue
        return str(entry["why"])
    return None


def _phrase_near(words: list[str], phrases: Iterable[str]) -> bool:
    have = set(words)
    text: str | None = None
    for phrase in phrases:
        if " " in phrase:
            text = text if text is not None else f" {' '.join(words)} "
            if f" {phrase} " in text:
                return True
        elif phrase in have:
            return True
    return False


def _shared_unit(c: _Case) -> str | None:
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


def _verbs(c: _Case) -> str | None:
    """Doubt a carried unit where a verb or preposition asks for another one."""
    r = c.reading
    if not c.loose:
        return None
    before, after = c.clause_before(4), c.after(3)
    amps = {"pulls", "pulling", "pulled", "draws", "drawing", "drew", "amping"} & set(before)
    if amps and r.quantity not in {"current", "power", "voltage", "vacuum", "pressure", "temperature"}:
        return f"{sorted(amps)[0]!r} speaks of amps"
    if r.quantity == "current" and {"pulled", "pulling", "pulls"} & set(before) and "out" in before:
        return '"pulled out" speaks of no amps'
    if r.quantity in {"resistance", "temperature"}:
        if "across" in after[:1] and r.quantity == "resistance" and r.value is not None and r.value > 20:
            return '"across" behind it speaks of volts'
        at = after[:1] == ["at"] and any(
            x.start <= c.end + 3 and x.start >= c.end and "voltage" in x.component.measures
            for x in c.talk.components
        )
        if at and not {"ohms", "ohm", "ohmed"} & set(c.before(8)):
            return '"at" a part behind it speaks of volts'
        if {"getting", "gets"} & set(before) and r.quantity == "resistance":
            return '"getting" speaks of volts, and no unit was said'
    return None


def _same_number(c: _Case) -> str | None:
    """Doubt a bare number that was said with another unit before ("21.5 degrees first, 21.5 last")."""
    r = c.reading
    if not c.bare or r.value is None or c.number is None:
        return None
    number = c.number.value
    for q in c.talk.said:
        if q.end > c.start or c.start - q.end > 25 or q.kind != "reading" or not q.means:
            continue
        close = abs(q.value - number) <= max(0.02 * abs(number), 1e-9) or (
            c.talk.n.sentences and r.quantity == "mass" and abs(q.value - number) <= 0.1 * abs(number)
        )
        if q.means[0][0] in {"s", "min", "h"} or (r.quantity != "mass" and _evidence(c)[0] <= 2):
            continue
        if (
            close
            and r.unit not in {u for u, _ in q.means}
            and not (r.unit.startswith("delta_") and r.unit[6:] in {u for u, _ in q.means})
        ):
            if number in {0, 1} or (
                r.quantity in _ELECTRIC and q.word in {"volt", "amp", "ohm"} and number < 10
            ):
                continue
            return (
                f"the same number was said with another unit just before ({c.talk.n.heard(q.start, q.end)})"
            )
    return None


def _far_off(c: _Case) -> str | None:
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
    own, _, _ = _evidence(c)
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
        said = f"{p.reading.value:g} {_plain(p.reading.unit)}"
        return f"no unit was said and it is far from the {said} before it"
    return None


def _parallel(c: _Case) -> str | None:
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
        and not _STOPS & set(words[c.end : nxt.start])
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
            return f"its twin has another unit ({_plain(nxt.reading.unit)})"
    if (
        p is not None
        and p.reading.quantity != r.quantity
        and p.reading.state == "value"
        and c.start - p.end <= 3
        and "inlet" in {*c.after(1), *c.before(1)}
        and "outlet" in {*words[p.end : p.end + 1], *words[p.start - 1 : p.start]}
    ):
        return f"its twin has another unit ({_plain(p.reading.unit)})"
    if (
        p is not None
        and words[c.start - 1] == "with"
        and p.previous is not None
        and p.previous.reading.quantity != r.quantity
        and words[p.previous.start - 1 : p.previous.start] == ["with"]
    ):
        return 'the value after "with" was of another kind before'
    return None


def _neighbours(c: _Case) -> str | None:
    """Doubt a bare number whose neighbour in a list, or whose difference, was said with another unit."""
    r, talk = c.reading, c.talk
    if not c.bare or r.value is None or c.number is None:
        return None
    for q in talk.said:
        if q.start < c.end or q.kind != "reading" or not q.means:
            continue
        if q.start - c.end > 14 or q.start >= c.high:
            break
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


def _idle(c: _Case) -> str | None:
    """Doubt a time that belongs to no test and no cycle, and one that was cut short ("an hour and ten")."""
    r = c.reading
    if r.quantity != "duration":
        return None
    seconds = c.talk.number_at.get(c.end)
    cycle = r.point in {"freeze", "harvest", "defrost"}
    if cycle and not c.bare and r.unit == "min" and seconds is not None and 0 < seconds.value < 60:
        return "seconds may stand behind it"
    if c.after(1) == ["and"] and c.talk.number_at.get(c.end + 1) is not None and r.unit == "h":
        return 'the time goes on behind "and"'
    near = c.talk.words[max(c.low, c.start - 14) : min(c.high, c.end + 8)]
    alone = not any(x is not None and abs(x.start - c.start) <= 12 for x in (c.previous, c.following))
    if r.point is None and alone and not _words("timed") & set(near):
        return "no test and no cycle is spoken of beside this time"
    return None


def _schedule(c: _Case) -> str | None:
    """Doubt a time that belongs to a schedule or a delay, and a weight that names a size."""
    r = c.reading
    planned = r.quantity == "duration" and _words("schedule") & set(c.before(8) + c.after(3))
    if planned and not c.bare and not {"held", "stood", "took", "ran"} & set(c.before(6)):
        return "may be a schedule or a delay that is set"
    if r.quantity == "mass" and c.after(1) and c.after(1)[0] in _words("by_weight"):
        return "may be a size"
    return None


def _other_use(c: _Case) -> str | None:
    """Doubt a time that the person spent, and inches that are a length."""
    r = c.reading
    if (
        r.quantity == "duration"
        and r.point in {None, "hold"}
        and not {"still", "held"} & set(c.after(4))
        and not c.bare
    ) and _words("pause") & set(c.talk.words[max(c.low, c.start - 8) : min(c.high, c.end + 6)]):
        return "may be time that was waited or worked, not a time of the machine"
    if c.after(1) == ["out"] and c.talk.words[c.end - 1] == "ohms" and not c.bare:
        return '"ohms out" may be the verb and the number belong to the word before'
    if (
        r.unit == "inHg"
        and _words("long") & set(c.after(5))
        and not {"vacuum", "mercury"} & set(c.before(6) + c.after(3))
    ):
        return "inches can be a length here"
    return None


def _restarted(c: _Case) -> str | None:
    """Doubt a number with a second one right behind a filler: "five, uh, four"."""
    words = c.talk.words
    i = c.end
    fillers = 0
    while i < c.high and i - c.end < 4 and (words[i] == "," or words[i] in _FILLERS):
        fillers += words[i] in _FILLERS
        i += 1
    other = c.talk.number_at.get(i)
    if fillers and other is not None and c.number is not None and other.start != c.number.start:
        near = c.following
        if (
            near is not None
            and near.start <= i < near.end
            and near.reading.role == "measured"
            and c.loose
            and near.reading.unit == c.reading.unit
        ):
            return (
                None
                if c.reading.role == "retracted"
                else f"may have been said anew as {c.talk.n.heard(other.start, other.end)}"
            )
        return f"may have been said anew as {c.talk.n.heard(other.start, other.end)}"
    return None


_FILLERS = frozenset({"uh", "um", "er", "erm", "hmm", "no"})


def _left_label(c: _Case) -> str | None:
    """Doubt a value that took the label on its right that has a number of its own ("84 superheat 9.8")."""
    if not c.bare:
        return None
    talk = c.talk
    for label in talk.labels:
        kind = label.label.quantity or label.label.default
        if label.start != c.end or kind != c.reading.quantity:
            continue
        if talk.number_at.get(label.end) is None:
            return None
        left = [x for x in talk.labels if x.end <= c.start and c.start - x.end <= 2 and x.start >= c.low]
        if left and (left[-1].label.default or left[-1].label.quantity) not in {kind, None, "duration"}:
            said = talk.n.heard(left[-1].start, left[-1].end)
            return f"the words before it, {said!r}, fit as well as those after it"
    return None


def _difference(c: _Case) -> str | None:
    """Doubt a level that is as large as the difference just said, or is said like a difference."""
    r = c.reading
    sensed = {"sensor", "probe", "thermistor", "ohm", "ohms"} & set(
        c.talk.words[max(0, c.start - 40) : c.start]
    )
    if r.quantity in _DIFFERENCES and sensed and c.talk.words[c.end - 1] == "k" and _evidence(c)[0] > 4:
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
        r.quantity in {"temperature", "pressure"} and r.unit != "inHg" and _words("change") & set(before[-1:])
    )
    if moved and not c.bare and c.value is not None and c.value.change is None:
        return "may be a change and not a level"
    limit = 20 if r.unit == "degF" else 11
    if c.after(1) and c.after(1)[0] in {"off", "apart", "warmer", "cooler", "colder", "hotter"}:
        limit = 60
    if r.quantity == "temperature" and not c.bare and abs(r.value) <= limit:
        after = c.after(2)
        if after[:1] and after[0] in _words("difference_after"):
            return "may be a difference and not a level"
    return None


# -- is it of now


def _wanted(c: _Case) -> str | None:
    """Doubt a value near words of settings, charts and limits, where nothing says that it was read."""
    r = c.reading
    if r.value is None:
        return None
    words = c.talk.words
    before = words[max(c.low, c.start - 9) : c.start]
    cut = max((i for i, w in enumerate(before) if w in {";", "but"}), default=-1)
    before = before[cut + 1 :]
    if "," in before and _evidence(c)[0] <= 3:
        before = before[len(before) - before[::-1].index(",") :]
    hits = [i for i, w in enumerate(before) if w in _words("wanted")]
    if (
        hits
        and not _words("reads") & set(before[hits[-1] :])
        and not {"now", "came", "actually", "then"} & set(before[hits[-1] :])
    ):
        own, _, _ = _evidence(c)
        between = before[hits[-1] + 1 :]
        numbers = sum(1 for n in c.talk.numbers if n.end <= c.start and n.start > c.start - len(between))
        paper = before[hits[-1]] in {"spec", "specs", "chart", "manual", "catalog", "curve", "guideline"}
        if paper or (own > 2 and numbers <= 2) or not between or set(between) <= _linking():
            return f"{before[hits[-1]]!r} before it: it may be what should be, not what was read"
    acts = [i for i, w in enumerate(before) if w in _words("acts") or w == "cut"]
    if (
        acts
        and set(before[acts[-1] + 1 :]) <= _words("acts_at")
        and {"at", "in", "out", "on", "off", "to"} & set(before[acts[-1] + 1 :])
        and before[acts[-1]] in _words("acts")
    ) and not (_words("reads") | {"did", "it"}) & set(before):
        return "it may be where the control is set, not what was read"
    if (
        acts
        and before[acts[-1]] == "cut"
        and before[acts[-1] - 1 : acts[-1]] not in (["high"], ["low"])
        and len(before) - acts[-1] <= 5
        and any(x.component.sets and 0 <= c.start - x.end <= 10 for x in c.talk.components)
    ) and not (_words("reads") | {"it", "did"}) & set(before):
        return "it may be where the control is set, not what was read"
    if (
        c.after(1) == ["rated"]
        and c.talk.number_at.get(c.end + 1) is None
        and not {"load", "at", "for"} & set(c.after(2))
    ):
        return '"rated" behind it: it may be the rating'
    old = (c.bare and before[-2:] == ["it", "was"]) or before[-3:] == ["it", "was", "on"]
    if old and {"set", "setting", "dial", "knob", "thermostat", "stat"} & set(
        words[max(0, c.start - 16) : c.start]
    ):
        return "it may be an old setting, not what was read"
    if c.bare and before[-1:] == ["was"] and {"set", "setting"} & set(before):
        return "it may be an old setting, not what was read"
    return None


def _asked(c: _Case) -> str | None:
    """Doubt a value in a question: "is it 208 or 230?"."""
    if c.talk.words[c.high - 1] == "?" and not _words("reads") & set(c.clause_before(6)):
        return "it stands in a question"
    return None


def _describes(c: _Case) -> str | None:
    """Doubt a unit in the singular in front of a noun ("a 34 degree box"), and the amps of a fuse."""
    r = c.reading
    if c.bare or r.value is None:
        return None
    thing = (c.after(1) or ["."])[0]
    plain = _words("follow") | {"split", "drop", "difference", "rise", "superheat", "subcooling"}
    if c.talk.words[c.end - 1] == "degree" and abs(r.value) > 1 and thing.isalpha() and thing not in plain:
        return "may describe the thing behind it and be no reading"
    if (
        r.quantity == "current"
        and _words("sized") & set(c.before(2))
        and not _words("reads") & set(c.before(4))
    ):
        return "may be the size of the fuse or breaker"
    return None


def _control(c: _Case) -> str | None:
    """Doubt a value on a control of the kind that it is set to, where nothing says that it acted."""
    r = c.reading
    for x in c.talk.components:
        if not (c.low <= x.start and 0 <= c.start - x.end <= 6 and x.component.sets == r.quantity):
            continue
        near = set(c.talk.words[x.end : c.start])
        if not near & (_words("acted") | _words("reads") | {"says", "said"}):
            return f"it may be where the {x.name} is set, not what was read"
    return None


def _plate_like(c: _Case) -> str | None:
    """Doubt a nominal size right behind the part's name: "gas valve 24 volts", "fan is 1075 rpm"."""
    r = c.reading
    sizes = table("plausible")["sizes"].get(r.quantity)
    if sizes is None or r.value not in sizes or c.bare or r.derived or _by_itself(c):
        return None
    near = c.before(6)
    if (_words("reads") | {"have", "has", "had", "at", "across", "on", "in", "to", "about", "coming"}) & set(
        near
    ) or c.after(1) in (["at"], ["on"], ["across"], ["to"], ["coming"], ["in"]):
        return None
    named = any(0 <= c.start - x.end <= 2 for x in c.talk.components) or r.quantity == "speed"
    named = named or (r.component is not None and c.start - c.low <= 3)
    watts = any(
        x is not None and x.reading.role == "rated" and abs(x.start - c.start) <= 5
        for x in (c.previous, c.following)
    )
    if (named or watts) and r.point in {None, "coil"}:
        return "a nominal size with no word of measuring: it may be what the part is made for"
    return None


def _respectively(c: _Case) -> str | None:
    """Doubt bare numbers that answer to several things named before ("box 48, suction 18, now 52 and 12")."""
    r = c.reading
    if not c.bare or r.quantity not in {"pressure", "temperature"} or _evidence(c)[0] <= 8:
        return None
    kinds = {
        x.label.quantity or x.label.default
        for x in c.talk.labels
        if c.low <= x.start < c.start and not x.label.weak and (x.label.quantity or x.label.default)
    }
    if len(kinds) > 1 and ("and" in c.after(1) or "and" in c.before(1)):
        return "several things were named before, and this may be another one of them"
    return None


def _other_time(c: _Case) -> str | None:
    """Doubt a value in whose breath a target, a plate, another time or another person is spoken of."""
    words = c.talk.words
    a = c.start
    while a > c.low and c.start - a < 9 and words[a - 1] not in {".", "?", "!", ";"}:
        a -= 1
    before = words[a : c.start]
    spoken = words[c.low : c.start]
    days = [i for i, w in enumerate(spoken) if w in _words("other_day")]
    if days and not {"now", "today", "but"} & set(spoken[days[-1] :]):
        return f"{spoken[days[-1]]!r} in its sentence: it may be no value of now"
    if c.after(1) == ["then"] and c.bare and c.after(2)[1:] in ([], ["."], [","]):
        return '"then" behind it: it may be no value of now'
    p = c.previous
    if (
        p is not None
        and p.reading.role not in {"measured", "retracted"}
        and words[p.end : c.start] in (["to"], ["or"], ["-"])
    ):
        return "goes on from a value that is not of now"
    if c.bare and c.reading.quantity == "temperature_difference" and "set" in spoken:
        return "may be how a control is set"
    everywhere = _words("other_clause") & set(before)
    if everywhere and not (_words("now") | {".", ","}) & set(before):
        return f"{min(everywhere)!r} before it: it may be no value of now"
    numbers = [n for n in c.talk.numbers if a <= n.start and n.end <= c.start]
    if numbers:
        # Behind another number the words before that one were said of it.
        before = words[numbers[-1].end : c.start]
    if "," in before and _evidence(c)[0] <= 3:
        before = before[len(before) - before[::-1].index(",") :]
    hits = [
        i
        for i, w in enumerate(before)
        if w in _words("other_before")
        and not (
            w == "last"
            and before[i + 1 : i + 2]
            and before[i + 1] in {"defrost", "cycle", "one", "freeze", "harvest", "run"}
        )
    ]
    if hits and c.after(1) != ["now"] and not _words("now") & set(before[hits[-1] :]):
        return f"{before[hits[-1]]!r} before it: it may be no value of now"
    after = c.after(5)
    cut = next((i for i, w in enumerate(after) if w in _CUTS or w in {"and", "but"}), len(after))
    late = [w for w in after[:cut] if w in _words("other_after")]
    if late and not _words("now") & set(before[-4:]):
        return f"{late[0]!r} behind it: it may be no value of now"
    return None


def _uncorrected(c: _Case) -> str | None:
    """Doubt a value beside words of correction that took nothing back."""
    talk = c.talk
    for cue in talk.n.found["doubt cues"]:
        if cue.start >= c.end:
            gap = talk.words[c.end : cue.start]
            if len(gap) > 8 or len([w for w in gap if w in _STOPS]) > 1:
                continue
            if any(n.start >= c.end and n.end <= cue.start for n in talk.numbers):
                continue
        elif cue.end <= c.start:
            gap = talk.words[cue.end : c.start]
            if len(gap) > 4 or _STOPS & set(gap):
                continue
            if any(n.start >= cue.end and n.end <= c.start for n in talk.numbers):
                continue
        else:
            continue
        named = [(x.start, x.end) for x in talk.labels] + [(x.start, x.end) for x in talk.points]
        if any(0 <= cue.start - y <= 1 for _, y in named) and any(0 <= x - cue.end <= 1 for x, _ in named):
            continue  # a place put right: "vapor side, no sorry, suction"
        if cue.start and talk.words[cue.start - 1] == "i" and talk.words[cue.start] in {"make", "no"}:
            continue
        said = talk.n.heard(cue.start, cue.end)
        return f"{said!r} was said beside it and nothing was taken back"
    return None


# -- can the words mean another number


def _form(c: _Case) -> str | None:
    number, r = c.number, c.reading
    if number is None or r.value is None or c.value is None:
        return None
    named = c.start > c.low and c.talk.words[number.start - 1] in _words("numbered")
    if number.form == "pair" and number.written and number.end - number.start > 1 and named:
        first = c.talk.words[number.start]
        rest = c.talk.n.heard(number.start + 1, number.end)
        r.candidates.append(
            Candidate(unit=r.unit, value=_plain_number(rest), heard=rest, why=f"{first} may be a name")
        )
        return f"can also be {first} and then {rest}"
    words = c.talk.words
    if (
        number.written
        and c.start
        and words[c.start - 1] in {"to", "too", "for", "fore"}
        and 10 <= number.value <= 99
        and not number.places
        and r.quantity in {"pressure", "voltage", "vacuum"}
    ):
        lead = "4" if words[c.start - 1].startswith("fo") else "2"
        before = words[max(c.low, c.start - 3) : c.start - 1]
        if not before or (before[-1] not in _words("to_after") and not before[-1].isdigit()):
            other = float(f"{lead}{number.value:g}")
            r.candidates.append(
                Candidate(
                    value=other,
                    unit=r.unit,
                    heard=c.talk.n.heard(c.start - 1, c.end),
                    why="the word before may be a digit",
                )
            )
            return f"{words[c.start - 1]!r} before it may be a digit, then it is {other:g}"
    return None


def _plain_number(text: str) -> float | None:
    try:
        return float(text.replace(",", ""))
    except ValueError:
        return None


def _state(c: _Case) -> str | None:
    """Doubt "open" that no meter said, and "nothing" that goes on ("with nothing calling")."""
    r = c.reading
    words = c.talk.words
    sentence = words[c.low : c.high]
    said = words[c.start : c.end]
    if r.state == "open" and "open" in said:
        near = set(words[max(c.low, c.start - 8) : c.start])
        if near & _words("stands_open") and not near & _words("meter"):
            return "what stands open here need not be a circuit"
        meter = near & _words("meter")
        if not meter and any(
            x.reading.state == "open" and x.start != c.start and c.low <= x.start < c.high
            for x in (c.previous, c.following)
            if x is not None
        ):
            return "may be the verdict on the same reading"
        if not meter and _words("verdict") & set(c.clause_before(8)):
            return "may be a verdict and not what a meter said"
        if not meter and r.component is None and not _words("meter") & set(sentence):
            return 'no meter is spoken of beside "open"'
    if r.state == "value" and r.value == 0 and said[:1] in (["nothing"], ["dead"]):
        nxt = c.after(1)
        if r.quantity == "voltage" and {"draws", "drawing", "pulls", "pulling", "amps"} & set(c.before(4)):
            return "amps are spoken of beside it"
        if said == ["nothing"] and nxt and nxt[0].isalpha() and nxt[0] not in _words("nothing_on"):
            return '"nothing" may go with the words behind it'
    return None


def _follows_doubt(c: _Case) -> str | None:
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
    if c.start - p.end > 6 or _STOPS & set(c.talk.words[p.end : c.start]):
        return None
    own, _, _ = _evidence(c)
    return "goes on from a value that is in doubt" if own > (2 if p.doubted else 20) else None


# -- refrigerant moved, and the whole


_LOOKS: tuple[Callable[[_Case], str | None], ...] = (
    _unusual, _saturated, _order, _celsius, _small_pressure,
    _nominal, _ounces, _marking, _name_or_count, _other_words, _ambiguous_words,
    _shared_unit, _verbs, _same_number, _far_off, _parallel,
    _left_label, _difference, _wanted,
    _asked, _describes, _control, _plate_like, _respectively, _other_time, _uncorrected, _form, _state,
    _neighbours, _idle, _other_use, _schedule, _restarted, _follows_doubt,
)  # fmt: skip
_CARRIED = frozenset({_unusual, _other_words, _ambiguous_words, _verbs, _wanted, _parallel, _follows_doubt})
"""The looks whose doubt also holds for a value that was carried on from the doubted one."""


def _movement(talk: _Talk, m: Movement) -> list[str]:
    """Return the doubts about an amount of refrigerant; candidates are added in place."""
    span = talk.span(m.at)
    if span is None or m.value is None or m.unit is None:
        return []
    start, end = span
    low, high = talk.n.sentences[talk.sentence_of[start]]
    words = talk.words
    out: list[str] = []
    pounds = in_unit(m.value, m.unit, "lb")
    limits = table("plausible")["moved"]
    large = any(x in talk.machines for x in limits["large"])
    if not limits["least"] <= pounds <= (limits["most_large"] if large else limits["most"]):
        out.append(f"{m.value:g} {m.unit} is unusual for an amount of refrigerant")
    plates = {
        in_unit(r.value, r.unit, "lb")
        for r in talk.mentions.readings
        if r.role == "rated"
        and not r.review
        and r.quantity == "mass"
        and r.value
        and r.unit in {"lb", "oz", "g", "kg"}
    }
    if len(plates) == 1 and not out:
        plate = plates.pop()
        if pounds > limits["over_plate"] * plate or (m.direction == "charged" and pounds < plate / 40):
            out.append(f"{m.value:g} {m.unit} does not fit the charge on the plate")
    numbers = [n for n in talk.numbers if start <= n.start < end]
    last = numbers[-1] if numbers else None
    after = words[end : min(high, end + 4)]
    if "oil" in after or "nitrogen" in after:
        out.append(f"{next(w for w in after if w in {'oil', 'nitrogen'})} is spoken of behind it")
    if last is not None and last.written and last.places == 1 and m.unit == "oz" and len(numbers) == 1:
        whole, rest = divmod(round(last.value * 10), 10)
        if rest and 1 <= whole <= limits["split_ounces"] and talk.damaged:
            why = f"may have been {whole} pounds {rest} ounces"
            out.append(why)
            m.candidates.append(Candidate(value=whole + rest / 16, unit="lb", heard=m.heard, why=why))
    before = words[max(low, start - 5) : start]
    lead = words[start:end]
    planned = _words("planned") & set(before + lead[: max(0, len(lead) - 2)])
    if planned:
        out.append(f"{min(planned)!r} beside it: it may be planned or wanted, not moved")
    if not m.retracted:
        cue = _cue_near(talk, start, end)
        if cue is not None:
            out.append(cue)
    return out


def _cue_near(talk: _Talk, start: int, end: int) -> str | None:
    for cue in talk.n.found["doubt cues"]:
        gap = talk.words[end : cue.start] if cue.start >= end else talk.words[cue.end : start]
        if len(gap) > (6 if cue.start >= end else 4) or _STOPS & set(gap[1:]):
            continue
        if not any(n.start >= end and n.end <= cue.start for n in talk.numbers):
            return f"{talk.n.heard(cue.start, cue.end)!r} was said beside it and nothing was taken back"
    return None


def _labour(mentions: Mentions) -> None:
    """Doubt working times that do not fit each other."""
    starts = [x for x in mentions.labour if x.kind == "start" and x.clock]
    ends = [x for x in mentions.labour if x.kind == "end" and x.clock]
    if len(starts) == 1 and len(ends) == 1:
        hours = _clock_hours(ends[0].clock) - _clock_hours(starts[0].clock)
        why = None
        if hours <= 0:
            why = f"the end, {ends[0].clock}, is not after the start, {starts[0].clock}"
        elif hours > 14:
            why = f"{hours:g} hours from start to end is unusual"
        if why is not None:
            for item in (starts[0], ends[0]):
                if why not in item.review:
                    item.review.append(why)
    for item in mentions.labour:
        if item.hours is not None and not 0 < item.hours <= 16:
            item.review.append(f"{item.hours:g} hours is unusual for one visit")


def _clock_hours(clock: str | None) -> float:
    hours, _, minutes = (clock or "0:0").partition(":")
    return int(hours) + int(minutes) / 60


def doubt(narration: Narration, mentions: Mentions) -> None:
    """Add to the review reasons (and candidates) of what was found, in place; no value is changed."""
    if not narration.tokens:
        return
    talk = _Talk(narration, mentions)
    taken_back = [s for r in mentions.readings if r.role == "retracted" and (s := talk.span(r.at))]
    taken_back += [s for m in mentions.movements if m.retracted and (s := talk.span(m.at))]
    # A cue with something taken back near it has done its work.
    narration.found["doubt cues"] = [
        p
        for p in _corrections().find(narration)
        if not any(a - 14 <= p.start and p.end <= b + 14 for a, b in taken_back)
    ]
    cases: list[_Case] = []
    for r in mentions.readings:
        span = talk.span(r.at)
        if span is None:
            continue
        low, high = narration.sentences[talk.sentence_of[span[0]]]
        value = _case_value(talk, r, *span)
        # A mark glued to the last word ("38,") is no part of the value.
        end = value.end if value is not None and span[0] < value.end < span[1] else span[1]
        case = _Case(talk, r, span[0], end, low, high, value, cases[-1] if cases else None)
        if cases:
            cases[-1].following = case
        cases.append(case)
    moved = [s for m in mentions.movements if m.value is not None and (s := talk.span(m.at))]
    for case in cases:
        r = case.reading
        if r.role == "retracted":
            continue
        said = bool(r.review)
        if r.role == "measured" and any(a < case.end and case.start < b and a < b for a, b in moved):
            r.review.append("the same words are an amount of refrigerant")
        # Only what is measured goes on into the checks; of a plate the damage of the words matters too.
        for look in _LOOKS if r.role == "measured" else (_ounces, _form):
            why = look(case)
            if why is not None and why not in r.review:
                r.review.append(why)
                r.confidence = min(r.confidence, 0.5)
                case.doubted = look in _CARRIED
                break
        case.doubted = case.doubted or (said and r.quantity in _ELECTRIC)
    for m in mentions.movements:
        for why in _movement(talk, m):
            if why not in m.review:
                m.review.append(why)
                m.confidence = min(m.confidence, 0.5)
    _labour(mentions)


__all__ = ["doubt"]
