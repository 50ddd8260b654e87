"""Where a value was read when nobody says it: the usual place on a thing, and the air in a cold box.

    settle_points(found, words, labels, components)

A voltage at a plug, a cord, a disconnect or a contactor is of the line side unless the load is said; a
transformer is fed at its primary and gives from its secondary; a display or a thermometer without a place
shows the box. Only values without a point get one, after the doubts: a place that was not said proves
nothing. `labels` are those of the narration by their first token. All common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.labels import ComponentAt, LabelAt
from dictate.mentions.labels.windings import pair_of_words
from dictate.mentions.places.across_filters import across_filters
from dictate.mentions.places.across_things import across_things
from dictate.mentions.places.boxes import has_box
from dictate.mentions.places.coils_and_defrosts import coils_and_defrosts
from dictate.mentions.places.default_grounds import settle_grounds
from dictate.mentions.places.default_legs import settle_legs
from dictate.mentions.places.filter_drops import filter_drops
from dictate.mentions.places.looked_up import looked_up
from dictate.mentions.places.ohms_go_on import ohms_go_on
from dictate.mentions.places.pins_to_ground import settle_pins
from dictate.mentions.places.possible_points import legs_to_ground, possible_points
from dictate.mentions.places.pump_sides import pump_sides
from dictate.mentions.places.rows_again import later_pairs, repeat_place, repeat_places
from dictate.mentions.places.terminals_told import capacitor_sides, thermostat_pairs, windings_by_sum
from dictate.mentions.places.told_around import told_around
from dictate.mentions.places.told_behind import told_behind
from dictate.mentions.places.told_by_sides import told_by_sides
from dictate.mentions.places.told_electric import told_electric
from dictate.mentions.places.told_frames import told_frames
from dictate.mentions.places.told_parts import told_parts
from dictate.mentions.places.told_places import told_places
from dictate.mentions.places.told_static import told_static
from dictate.mentions.places.told_supplies import told_supplies
from dictate.mentions.places.top_and_bottom import top_and_bottom
from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import word_set

_LIVE = 90.0
"""Volts above which a voltage is one of the supply."""
_WINDINGS = {
    "run": "common-run",
    "main": "common-run",
    "start": "common-start",
    "aux": "common-start",
    "auxiliary": "common-start",
}
_DRIERS = ("filter drier", "suction drier")
_SIDES_OF_A_PART = ("inlet", "outlet")
_AT_DRIER = 8
"""Words around a pressure of which one says that it was read at the drier."""
_CONTROL = 60.0
"""Volts below which a voltage is one of a control circuit."""


def settle_points(
    found: Found, words: Sequence[str], labels: dict[int, LabelAt], components: Sequence[ComponentAt] = ()
) -> None:
    """Give the values without a point the usual one of the thing, in place."""
    possible_points(found)
    legs_to_ground(found)
    _windings(found, words)
    _windings_again(found)
    windings_by_sum(found)
    thermostat_pairs(found, words)
    capacitor_sides(found)
    settle_legs(found, words)
    settle_grounds(found, words)
    _other_gauge(found, words)
    _low_and_high(found, words)
    repeat_places(found, words)
    later_pairs(found, words)
    repeat_place(found, words)
    told_places(found, words, labels)
    told_frames(found, words, labels)
    told_parts(found, words, components)
    told_around(found, words, components)
    told_electric(found, words, components)
    windings_by_sum(found)  # those that were just found to be a motor's
    told_supplies(found, words, components)
    told_behind(found, words)
    looked_up(found, words)
    across_filters(found, words, components)
    across_things(found, words, components)
    filter_drops(found, words)
    pump_sides(found, words, components)
    coils_and_defrosts(found, words, components)
    ohms_go_on(found, words, components)
    settle_pins(found, words)
    _cold_vapor(found)
    told_by_sides(found, words)
    told_static(found, words)
    top_and_bottom(found, words)
    _not_the_driers(found, words)
    for i, t in enumerate(found.readings):
        r = t.reading
        before = found.readings[i - 1] if i else None
        if r.point is not None or r.state != "value" or r.value is None or r.derived:
            continue
        clause = _clause(t, found, i, words)
        if r.quantity == "voltage":
            if r.component == "transformer":
                r.point = _winding(r.value, clause)
            elif r.value >= _LIVE and r.component == "contactor" and _side(clause):
                r.point = _side(clause)
            elif r.value >= _LIVE and (
                r.component in word_list("default_points_fed")
                or (
                    r.component is None
                    and _supply(clause, before, t, words)
                    and not _of_legs(found, i, words)
                )
                or (r.component is None and _alone(t, found, i) and _of_nothing_else(clause))
            ):
                r.point = "line"
            elif r.component == "contactor" and not r.which and not _row(t, found):
                r.point = "line" if r.value >= _LIVE else "coil" if r.value >= 18 else None
        elif r.quantity == "resistance" and r.component == "contactor" and r.value >= 4:
            r.point = "coil"
        elif r.quantity == "temperature" and (r.component is None or r.component == "temperature controller"):
            r.point = _air(t, clause, before, words)


def _not_the_driers(found: Found, words: Sequence[str]) -> None:
    """Take the drier off a pressure that was not read at it: "a new drier, ten bar of nitrogen on her"."""
    for t in found.readings:
        r = t.reading
        if r.quantity != "pressure" or r.derived or r.component not in _DRIERS:
            continue
        near = words[max(0, t.start - _AT_DRIER) : t.end + _AT_DRIER]
        if not word_list("at_a_drier") & set(near) or word_set("nitrogen_names") & set(near):
            r.component = None
            r.point = None if r.point in _SIDES_OF_A_PART else r.point


def _supply(clause: Sequence[str], before: Taken | None, t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a voltage is the supply's: "line voltage, two twelve", "supply 238, sags to 231"."""
    front = clause[: clause.index("|")]
    said = word_list("default_points_supplies") & set(front)
    if said and ({"voltage", "volts", "power"} & set(front) or bool(set(front[-1:]) & said)):
        return True
    last = before.reading if before is not None and before.sentence == t.sentence else None
    return (
        last is not None
        and last.point == "line"
        and last.component is None
        and ("sags" in front or _under_load(t, words))
    )


def _side(clause: Sequence[str]) -> str | None:
    """Return the side of a contactor that a voltage goes in or comes out at: "241 coming into it"."""
    behind = " ".join(clause[clause.index("|") + 1 :]) + " "
    if behind.startswith(tuple(f"{p} " for p in word_list("default_points_into"))):
        return "line"
    return "load" if behind.startswith(tuple(f"{p} " for p in word_list("default_points_out_of"))) else None


def _alone(t: Taken, found: Found, i: int) -> bool:
    """Tell whether a voltage stands alone, neither in a row nor beside another of its sentence."""
    return t.reading.role == "measured" and not any(
        x.reading.quantity == "voltage" and x.sentence == t.sentence and x.reading.role != "retracted"
        for x in (*found.readings[max(0, i - 3) : i], *found.readings[i + 1 : i + 4])
    )


def _of_nothing_else(clause: Sequence[str]) -> bool:
    """Tell whether nothing beside a voltage says that it was read on a part or a wire."""
    return not word_list("default_points_on_a_part") & set(clause)


def _of_legs(found: Found, i: int, words: Sequence[str]) -> bool:
    """Tell whether a voltage is the first of several in a row: those are between the legs."""
    t, after = found.readings[i], found.readings[i + 1 : i + 2]
    return bool(after) and (
        after[0].reading.quantity == "voltage"
        and after[0].start - t.end < 9
        and set(words[t.end : after[0].start]) <= {",", "and", "volts", "even", "then", "by", "/"}
        and not _under_load(after[0], words)
    )


def _under_load(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a voltage is the supply's once the machine runs: "241, 238 with it running"."""
    return bool(word_list("default_points_loaded") & set(words[t.end : t.end + 4]))


def _row(t: Taken, found: Found) -> bool:
    """Tell whether a voltage is one of a row on a contactor of which others were told by leg or side."""
    return any(
        x is not t
        and x.reading.quantity == "voltage"
        and x.reading.component == t.reading.component
        and (x.reading.point or "l")[0] in "lL"
        and x.reading.point not in {None, "line"}
        and not (x.reading.point == "load" and x.start > t.start)  # "208 at the contactor, load side 207"
        and (x.reading.value or 0) <= 3 * (t.reading.value or 0)
        and abs(x.sentence - t.sentence) <= 1
        and abs(x.start - t.start) <= 40
        for x in found.readings
    )


def _clause(t: Taken, found: Found, i: int, words: Sequence[str]) -> list[str]:
    """Return the words between the value before and a value, and some behind it, within the sentence."""
    begin = max(0, t.start - 14, found.readings[i - 1].end if i else 0)
    ends = [k for k in range(begin, t.start) if words[k] in {".", "?", "!", ";"}]
    stop = t.end
    while stop < len(words) and stop - t.end < 5 and words[stop] not in {".", "?", "!", ";", ",", "and"}:
        stop += 1
    return [*words[(ends[-1] + 1 if ends else begin) : t.start], "|", *words[t.end : stop]]


def _winding(value: float, clause: Sequence[str]) -> str | None:
    """Return the winding of a transformer that a voltage was read on."""
    said = set(clause)
    if value == 0:
        return "secondary" if {"out", "leaving"} & said else "primary" if {"in", "into"} & said else None
    if value < _CONTROL:
        return "secondary"
    return "secondary" if {"out", "leaving", "output"} & said and not {"in", "into"} & said else "primary"


def _air(t: Taken, clause: Sequence[str], before: Taken | None, words: Sequence[str]) -> str | None:
    """Return "box" for what a display, a thermometer or a shelf shows, None when it is of something else."""
    if t.reading.role not in {"measured", "earlier"}:
        return None
    said = set(clause)
    if said & word_list("default_points_elsewhere"):
        return None
    if said & word_list("default_points_box"):
        return "box"
    if _weather(t, words):
        return "ambient"
    front = [w for w in clause[: clause.index("|")] if w not in {"is", "'s", "was", "at"}]
    if has_box(words) and front[-1:] and front[-1] in word_list("default_points_compartments"):
        return "box"
    if _sits(clause) and has_box(words):
        return "box"
    if before is not None and before.reading.quantity == "temperature" and before.reading.point == "box":
        gap = words[before.end : t.start]
        if len(gap) <= 8 and "." not in gap and set(gap) <= word_list("default_points_goes_on"):
            return "box"
    return None


def _weather(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a temperature is all of a sentence where the talk is outdoors: "On the roof. 94."."""
    r = t.reading
    warm = (r.value or 0) >= (15 if r.unit == "degC" else 59)
    if not warm or r.review:
        return False
    first, last = t.start, t.end
    while first > 0 and words[first - 1] not in {".", "?", "!"} and t.start - first < 8:
        first -= 1
    while last < len(words) and words[last] not in {".", "?", "!"} and last - t.end < 8:
        last += 1
    rest = [w for w in (*words[first : t.start], *words[t.end : last]) if w != ","]
    if not set(rest) <= word_list("default_points_weather"):
        return False
    if "out" in rest or first == 0:
        return True
    return bool(word_list("default_points_outdoors") & set(words[max(0, first - 24) : first]))


def _sits(clause: Sequence[str]) -> bool:
    """Tell whether the machine itself is said to be at a temperature: "she stays at 14"."""
    front = list(clause[: clause.index("|")])
    while front and front[-1] in word_list("default_points_numeral_leads"):
        front.pop()
    if len(front) < 2 or front[-1] not in word_list("default_points_sits"):
        return False
    return bool(word_list("default_points_it") & set(front[-4:]))


def _windings(found: Found, words: Sequence[str]) -> None:
    """Name the ends between which one winding, or both in a row, were read ("main is 14, start 22")."""
    ends = {"run": "common-run", "start": "common-start"}
    pairs = {"common-run", "common-start"}
    for i, t in enumerate(found.readings):
        r = t.reading
        if r.quantity != "resistance":
            continue
        named_behind = _winding_behind(t, words)
        if named_behind and r.point in {None, "run-start", *pairs, *ends} and (r.value or 0) < 1000:
            r.point = named_behind
            continue
        if r.point in ends and (r.value or 0) < 1000:
            r.point = ends[r.point]
            continue
        begin = max(t.start - 3, found.readings[i - 1].end if i else 0, 0)
        lead = [
            w
            for w in words[begin : t.start]
            if w not in {"is", "'s", "was", "at", "the", "reads", "read", "winding"}
        ]
        named = word_list("default_points_winding_alone")
        wound = r.component is None and {"windings", "winding"} & set(words[max(0, t.start - 12) : t.start])
        if (
            r.point is None
            and (wound or r.component in word_list("readings_motors"))
            and (r.value or 0) < 1000
        ):
            word = lead[-1].removesuffix("'s") if lead else ""
            behind = [w for w in words[t.end : t.end + 5] if w not in {"ohm", "ohms", "the"}]
            if behind[:1] == ["on"] and (word == "," or not lead or lead[-1] in {".", "and"}):
                word = behind[1] if behind[1:] else ""
            elif (
                behind[:1]
                and behind[0] in {"main", "start", "aux", "run"}
                and behind[1:2] in ([","], ["."], ["and"], [])
            ):
                word = behind[0]
            r.point = "common-run" if word in {"main", "run"} else "common-start" if word in named else None
        kept = [x for x in found.readings[max(0, i - 6) : i] if x.reading.role != "retracted"]
        if r.point in pairs | {None} and len(kept) >= 2:
            said = " ".join(
                [
                    *words[max(t.start - 6, found.readings[i - 1].end) : t.start],
                    "|",
                    *words[t.end : t.end + 4],
                ]
            )
            before = {x.reading.point for x in kept[-2:]}
            over = [w for w in words[t.end : t.end + 3] if w not in {"ohm", "ohms"}]
            if before == pairs and (
                any(p in said for p in word_list("default_points_both_windings"))
                or (over[:1] == ["across"] and over[1:2] in ([], [","], ["."], ["and"], [";"]))
            ):
                r.point = "run-start"


def _winding_behind(t: Taken, words: Sequence[str]) -> str | None:
    """Return the ends of the winding that is named right behind its ohms: "42 on the run, 58 the start"."""
    behind = [w for w in words[t.end : t.end + 5] if w not in {"ohm", "ohms"}]
    led = behind[:1] in (["on"], ["for"], ["the"])
    while behind[:1] in (["on"], ["for"], ["the"]):
        behind = behind[1:]
    told = led and behind[1:2] in ([","], ["."], ["and"], ["winding"], [])
    return _WINDINGS.get(behind[0]) if told and behind else _pair_behind(t, words)


def _pair_behind(t: Taken, words: Sequence[str]) -> str | None:
    """Return the pair of windings that ends the words of a value: "four even across run and start"."""
    k = t.end
    while k < min(len(words), t.end + 4) and words[k] in word_list("windings_led"):
        k += 1
    behind = list(words[k : k + 4])
    if len(behind) < 3 or behind[1] not in ("to", "and") or behind[3:4] not in ([","], ["."], [";"], []):
        return None
    return pair_of_words(behind[0], behind[2])


def _cold_vapor(found: Found) -> None:
    """Call the vapor line of a cooling machine its suction line: in heating it is hotter than any room."""
    for t in found.readings:
        r = t.reading
        if r.point == "vapor" and r.quantity == "temperature" and r.value is not None:
            r.point = "suction" if r.value < _COLD_VAPOR.get(r.unit or "", 0) else r.point


_COLD_VAPOR = {"degF": 75.0, "degC": 24.0}
"""Temperatures below which a vapor line is on its way to the compressor; common practice."""


def _windings_again(found: Found) -> None:
    """Give three ohms or opens in a row the windings of the row before: "still OL, OL and 11.8"."""
    ohms = [t for t in found.readings if t.reading.quantity == "resistance" and t.reading.role == "measured"]
    pairs = {"common-run", "common-start", "run-start"}
    for i in range(3, len(ohms) - 2):
        row, before = ohms[i : i + 3], ohms[i - 3 : i]
        if any(t.reading.point for t in row) or {t.reading.point for t in before} != pairs:
            continue
        close = all(b.sentence == a.sentence and b.start - a.end <= 4 for a, b in pairwise(row))
        if not close or row[0].start - before[-1].end > 90:
            continue
        if not any(t.reading.state == "open" for t in row):
            largest, *rest = sorted((t.reading.value or 0 for t in row), reverse=True)
            if abs(largest - sum(rest)) > max(0.5, 0.12 * largest):
                continue
        elif [t.reading.state for t in row] != [t.reading.state for t in before]:
            continue
        for t, same in zip(row, before, strict=True):
            t.reading.point, t.reading.component = same.reading.point, same.reading.component


def _low_and_high(found: Found, words: Sequence[str]) -> None:
    """Name the sides of "nine psi low and one forty high": the side stands right behind the value."""
    sides = {"low": "suction", "high": "discharge", "suction": "suction", "head": "discharge"}
    pressures = [t for t in found.readings if t.reading.quantity == "pressure"]
    told = []
    for t in pressures:
        at = t.end + (words[t.end : t.end + 1] in (["psi"], ["bar"], ["pounds"], ["kpa"], ["psig"]))
        side = sides.get(words[at]) if at < len(words) else None
        after = words[at + 1] if at + 1 < len(words) else "."
        told.append(side if after in {".", ",", "and", ";", "with", "over"} else None)
    for i, (a, b) in enumerate(pairwise(pressures)):
        if told[i] and told[i + 1] and told[i] != told[i + 1] and b.start - a.end <= 6:
            a.reading.point, b.reading.point = told[i], told[i + 1]
            a.reading.component = b.reading.component = None


def _other_gauge(found: Found, words: Sequence[str]) -> None:
    """Name the side of a pressure beside one of the other side: "355 with 128 on the suction"."""
    for a, b in pairwise(found.readings):
        pair = (a.reading, b.reading)
        if any(r.quantity != "pressure" or r.role != "measured" or not r.value for r in pair):
            continue
        if (
            b.start - a.end > 8
            or {".", ";", "nitrogen", "temp"} & set(words[a.end : b.start])
            or a.reading.unit != b.reading.unit
        ):
            continue
        for one, other in (pair, pair[::-1]):
            if (
                one.point is not None
                or one.component is not None
                or other.point not in {"suction", "discharge"}
            ):
                continue
            ratio = (one.value or 0) / (other.value or 1)
            if other.point == "suction" and ratio >= 1.8:
                one.point = "discharge"
            elif other.point == "discharge" and ratio <= 0.55:
                one.point = "suction"
