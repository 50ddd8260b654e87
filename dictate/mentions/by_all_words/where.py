"""The component and the point of a value, and its stage, by all the words around it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from typing import cast

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.labels.named_components import components
from dictate.mentions.labels.named_points import find_points
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import words_of
from dictate.mentions.second_opinion import MEASURED, Told, told, told_of_words
from dictate.mentions.test_stretches import find_stretches, stretch_at
from dictate.mentions.told_outright import is_stage_told_outright
from dictate.mentions.whose.things import thing_at, things_of
from dictate.record.mentions import StageMention
from dictate.record.visit import Reading, Stage
from dictate.vocabulary.load import word_set

_LIKELY, _UNLIKELY = 0.5, 0.1
"""Another component or point is taken from the first share on, if what was taken has less than the second."""

_THING = {
    "voltage": 0.8, "current": 0.8, "resistance": 0.8, "capacitance": 0.8, "power": 0.8, "temperature": 0.95,
    "pressure": 0.95, "duration": 0.95, "speed": 0.8,
}  # fmt: skip
_POINT = {"temperature": 0.8, "pressure": 0.8, "voltage": 0.98, "resistance": 0.98}
"""The shares from which a component and a point are told where none was taken, by quantity.

Hardly a label says that a value has none, so that little was learned of that: amps would all be of a leg.
"""
_TOLD, _CERTAIN = 0.7, 0.93
"""The shares from which a stage is told where nothing else tells it, and against the order of the work."""
_OF_TESTS = frozenset({"pressure", "vacuum", "duration"})
_RUNNING = frozenset({"suction", "discharge"})
"""Where a pressure is read that is of no test, though the words of one stand shortly before it."""
_COLD_AIR = frozenset({"supply", "return", "box"})
_HARDLY_LABELLED = frozenset({"condenser air out"})
"""Points that the encoder has no name for: it can say of such a place only that it is another one."""
_WINDINGS = frozenset({"common-run", "common-start", "run-start"})
_PINS = frozenset({"common-ground", "run-ground", "start-ground"})
_CALLED = frozenset({"leg", "legs", "winding", "ground"})
_BESIDE = 2
"""Tokens between the name of a leg and its value: "leg B is 12"."""
_GAS_BEFORE = 12
_NO_STAGE = frozenset({"vacuum", "mass", "length", "level"})
"""What is not of the machine before or after the work."""


def _of_test_gas(narration: Narration, start: int) -> bool:
    """Tell whether the gas of a test is named in the words before: "put nitrogen in it. Fifty, one fifty"."""
    return not word_set("nitrogen_names").isdisjoint(narration.lowers[max(0, start - _GAS_BEFORE) : start])


def settle_where(narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int]) -> None:
    """Put the component and the point of readings right; `placed` gives the number of each."""
    components, points = told(narration, "component"), told(narration, "point")
    tests = find_stretches(narration)
    for i, start in placed.items():
        reading = readings[i]
        if start not in components:
            continue
        thing, place = components[start], points[start]
        if reading.quantity in _OF_TESTS and stretch_at(tests, start) is not None:
            # No label says where the level of a test was read, so that the encoder places none: what it does
            # place is told behind the test ("... vacuum, eight ounces in. Running, 44 and 245").
            running = reading.quantity == "pressure" and reading.point is None and place.best in _RUNNING
            if running and place.share > _CERTAIN and not _of_test_gas(narration, start):
                reading.point = place.best
            continue
        if (
            _is_other(thing, reading.component)
            and _enough(reading.component, thing, _THING.get(reading.quantity))
            and not _only_plainer(thing.best, reading.component)
            and not (reading.quantity == "current" and _named_beside(narration, start, reading.component))
        ):
            reading.component = thing.best or None
            if not thing.best:
                reading.which = None
        if _pair_beside(narration, start, reading.point) or _called(narration, start, reading.point):
            continue
        if (reading.point or "").startswith("saturated"):
            continue  # only its own words tell it: "saturated suction minus eight, suction line two"
        if _is_other(place, reading.point) and _enough(reading.point, place, _POINT.get(reading.quantity)):
            reading.point = place.best or None
        elif reading.point in _HARDLY_LABELLED and place.best in _COLD_AIR and place.share > _CERTAIN:
            reading.point = place.best if thing.best != "condenser coil" else reading.point
    _settle_others(narration, readings, placed)
    _sets_of_windings(readings)
    repaired: list[tuple[Reading, Reading]] = narration.found.get("repaired in place", [])
    for right, old in repaired:  # the words of the slip name what was read by mistake
        right.component, right.point, right.which = old.component, old.point, old.which


def _sets_of_windings(readings: Sequence[Reading]) -> None:
    """Give the windings of one set one part: what most of its pairs were taken for, in place.

    "Common to run forty-eight, common to start sixty-one, run to start a hundred and nine. None to earth."
    """
    row: list[Reading] = []
    for reading in (*readings, None):
        of_set = reading is not None and reading.quantity == "resistance" and reading.role == MEASURED
        pair = reading.point in _WINDINGS if of_set and reading else False
        ground = bool(of_set and reading and row and (reading.point or "").endswith("ground"))
        if reading is not None and (pair or ground) and all(r.point != reading.point for r in row):
            row.append(reading)
            continue
        _one_part(row)
        row = [reading] if reading is not None and pair else []


def _one_part(row: Sequence[Reading]) -> None:
    named = [r.component for r in row if r.point in _WINDINGS]
    most = max(named, key=named.count, default=None)
    if named.count(most) * 2 <= len(named):
        return
    which = next(r.which for r in row if r.component == most)
    agreed = len(set(named)) == 1
    for r in row:
        if r.component != most and (r.point in _PINS or not agreed):  # the fan's ground behind a compressor
            r.component, r.which = most, which


def _settle_others(narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int]) -> None:
    """Put the component right of what was said of several ("212 on all three") or without a number ("open").

    One number, or "nothing", says of several places nothing of any one of them; but all are on the same part.
    """
    numbers = told(narration, "component")
    words = told_of_words(narration).get("component", {})
    if not numbers and not words:
        return
    by_token = {t: read for place, read in words.items() for t in range(*place)}
    for i, reading in enumerate(readings):
        if i in placed or reading.role != MEASURED or reading.quantity not in _THING:
            continue
        said = [t for t in tokens_at(narration, reading.at) if t in numbers or t in by_token]
        own = {id(read): read for t in said if (read := by_token.get(t) or numbers.get(t)) is not None}
        if len(own) != 1:
            continue
        (read,) = own.values()
        if _is_other(read, reading.component) and read.share > _THING[reading.quantity]:
            reading.component = read.best or None
            reading.which = reading.which if read.best else None


def stages_told(
    narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int]
) -> list[StageMention]:
    """Return which measured values are of the machine as found and which as left."""
    stages = told(narration, "stage")
    return [
        StageMention(cast(Stage, read.best), read.share > _CERTAIN, readings[i].at)
        for i, start in placed.items()
        if (read := stages.get(start)) is not None
        and read.share > _TOLD
        and readings[i].role == MEASURED
        and readings[i].quantity not in _NO_STAGE
        and not is_stage_told_outright(narration, readings[i].at)
    ]


def _enough(taken: str | None, read: Told, least: float | None) -> bool:
    """Tell whether what is read may be told where nothing was taken."""
    return taken is not None or (least is not None and read.share > least)


_PAIRS = frozenset({"L1-L2", "L2-L3", "L1-L3"})
_LEGS = frozenset({"one", "two", "three", "1", "2", "3", "a", "b", "c"})


def _named_beside(narration: Narration, token: int, name: str | None) -> bool:
    """Tell whether the part is named in so many words right before the number: "indoor fan 0.3"."""
    words = words_of(narration)
    at = bisect_left(words.tokens, token)
    thing = thing_at(things_of(words), at - 1)
    return thing is not None and thing.name == name and not thing.generic and thing.end - thing.start > 1


def _pair_beside(narration: Narration, token: int, point: str | None) -> bool:
    """Tell whether the two legs are named in so many words right before the number: "one to two 198"."""
    if point not in _PAIRS:
        return False
    one, to, other = ["", "", "", *narration.lowers[max(0, token - 3) : token]][-3:]
    return to == "to" and one in _LEGS and other in _LEGS


def _called(narration: Narration, token: int, point: str | None) -> bool:
    """Tell whether a leg or a winding is named right before the number: "L1 11.2, L3 11.4, L2 12.1".

    The encoder has met legs in their order only, and would have them in it.
    """
    return point is not None and any(
        named.name == point and named.kind in _CALLED and 0 <= token - named.end <= _BESIDE
        for named in find_points(narration)
    )


def _only_plainer(name: str, taken: str | None) -> bool:
    """Tell whether a name is what plain "pump" means by itself, and the machine told which one it is.

    The encoder has met hardly any pump but those of water; on a glycol chiller it is another.
    """
    plain = components()["pump"]
    return name == plain.default and taken in plain.family and taken in plain.machines


def _is_other(read: Told, taken: str | None) -> bool:
    own = taken or ""
    return read.share > _LIKELY and read.best != own and own in read.names and read.of(own) < _UNLIKELY


__all__ = ["settle_where", "stages_told"]
