"""What all the looks share: the words of a visit, what was found in them, and one reading under doubt."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from dataclasses import dataclass, field
from functools import cache, cached_property
from typing import Generic, Protocol, TypeVar

from dictate.mentions.labels import ComponentAt, LabelAt, PointAt, find_components, find_labels, find_points
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrases
from dictate.mentions.plausible import in_unit
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.values import Value, find_values
from dictate.record.base import At
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading
from dictate.vocabulary.load import table

STOPS = frozenset({".", "?", "!"})
CUTS = frozenset({".", "?", "!", ",", ";", ":"})
DIFFERENCES = frozenset({"superheat", "subcooling", "temperature_difference"})
ELECTRIC = frozenset({"voltage", "current", "resistance", "capacitance", "power"})


_BROKEN_NAME = re.compile(r"\bR\d{1,2}\. ?[A-Z]?\d|\bR\d \d\d?[A-Z]\b")


@cache
def word_set(name: str) -> frozenset[str]:
    """Return one list of words of plausible.toml."""
    return frozenset(table("plausible")["words"][name])


@cache
def linking() -> frozenset[str]:
    """Return the words that only link a thing to its value: "is", "at"."""
    return word_set("link")


def plain_unit(unit: str) -> str:
    """Return a unit as it is written for people: "°F" for degF and delta_degF."""
    return unit.replace("delta_", "").replace("degF", "°F").replace("degC", "°C")


@cache
def corrections() -> Phrases:
    """Return the words that take something back: "no wait"."""
    return Phrases({"cue": table("plausible")["words"]["corrects"]})


class _Placed(Protocol):
    """Anything found in the words, at the tokens [start, end)."""

    @property
    def start(self) -> int: ...
    @property
    def end(self) -> int: ...


LONGEST = 60
"""Nothing that is found in the words has as many tokens: how far a search for what ends here looks back."""
_T = TypeVar("_T", bound=_Placed)


class _Row(Generic[_T]):
    """What was found in the words, in their order, with its places beside it to search them."""

    def __init__(self, found: list[_T]) -> None:
        self.found = found
        self.starts = [x.start for x in found]
        self.ends = [x.end for x in found]

    def beginning(self, start: int, end: int) -> list[_T]:
        """Return what begins in the tokens [start, end)."""
        return self.found[bisect_left(self.starts, start) : bisect_left(self.starts, end)]

    def inside(self, start: int, end: int) -> list[_T]:
        """Return what lies whole in the tokens [start, end), of things that do not overlap."""
        return self.found[bisect_left(self.starts, start) : bisect_right(self.ends, end)]


class Talk:
    """What all the looks share: the words of the visit and what was found in them."""

    def __init__(self, narration: Narration, mentions: Mentions) -> None:
        self.n = narration
        self.tokens = narration.tokens
        self.words = narration.lowers
        self.mentions = mentions
        self.metric = mentions.units == "metric"
        self.values = find_values(narration)
        self.labels = find_labels(narration)
        self.components = find_components(narration)
        self.points = find_points(narration)
        self.numbers = find_numbers(narration)
        self._values, self._labels = _Row(self.values), _Row(self.labels)
        self._components, self._points = _Row(self.components), _Row(self.points)
        self._numbers = _Row(self.numbers)
        self.number_at = {t: n for n in self.numbers for t in range(n.start, n.end)}
        self.sentence_of: list[int] = [0] * len(self.tokens)
        for i, (a, b) in enumerate(narration.sentences):
            self.sentence_of[a:b] = [i] * (b - a)

    @cached_property
    def plates(self) -> set[float]:
        """The charges on plates that nothing speaks against, in pounds, once all values were looked at."""
        return {
            in_unit(r.value, r.unit, "lb")
            for r in self.mentions.readings
            if r.role == "rated"
            and not r.review
            and r.quantity == "mass"
            and r.value
            and r.unit in {"lb", "oz", "g", "kg"}
        }

    @cached_property
    def amps_said(self) -> list[Reading]:
        """The currents measured whose unit was said."""
        return [
            r
            for r in self.mentions.readings
            if r.quantity == "current" and r.role == "measured" and not r.unit_assumed
        ]

    def numbers_in(self, start: int, end: int) -> list[Number]:
        """Return the numbers that lie whole between two tokens."""
        return self._numbers.inside(start, end)

    def numbers_between(self, start: int, end: int) -> int:
        """Count the numbers that lie whole between two tokens."""
        return len(self.numbers_in(start, end))

    def labels_from(self, start: int, end: int) -> list[LabelAt]:
        """Return the labels that begin in [start, end)."""
        return self._labels.beginning(start, end)

    def components_from(self, start: int, end: int) -> list[ComponentAt]:
        """Return the parts that begin in [start, end)."""
        return self._components.beginning(start, end)

    def points_from(self, start: int, end: int) -> list[PointAt]:
        """Return the electrical points that begin in [start, end)."""
        return self._points.beginning(start, end)

    def said_from(self, start: int, end: int) -> list[Quantity]:
        """Return the numbers said with a unit that begin in [start, end)."""
        return self._said.beginning(start, end)

    def values_from(self, start: int, end: int) -> list[Value]:
        """Return the values that begin in [start, end)."""
        return self._values.beginning(start, end)

    @cached_property
    def machines(self) -> str:
        """Return the types of the machines of the visit, in one text."""
        return " / ".join(e.type or "" for e in self.mentions.equipment).lower()

    @cached_property
    def refrigerants(self) -> set[str]:
        """Return the names of the refrigerants that were spoken of."""
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
        """Return the numbers that were said with a unit."""
        return find_quantities(self.n)

    @cached_property
    def _said(self) -> _Row[Quantity]:
        return _Row(self.said)

    def span(self, at: At) -> tuple[int, int] | None:
        """Return the tokens [start, end) of a place, None when it has none."""
        if at.segment is None or at.first_word is None or at.last_word is None:
            return None
        first = self.n.tokens_of(at.segment, at.first_word)
        last = self.n.tokens_of(at.segment, at.last_word)
        return (first.start, last.stop) if first is not None and last is not None else None


@dataclass(slots=True)
class Case:
    """One reading under doubt, with its tokens [start, end) and its sentence [low, high)."""

    talk: Talk
    reading: Reading
    start: int
    end: int
    low: int
    high: int
    value: Value | None
    previous: Case | None
    following: Case | None = None
    doubted: bool = False
    """True when this net found a reason, of the kind that also holds for what goes on from it."""
    evidence: tuple[float, float, str] | None = None
    """What `evidence.evidence` found, once a look has asked for it."""
    # What every look asks, worked out once: no look changes the value.
    number: Number | None = field(init=False)
    """The first number of the value, None when it has none."""
    bare: bool = field(init=False)
    """True when no unit was said for this value."""
    shared: bool = field(init=False)
    """True when the unit was said for a neighbour in a list, and not right behind this number."""
    loose: bool = field(init=False)
    """True when no unit stands right behind the number."""

    def __post_init__(self) -> None:
        v = self.value
        # A reader may have taken a number that is kept out of the values, as the name of a thing.
        self.number = v.numbers[0] if v is not None and v.numbers else self.talk.number_at.get(self.start)
        self.bare = self.reading.unit_assumed and self.reading.state == "value"
        self.shared = (
            v is not None
            and v.quantity is not None
            and v.state == "value"
            and self.number is not None
            and v.end <= self.number.end
            and len(v.numbers) == 1
        )
        self.loose = self.bare or self.shared

    def before(self, count: int) -> list[str]:
        """Return up to so many words in front of the value, of its sentence."""
        return self.talk.words[max(self.low, self.start - count) : self.start]

    def after(self, count: int) -> list[str]:
        """Return up to so many words behind the value, of its sentence."""
        return self.talk.words[self.end : min(self.high, self.end + count)]

    def clause(self) -> tuple[int, int]:
        """Return the tokens between the marks around the value."""
        words = self.talk.words
        a, b = self.start, self.end
        while a > self.low and words[a - 1] not in CUTS:
            a -= 1
        while b < self.high and words[b] not in CUTS:
            b += 1
        return a, b

    def clause_before(self, count: int) -> list[str]:
        """Return the last words of the clause in front of the value."""
        a, _ = self.clause()
        return self.talk.words[max(a, self.start - count) : self.start]


def case_value(talk: Talk, reading: Reading, start: int, end: int) -> Value | None:
    """Return the value read at the tokens [start, end): the one with the reading's number, else the first."""
    best = None
    for v in talk.values_from(start - LONGEST, end):
        if v.end <= start:
            continue
        if best is None or (reading.value is not None and v.value == reading.value):
            best = v
    return best
