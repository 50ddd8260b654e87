"""What looks like a time of the work and is none: sides, pins, values, and what starts or stops by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import Clock, phrase_length
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.time_words import TimeWords

_PINS = frozenset(("one", "two", "three", "1", "2", "3"))
_SIDES = frozenset(("right", "side", "barrel", "head", "suction", "hopper", "coil", "fan", "bank"))
"""Words beside which what is "left" is a side of the machine."""
_LEFT_SET = frozenset(("point", "setpoint", "set", "stat", "thermostat", "control", "controller", "timer"))
_UP_TO = 12
_EARLIEST = 6  # no visit is said to begin at 'four hundred'


def no_time_of_day(row: tuple[str, ...], clock: Clock) -> bool:
    """Tell whether the words of a clock time are a count, a pronoun or a value by themselves.

    "Left one", "the four", "leaving at nineteen", "from one ninety", "began and four hundred" (but "four
    hundred hours").
    """
    before = row[clock.start - 1] if clock.start else ""
    if before == "left" and _SIDES & {
        *row[max(0, clock.start - 5) : clock.start - 1],
        *row[clock.end : clock.end + 7],
    }:
        return True  # "high side left one forty, right two twenty"
    if row[clock.end - 1] == "hundred" and 0 < clock.hour < _EARLIEST:
        return row[clock.end : clock.end + 1] != ("hours",) and row[clock.start] not in ("oh", "zero")
    if not clock.bare:
        return False
    if row[clock.end : clock.end + 1] and row[clock.end] in word_set("no_minutes", "labour"):
        return True
    if clock.hour > _UP_TO and row[clock.end - 1] not in word_set("named_hours", "labour"):
        return True
    if before == "the":
        return True
    spans = phrase_length(row, clock.end, "to")
    return row[clock.start] == "one" and not spans and before not in word_set("before_an_hour", "labour")


def between_terminals(row: tuple[str, ...], clock: Clock, span: Clock) -> bool:
    """Tell whether a span goes from pin to pin of a winding: "one to two, one point six"."""
    if row[clock.start] not in _PINS or row[span.start] not in _PINS or not (clock.bare and span.bare):
        return False
    k = span.end + (row[span.end : span.end + 1] in ((",",), ("is",), (":",), ("was",), ("reads",)))
    if k == span.end or k >= len(row):
        return False
    return row[k] in NUMBER_WORDS or row[k][:1].isdigit() or row[k] in word_set("read_of_pins", "labour")


def left_standing(near: tuple[str, ...]) -> bool:
    """Tell whether something was left under test in these words: "left that one from nine twenty"."""
    for k, w in enumerate(near[:-1]):
        if w in ("sat", "stood") or (
            w in ("left", "let", "kept", "leave") and near[k + 1] in word_set("left_under_test", "labour")
        ):
            return near[k + 2 : k + 3] not in (("was",), ("is",))  # "when I left it was three thirty"
    return False


def no_cue(talk: TimeWords, k: int, n: int, i: int, start: int) -> bool:
    """Tell whether a word for a start or an end is none here; it is the words [k - n, k), its time at i."""
    row = talk.row
    phrase = row[k - n : k]
    before = row[k - n - 1] if k - n > start else ""
    if before in word_set("of_no_person", "labour") and phrase[0] in word_set("by_themselves", "labour"):
        return not any(w in ("job", "work", "visit") for w in row[max(start, k - n - 3) : k - n])
    if phrase[0] == "left" and (
        before in word_set("before_a_side", "labour") or {"is", "'s"} & set(row[k:i])
    ):
        return True  # "the left is two forty"
    if phrase[0] == "left" and before in _LEFT_SET:
        return True  # "set point left at 3"
    if phrase[-1] == "leaving" and {"it", "that", "them"} & set(row[k:i]):
        return True  # "leaving it at nine and coming down"
    if phrase[0] == "away" and before in ("go", "goes", "went"):
        return not {"i", "we"} & set(row[max(start, k - n - 3) : k - n])  # "the foam would go away at 220"
    if phrase in (("start",), ("end",), ("finish",), ("stop",)):
        return before in word_set("before_a_noun", "labour")
    if phrase[-2:] in (("it", "'s"), ("it", "is")) or phrase[0] == "now":
        return not any(talk.near_start(c.start, start) for c in talk.read if c.kind == "start")
    if phrase == ("from",) and before in ("down", "drop", "dropped"):
        return True  # "fan speed nine hundred, down from fourteen hundred"
    if phrase == ("back", "at"):
        return before not in ("", ",", ".", "and", "then", "day")
    if phrase[-2:] == ("there", "for"):
        return before == "in" or row[i + 1 : i + 2] in ((".",), (",",))  # "the pins were in there for two."
    if phrase[0] in ("until", "till"):
        told = set(row[max(start, k - n - 6) : k - n])
        return not talk.started_in(start) and not told & word_set("stayed", "labour")
    return False
