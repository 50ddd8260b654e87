"""Numbers that are a time of day, by their shape and by the words around them."""

from __future__ import annotations

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.not_values.around import excluding, sentence_around
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list


def clock_like(number: Number) -> bool:
    """Tell whether a bare number has the shape of a clock time: 9, nine fifteen, 915, 10 40."""
    value = number.value
    if not value.is_integer() or number.places or number.negative:
        return False
    if 1 <= value <= 12:
        return True
    return 100 <= value <= 2359 and value % 100 < 60 and (number.form in {"pair", "digits"} or number.written)


def is_clock(narration: Narration, number: Number) -> bool:
    """Tell whether the words around a number make it a time of day."""
    if _time_pair(narration, number):
        return True
    if not clock_like(number):
        return False
    tokens = narration.tokens
    last3 = [t.lower for t in tokens[max(0, number.start - 3) : number.start]]
    if last3 in (["left", "it", "at"], ["leaving", "it", "at"], ["left", "her", "at"]):
        return False
    if last3[1:] == ["out", "at"] and last3[0] in {
        "works",
        "worked",
        "work",
        "figures",
        "figured",
        "comes",
        "came",
    }:
        return False  # "superheat works out at six"
    after = [t.lower for t in tokens[number.end : number.end + 4]]
    if after[:1] and after[0] in {"am", "pm", "o'clock", "oclock"}:
        return True
    if after[:2] in (["a", "m"], ["p", "m"], ["in", "the"]) and (
        after[0] != "in" or (after[2:3] and after[2] in {"morning", "afternoon", "evening"})
    ):
        return True
    if after[:1] == ["this"] and after[1:2] and after[1] in {"morning", "afternoon", "evening"}:
        return True
    before = [t.lower for t in tokens[max(0, number.start - 6) : number.start]]
    text = " ".join(before)
    if " ".join(before[-2:]) in word_list("not_values_past_the_hour") and number.value <= 12:
        return True
    if (
        after[:1] == ["past"]
        and number.value <= 30
        and any(n.start == number.end + 1 for n in find_numbers(narration))
    ):
        return True  # "at ten past two"
    if before[-1:] == ["at"] and (
        _flows(before, narration.lowers[max(0, number.start - 12) : number.start])
        or _thing_came_in(narration, number.start)
    ):
        return False
    verbs = excluding("clock")
    if (
        number.start > 1
        and before[-1:]
        and before[-1] in {"at", "by", "until", "till"}
        and number.value >= 100
        and number.form == "pair"
    ) and any(n.end == number.start - 1 for n in find_numbers(narration)):
        return True  # "480 at eleven thirty"
    if before[-1:] == ["at"] and number.written and len(tokens[number.start].lower) == 4:
        return True
    if (
        before[-2:] in (["on", "at"], ["off", "at"], ["restarted", "at"], ["down", "at"], ["running", "at"])
        and number.value >= 100
        and number.form == "pair"
    ):
        return True
    if before[-1:] == ["at"] and number.value >= 100 and _another_time(narration, number):
        return True
    if before[-1:] and before[-1] in word_list("not_values_is_clock_2"):
        moves = word_list("not_values_is_clock") & {
            t.lower for t in tokens[max(0, number.start - 10) : number.start]
        }
        cues = [w for w in verbs if (" " in w and f" {w} " in f" {text} ") or w in before]
        cues = [
            w
            for w in cues
            if w not in {"in at", "out at", "off at", "opens at", "closes at"}
            or not (moves & set(before) or _SETS & moves or _of_a_control(narration, number, w))
        ]
        if cues:
            return True
    return _time_range(narration, number)


_SETS = frozenset(("set", "cut", "cuts", "cutting"))
"""Words of a control that hold for both its figures: "set for in at thirty, out at twelve"."""


_WE = frozenset(("i", "i'm", "we", "we're", "signed", "checked", "shop", "store", "site"))
_BY_ITSELF = frozenset(("opens at", "closes at"))
"""What a control does, and a shop: of these the sentence before may name the control as well."""


def _of_a_control(narration: Narration, number: Number, cue: str) -> bool:
    """Tell whether a control acts at such a number: "low pressure switch opens at twelve", "..., out at ten".

    The control is named in the sentence, or its cut-in is spoken of there.
    """
    start = number.start
    if not 1 <= number.value <= _HOURS:
        return False
    first, _ = sentence_around(narration.tokens, start)
    said = narration.lowers[first:start]
    if cue in _BY_ITSELF:
        first, _ = sentence_around(narration.tokens, max(0, first - 2))
    named = any(c.component.sets and first <= c.start < start for c in find_components(narration))
    return (named or not _SETS.isdisjoint(said)) and _WE.isdisjoint(said[-_NEAR_US:])


_HOURS = 12
_NEAR_US = 6
"""Words before a number among which who works is named: "signed in at eight, out at ten"."""


def _flows(before: list[str], lead: list[str]) -> bool:
    """Tell whether what goes in and out is a medium: "glycol going out at -2, coming back | at 3"."""
    ways = before[-3:-1]
    if not ways or ways[-1] not in {"back", "out", "in", "leaving", "entering", "returning", "off", "on"}:
        return False
    if ways[0] in {"coming", "comes", "going", "goes", "returns", "runs"}:
        return True  # nobody says of himself that he comes back at three in a report
    if any(w in word_list("not_values_mediums") for w in before[-5:-1]):
        return True
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", "?", "!"}), default=-1) + 1 :]
    other = {"in": "out", "out": "in", "on": "off", "off": "on", "leaving": "entering", "entering": "leaving"}
    # "chilled water in at thirteen, out | at nine"
    return other.get(ways[-1]) in lead and any(w in word_list("not_values_mediums") for w in lead)


def _thing_came_in(narration: Narration, start: int) -> bool:
    """Tell whether a part came in at its value: "the replacement came in at one oh six"."""
    words = narration.lowers
    if words[start - 3 : start] not in (["came", "in", "at"], ["comes", "in", "at"], ["come", "in", "at"]):
        return False
    lead = words[max(0, start - 8) : start - 3]
    lead = lead[max((i for i, w in enumerate(lead) if w in {".", ",", "?", "!", "and"}), default=-1) + 1 :]
    subject = lead[-1:] == ["one"] or any(c.end == start - 3 for c in find_components(narration))
    return bool(lead) and (subject or lead[-1] in word_list("not_values_new_things"))


def _another_time(narration: Narration, number: Number) -> bool:
    """Tell whether a time of day was said shortly before: "at 9 10 in the morning ..., at 9 50 still 250"."""
    tokens = narration.tokens
    words = [t.lower for t in tokens[max(0, number.start - 14) : number.start]]
    text = " ".join(words)
    return any(
        w in text
        for w in ("in the morning", "in the afternoon", "this morning", "o'clock", " am ", " pm ", "at noon")
    )


def _time_pair(narration: Narration, number: Number) -> bool:
    """Tell whether the number is half of "started 13 20" as a recogniser writes it."""
    tokens = narration.tokens
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    for first in (number, ends.get(number.start)):
        if first is None:
            continue
        second = starts.get(first.end)
        hours = first.written and first.value.is_integer() and 0 <= first.value <= 23
        if second is None or not hours or number not in (first, second):
            continue
        minutes = second.written and len(tokens[second.start].lower) == 2 and 0 <= second.value <= 59
        before = [t.lower for t in tokens[max(0, first.start - 3) : first.start]]
        if minutes and set(before) & (excluding("clock") | {"until", "to", "from"}):
            return True
        if minutes and before[-1:] == ["at"] and (first.start - 1) in ends:
            return True  # "box 39 at 10 05"
    return False


def _time_range(narration: Narration, number: Number) -> bool:
    """Tell whether the number is an end of "nine fifteen to ten forty", alone in its clause."""
    tokens = narration.tokens
    starts, ends = numbers_by_start(narration), numbers_by_end(narration)
    for first, second in ((number, starts.get(number.end + 1)), (ends.get(number.start - 1), number)):
        if first is None or second is None:
            continue
        between = [t.lower for t in tokens[first.end : second.start]]
        if between not in (["to"], ["till"], ["until"], ["-"]):
            continue
        shapes = [n.form == "clock" or clock_like(n) for n in (first, second)]
        if not all(shapes):
            continue
        before = tokens[first.start - 1].lower if first.start else "."
        after = tokens[second.end].lower if second.end < len(tokens) else "."
        one_clock = first.form == "clock" or second.form == "clock"
        long = first.value >= 100 or second.value >= 100 or one_clock
        lead = tokens[first.start - 2].lower if before == "from" and first.start > 1 else before
        alone = (
            (before != "from" or lead in {".", ",", "!", "?"})
            and before in {".", "from", ",", "!", "?"}
            and after in {".", ",", "!", "?", "and", "with"}
        )
        whole = alone and lead in {".", "!", "?"} and max(first.value, second.value) <= 12
        if alone and (long or whole):
            return True
    return False


def until_a_time(narration: Narration, number: Number) -> bool:
    """Tell whether "39 by 3:30" says until when."""
    other = numbers_by_start(narration).get(number.end + 1)
    if other is None or narration.lowers[number.end] != "by":
        return False
    hour = other.value.is_integer() and 1 <= other.value <= 12 and other.end not in unit_phrases(narration)
    if hour and number.value >= 60:
        return True  # "down to four hundred by three"
    return other.form == "clock" or is_clock(narration, other) or (clock_like(other) and number.value >= 60)
