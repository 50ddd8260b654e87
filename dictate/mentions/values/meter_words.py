"""Words that stand for a value on a meter: open circuits, nothing to ground, and zeros."""

from __future__ import annotations

import itertools
import re
from bisect import bisect_left

from dictate.mentions.narration import Narration
from dictate.mentions.values.control_chains import chain_noughts
from dictate.mentions.values.dead_legs import dead_legs
from dictate.mentions.values.dead_told import dead_told
from dictate.mentions.values.ohms_spoken import speaks_of_ohms
from dictate.mentions.values.ohms_told import ohms_told
from dictate.mentions.values.open_circuits import is_open
from dictate.mentions.values.row_states import row_states
from dictate.mentions.values.rows import full_stop
from dictate.mentions.values.said_in_turn import said_in_turn
from dictate.mentions.values.states_told import states_told
from dictate.mentions.values.value import Value
from dictate.mentions.values.zeros import is_zero
from dictate.mentions.word_lists import word_list


def _any(name: str) -> str:
    """Return a pattern for any phrase of a word list, the longest first."""
    return "(?:" + "|".join(sorted((re.escape(p) for p in word_list(name)), key=len, reverse=True)) + ")"


_OPEN = re.compile(_any("values_open"))
_GROUND = rf"(?:to|against) (?:{_any('values_ground_articles')} )?{_any('values_ground')}"
# From the shell to the pins: "nothing from the shell to any of the three pins", "shell to each pin, nothing".
_FROM_GROUND = (
    rf"(?:{_any('values_ground_articles')} )?"
    r"(?:shell|case|frame|housing|body|chassis|casing|ground|earth|can)"
    rf" (?:to|and|on|against)(?: {_any('values_pins_led')}){{0,5}} {_any('values_pins')}"
)
# Nothing on the meter to ground, however it is said, and in either order.
# Begun at whole words only: to try it at every letter takes four times as long.
_TO_GROUND = re.compile(
    rf"(?<!\S)(?:{_any('values_nothing')}(?: at all| whatsoever)?(?: going)? (?:from|between) {_FROM_GROUND}|"
    rf"(?:from|between|at|with) {_FROM_GROUND}(?: {_any('values_ground_between')})*?"
    rf" {_any('values_open_after_ground')}|"
    rf"{_any('values_nothing')}(?: {_any('values_nothing_between')}){{0,9}}? {_GROUND}"
    rf"|{_GROUND}(?: {_any('values_ground_between')})*? {_any('values_open_after_ground')}"
    r"|(?:grounds?|earth)(?: is| are| was| ,| :)? (?:clear|good|open)(?! wire)"
    r"|(?:shell|frame|casing|chassis|case)(?: is| was| ,| :)? clear(?! of)"
    rf"|{_any('values_no')} {_any('values_grounds')}(?! (?:wire|screw|rod|lug|strap|connection|bond))"
    rf"|{_any('values_not')} (?:shorted to |going to )?ground(?:ed)?)"
)
_ALONG = frozenset({"back", "up", "down", "out", "over", "through", "across", "around", "along"})
_THREE = re.compile(rf"\b{_any('values_three')}\b")
_TWO = re.compile(rf"\b{_any('values_two')}\b")
_AGAIN = re.compile(rf"(?: ,)? (?:and )?{_any('values_open_after_ground')}\b")
_SAID = 14  # words around within which it is told of how many, in talk without commas
_OFF_THE_SCALE = frozenset(
    ("over", "range", "over-range", "overrange", "ol", "infinite", "infinity", "limit", "continuity")
)
_PAIR = re.compile(r"\b(?:common|run|start|c|r|s) to (?:common|run|start|c|r|s)\b")
_PIN = re.compile(r"[tluvw][1-3]")
_SWITCHED_OFF = frozenset(
    ("disconnect", "isolator", "breaker", "breakers", "lock", "locked", "padlock", "isolated")
)
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


def _spelled(words: list[str], a: int, b: int) -> bool:
    """Tell whether the letters of a part number hold "o l": "part number O L F nine"."""
    led = {"number", "model", "part", "serial"} & set(words[max(0, a - 3) : a])
    goes_on = words[b : b + 1] and len(words[b]) == 1 and words[b].isalpha()
    return bool(led) or bool(goes_on and words[b] not in {"a", "i"})


def meter_words(narration: Narration) -> list[Value]:
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
        along = words[a] == "clear" and words[a + 1] in _ALONG and words[b - 1] not in {"earth", "ground"}
        if _stops_inside(words, a, b) or along:
            continue  # "the line sweating clear back to the can"
        if words[b - 1] in {"zero", "nothing", "nought"} and words[b : b + 1] in (["across"], ["between"]):
            continue  # "zero volts both legs to ground and | zero across"
        clause = _clause(narration, a, b)
        if _ground_is_wiring(words, a, b) or word_list("values_not_metered") & set(words[max(0, a - 2) : a]):
            continue
        said = " ".join(words[max(clause[0], a - _SAID) : min(clause[1], b + _SAID)]).replace("at all", "")
        tail = "" if words[b : b + 1] == ["."] else " ".join(words[b : b + 6]).partition(" .")[0]
        far = " ".join(words[b : b + 9]).partition(" .")[0]
        if _dead_test(words, a, b):
            value = Value(a, b, 0.0, state="zero")
            value.points = ("ground",) * (2 if _TWO.search(said) or _TWO.search(tail) else 1)
            if any(p in said for p in ("to each other", "leg to leg", "line to line", "phase to phase")):
                value.points += ("L1-L2",)
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
        if times == 2 and _THREE.match(" ".join(words[b : b + 5]).removeprefix("on ")):
            times = 3  # "nothing to the shell, OL on all three"
        if times == 3 or (
            times == 1 and (_THREE.search(said) or _THREE.search(tail) or "one of the three" in far)
        ):
            value.points = ("common-ground", "run-ground", "start-ground")
        elif pins := _pins_named(words, a, b):
            value.points, value.pins = pins, True
        elif times == 2 or _TWO.search(said) or _TWO.search(tail):
            value.points = ("ground", "ground")
        else:
            value.points = ("ground",) * _counted(words, clause[0], a, b)
        out.append(value)
        taken.update(range(a, b))
    for match in _OPEN.finditer(text):
        found = span(match)
        if found is None or not taken.isdisjoint(range(*found)):
            continue
        a, b = found
        before = next((v for v in reversed(out) if v.state == "open" and not v.ground and v.end <= a), None)
        gap = words[before.end : a] if before is not None else []
        if before is not None and len(gap) <= 5 and not {".", "and", "to"} & set(gap) and not _another(gap):
            before.end = b  # "open, OL": said twice
            continue
        ground = next((v for v in reversed(out) if v.ground and v.end <= a), None)
        if ground is not None and len(ground.points) == 3 and a - ground.end <= 6:
            tail = " ".join(words[b : b + 6])
            if not full_stop(words, ground.end, a) and _THREE.search(tail.partition(" .")[0]):
                ground.end = b  # "none of them went to the shell, I checked, infinity on every lead"
                continue
        if before is not None and words[a - 1] in {"burnt", "burned"} and "." not in words[before.end : a]:
            continue  # "ohms at open, nothing through it, so it's burned open"
        if words[a:b] == ["o", "l"] and _spelled(words, a, b):
            continue
        if (
            words[a:b] == ["ol"]
            and words[a - 1] in word_list("values_old")
            and not full_stop(words, a, b + 1)
        ):
            continue  # "the poor ol fan motor"
        if is_open(narration, words, a, b):
            out.append(Value(a, b, 0.0, state="open"))
            taken.update(range(a, b))
    out += ohms_told(narration, words, out, taken)
    for match in _ZERO.finditer(text):
        found = span(match)
        if found is None or not taken.isdisjoint(range(*found)):
            continue
        a, b = found
        gone = words[b : b + 1] in (["through"], ["thru"], ["going"]) or words[b : b + 2] == ["on", "it"]
        if any(
            v.state == "open"
            and (0 <= a - v.end <= 3 if gone else 0 <= a - v.end <= 1)
            and (gone or "," not in words[v.end : a])
            for v in out
        ):
            continue  # "ohms at open, nothing through it": the same meter, said again
        if is_zero(narration, words, a, b):
            out.append(Value(a, b, 0.0, state="zero"))
            taken.update(range(a, b))
    out += states_told(narration, words, taken)
    out += row_states(narration, words, taken)
    out = said_in_turn(narration, words, out, taken)
    out += dead_told(words, out, taken)
    out += dead_legs(words, taken)
    for a, b in chain_noughts(narration):
        if taken.isdisjoint(range(a, b)) and not any(v.start < b and a < v.end for v in out):
            out.append(Value(a, b, 0.0, state="zero"))
    return out


def _another(words: list[str]) -> bool:
    """Tell whether words name another one of a row: "middle one open, bottom one | open"."""
    names = word_list("values_row_names") | word_list("readings_sides")
    return any(w in names or w.isdigit() or _PIN.fullmatch(w) for w in words)


_PINS = {"common": "common-ground", "run": "run-ground", "start": "start-ground"}
_PINS |= {"c": "common-ground", "r": "run-ground", "s": "start-ground"}


def _pins_named(words: list[str], a: int, b: int) -> tuple[str, ...]:
    """Return the pins of "nothing to ground | from common, run or start"."""
    for begin, step in ((b, 1), (a - 1, -1)):
        found: list[str] = []
        i = begin
        while 0 <= i < len(words) and abs(i - begin) < 12:
            word = words[i]
            if word in _PINS and word not in found:
                found.append(word)
            elif word not in word_list("values_pin_links"):
                break
            i += step
        pins = [p for w, p in _PINS.items() if w in found]
        if len(pins) >= 2 and len({len(w) for w in found} & {1}) in {0, 1}:
            return tuple(dict.fromkeys(pins))
    return ()


def _counted(words: list[str], first: int, a: int, b: int) -> int:
    """Return of how many "not a one of the five", "1 and 3 clear to earth" tell; 0 where it is not said."""
    counts = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "2": 2, "3": 3, "4": 4, "5": 5, "6": 6}
    inside = words[first : b + 6]
    for i, w in enumerate(inside[:-2]):
        if w in {".", "?", "!", ";"} and first + i >= b:
            break
        if (
            w == "of"
            and inside[i + 1] == "the"
            and inside[i + 2] in counts
            and "one" in inside[max(0, i - 1) : i]
        ):
            return counts[inside[i + 2]]
    names = word_list("row_states_firsts") | word_list("row_states_names") - {"and"}
    for span in (words[first:a], words[b : b + 7]):
        row = [w for w in span if w not in {"the", "heater", "element", "number", "from", "on", "for"}]
        for i in range(1, len(row) - 1):
            named = row[i - 1] in names or row[i - 1].isdigit()
            other = row[i + 1] in names or row[i + 1].isdigit()
            if row[i] in {"and", "or"} and named and other:
                return 2
    return 0


def _legs_named(said: list[str]) -> bool:
    """Tell whether the legs of a supply were tried: "leg to leg and each leg to ground", "L1 to ground"."""
    legs = word_list("states_legs") | {"l1", "l2", "l3"}
    across = {"across", "between"}
    return any(
        w in legs and (said[i + 1 : i + 2] == ["to"] or not across.isdisjoint(said[max(0, i - 2) : i]))
        for i, w in enumerate(said)
    )


def _dead_test(words: list[str], a: int, b: int) -> bool:
    """Tell whether "nothing to ground" was said of volts: the proof that a circuit is dead."""
    first = a
    while first > 0 and words[first - 1] not in {".", "?", "!"} and a - first < 30:
        first -= 1
    before, inside = set(words[first:a]), set(words[a:b])
    far = words[max(0, a - 30) : a]
    if _legs_named(words[first:b]):  # what was spoken of before it was switched off is another matter
        far = far[max((i for i, w in enumerate(far) if w in _SWITCHED_OFF), default=0) :]
    if not _OFF_THE_SCALE.isdisjoint(inside):
        return False  # "reads over range to the shell": no voltmeter says so
    denied = {words[i + 1] for i in range(first, a - 1) if words[i] in {"no", "zero"}}
    if denied & {"voltage", "volts", "potential"} and not word_list("values_ohms_talk") & before:
        return True  # "no voltage between the three phases and none to earth"
    if _legs_named(words[first:a]) and not word_list("values_dead_off").isdisjoint(far):
        parts = word_list("values_dead_others") | {"heater", "element", "elements", "coil"}
        if not speaks_of_ohms([w for w in far if w not in parts]):
            return True  # "breaker off, on the heater nil leg to leg and nil to ground"
    if speaks_of_ohms(words[first:a]) or word_list("values_ohms_talk") & inside:
        return False
    if _PAIR.search(" ".join(words[max(0, a - 16) : a])):
        return False  # "run to start 11.5 nothing to the shell"
    if speaks_of_ohms(far):
        return False
    if _legs_named(words[first:b]) and not word_list("values_dead_off").isdisjoint(far):
        return True
    meter = {"voltmeter", "volts", "voltage", "tester"} & set(words[b : b + 4])
    return bool(meter or word_list("values_dead_test") & before)


def _stops_inside(words: list[str], a: int, b: int) -> bool:
    return any(w in {".", ";", "?", "!"} for w in words[a:b])


def _ground_is_wiring(words: list[str], a: int, b: int) -> bool:
    near = words[max(0, a - 4) : b + 3]
    return bool(word_list("values_ground_is_wiring") & set(near[-3:]))
