"""Do the words next to it speak of something else than was taken."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any

from dictate.mentions.doubts.evidence import by_itself, evidence, goes_on, of_test
from dictate.mentions.doubts.talk import CUTS, DIFFERENCES, Case, plain_unit, word_set
from dictate.mentions.machine_times import timed_by_event
from dictate.mentions.told_outright import is_told_outright
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


@cache
def _ambiguous() -> tuple[dict[str, Any], ...]:
    return tuple(table("plausible")["ambiguous"])


_DIFFERENCE_WORDS = frozenset(("split", "td", "delta", "difference", "drop", "rise"))


def difference_behind(c: Case) -> str | None:
    """Doubt a value whose own name stands right behind it: "subcool 10, 18 degree split"."""
    if c.reading.quantity not in {"superheat", "subcooling", "temperature"}:
        return None
    behind = [w for w in c.after(3) if w not in {"degree", "degrees"}][:1]
    if behind and behind[0] in _DIFFERENCE_WORDS:
        return f"{behind[0]!r} stands right behind it: it may be a difference of temperatures"
    return None


def bare_zero(c: Case) -> str | None:
    """Doubt a nought taken as amps with no unit: "it's zero on all three" is as well said of volts."""
    r = c.reading
    told = c.number is None or is_told_outright(c.talk.n, c.number.start)
    if (
        c.bare
        and not told
        and r.value == 0
        and r.quantity == "current"
        and not {"amps", "amp"} & set(c.before(4))
        and not {"clamp", "ammeter"} & {*c.before(4), *c.after(3)}
    ):
        return "no unit was said: a nought may be volts as well as amps"
    return None


def supply_of_what(c: Case) -> str | None:
    """Doubt a bare "supply" of the size of a mains voltage: warm supply air and volts are said alike."""
    r = c.reading
    if not c.bare or r.quantity != "temperature" or r.point != "supply" or r.value is None:
        return None
    if r.value < 105 or {"air", "duct", "register", "heat", "heating"} & (set(c.before(8)) | set(c.after(6))):
        return None
    return '"supply" may be the supply voltage, the unit was not said'


def other_words(c: Case) -> str | None:
    """Doubt a carried unit where the nearest words speak of another quantity."""
    r = c.reading
    if not c.bare or r.value is None:
        return None
    if r.quantity == "voltage" and by_itself(c):
        return None
    near = {*c.before(1)} | ({*c.before(4), *c.after(3)} & {"clamp", "ammeter"})
    if r.value == 0 and r.quantity == "current" and near & (word_list("values_draws") | {"clamp", "ammeter"}):
        return None  # "fan 3 takes nothing at all"
    own, other, what = evidence(c)
    if what.startswith("across") and r.quantity in DIFFERENCES:
        return None
    if other < own and other <= 5 and own > 3:
        return f"no unit was said and {what!r} beside it speaks of something else"
    previous = c.previous
    if previous is not None and _joined_to_other(c, previous):
        return 'no unit was said and it is joined by "and" to a value of another kind'
    if previous is not None and own > 2 and _close_to_other(c, previous):
        said = f"{previous.reading.value:g} {plain_unit(previous.reading.unit)}"
        return f"no unit was said and it is close to the {said} before it"
    if (r.quantity in {"pressure", "vacuum"} and goes_on(c, 0.15, 6.0)) or goes_on(c) or by_itself(c):
        return None
    if (
        (
            own > 30
            and previous is not None
            and previous.reading.quantity == r.quantity
            and previous.start < c.low
        )
        and r.quantity in {"temperature", "pressure"} | DIFFERENCES
        and not goes_on(c, 0.4, 2.5)
    ):
        return "no unit was said and nothing beside it says what it is of"
    if own > 30 and previous is not None:
        same = previous.reading.quantity == r.quantity
        distance = c.start - previous.end
        if not same and distance <= 25:
            return "no unit was said and nothing beside it says what it is of"
    return None


def _joined_to_other(c: Case, p: Case) -> bool:
    """Tell whether the value before, joined by "and", is of another quantity: "1.8 on one and 2.1 on ..."."""
    words = c.talk.words
    if p.reading.quantity == c.reading.quantity or words[c.start - 1] != "and" or c.start - p.end > 7:
        return False
    between = words[p.end : c.start - 1]
    if CUTS & set(between) or p.reading.state != "value" or p.start < c.low:
        return False
    named = c.talk.labels_from(c.end, c.end + 2) or c.talk.points_from(c.end, c.end + 2)
    return not named or between[:1] == c.after(1)


def _close_to_other(c: Case, p: Case) -> bool:
    """Tell whether the value before, of another quantity in the same breath, is nearly the same number."""
    a, b = p.reading.value, c.reading.value
    if not a or not b or p.reading.quantity == c.reading.quantity or p.reading.role == "retracted":
        return False
    near = c.start - p.end <= 9 and c.low <= p.start
    return near and abs(a) >= 5 and abs(a - b) <= 0.04 * abs(a)


def ambiguous_words(c: Case) -> str | None:
    """Doubt a carried unit where a word with two meanings stands near ([[ambiguous]] of plausible.toml)."""
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


def asked_by_verb(c: Case) -> str | None:
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
            "voltage" in x.component.measures for x in c.talk.components_from(c.end, c.end + 4)
        )
        if at and not {"ohms", "ohm", "ohmed"} & set(c.before(8)):
            return '"at" a part behind it speaks of volts'
        if {"getting", "gets"} & set(before) and r.quantity == "resistance":
            return '"getting" speaks of volts, and no unit was said'
    return None


def idle_time(c: Case) -> str | None:
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
    event = timed_by_event(c.talk.words, c.low, c.high, c.start, c.end)
    if r.point is None and alone and not event and not word_set("timed") & set(near):
        return "no test and no cycle is spoken of beside this time"
    return None


def _stands_in_test(c: Case) -> bool:
    """Tell whether a time stands between two levels of a test: "two twenty, waited ten minutes, 305"."""
    beside = (c.previous, c.following)
    return of_test(c) and all(
        x is not None and of_test(x) and max(x.start - c.end, c.start - x.end) <= 25 for x in beside
    )


def other_use(c: Case) -> str | None:
    """Doubt a time that the person spent, and inches that are a length."""
    r = c.reading
    if (
        r.quantity == "duration"
        and r.point in {None, "hold"}
        and not _stands_in_test(c)
        and not {"still", "held"} & set(c.after(4))
        and not c.bare
    ) and word_set("pause") & set(c.talk.words[max(c.low, c.start - 8) : min(c.high, c.end + 6)]):
        return "may be time that was waited or worked, not a time of the machine"
    if c.after(1) == ["out"] and c.talk.words[c.end - 1] == "ohms" and not c.bare:
        return '"ohms out" may be the verb and the number belong to the word before'
    if (
        r.unit == "inHg"
        and word_set("long") & set(c.after(5))
        and not {"vacuum", "mercury"} & set(c.before(6) + c.after(3))
    ):
        return "inches can be a length here"
    return None


def left_label(c: Case) -> str | None:
    """Doubt a value that took the label on its right that has a number of its own ("84 superheat 9.8")."""
    if not c.bare:
        return None
    talk = c.talk
    for label in talk.labels_from(c.end, c.end + 1):
        kind = label.label.quantity or label.label.default
        if kind != c.reading.quantity:
            continue
        if talk.number_at.get(label.end) is None:
            return None
        left = [x for x in talk.labels_from(c.low, c.start) if 0 <= c.start - x.end <= 2]
        if left and (left[-1].label.default or left[-1].label.quantity) not in {kind, None, "duration"}:
            said = talk.n.heard(left[-1].start, left[-1].end)
            return f"the words before it, {said!r}, fit as well as those after it"
    return None


def respectively(c: Case) -> str | None:
    """Doubt bare numbers that answer to several things named before ("box 48, suction 18, now 52 and 12")."""
    r = c.reading
    if not c.bare or r.quantity not in {"pressure", "temperature"} or evidence(c)[0] <= 8:
        return None
    kinds = {
        x.label.quantity or x.label.default
        for x in c.talk.labels_from(c.low, c.start)
        if not x.label.weak and (x.label.quantity or x.label.default)
    }
    if len(kinds) > 1 and ("and" in c.after(1) or "and" in c.before(1)):
        return "several things were named before, and this may be another one of them"
    return None
