"""Every number of a narration that cannot be a bare value, with a plain reason each."""

from __future__ import annotations

from dictate.mentions.labels import labels_by_end
from dictate.mentions.narration import Narration
from dictate.mentions.not_values.around import denies_a_value, excluding, label_before
from dictate.mentions.not_values.called_by_number import called_by_number
from dictate.mentions.not_values.counts import (
    counted_by_place,
    counts_noun,
    measured_after_all,
    not_at_zero,
    size_of_several,
    small_word,
)
from dictate.mentions.not_values.day_times import is_clock, until_a_time
from dictate.mentions.not_values.false_starts import is_false_start
from dictate.mentions.not_values.gauge_runs import gauge_runs
from dictate.mentions.not_values.identities import identity_spans
from dictate.mentions.not_values.log_times import log_times
from dictate.mentions.not_values.meter_scales import is_scale
from dictate.mentions.not_values.named_things import (
    is_price,
    is_to_come,
    numbers_a_room,
    numbers_a_thing,
    too_big_for_a_name,
)
from dictate.mentions.not_values.scale_runs import numbers_of_scales
from dictate.mentions.not_values.sure_times import dotted_time, minutes_behind_hours, surely_time
from dictate.mentions.not_values.told_apart import which_of_them
from dictate.mentions.spoken_numbers import Number, find_numbers, numbers_by_end
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.weighings import weighed_numbers
from dictate.mentions.word_lists import word_list

_MONTHS = word_list("not_values_months")
_DAYS = word_list("not_values_days")
_SMALL_NAMES = word_list("not_values_small_names")


def kept_out(narration: Narration) -> dict[int, str]:
    """Return token index -> reason, for the first token of each number that cannot be a bare value."""
    done: dict[int, str] | None = narration.found.get("kept_out")
    if done is not None:
        return done
    tokens = narration.tokens
    named = {t for s, e in identity_spans(narration) for t in range(s, e)}
    units = unit_phrases(narration)
    called = called_by_number(narration)
    logged = log_times(narration)
    weights = weighed_numbers(narration) | numbers_of_scales(narration)
    gauges = gauge_runs(narration).readings
    out: dict[int, str] = {}
    for number in find_numbers(narration):
        start, end = number.start, number.end
        before = tokens[start - 1].lower if start else ""
        second = tokens[start - 2].lower if start > 1 else ""
        after = tokens[end].lower if end < len(tokens) else ""
        if start in gauges or (before == "another" and _so_long_again(narration, number)):
            continue
        if not named.isdisjoint(range(start, end)) or start in called:
            out[start] = "name"
        elif start in weights and end not in units:
            out[start] = "weight"  # of a cylinder, or what it gained or lost
        elif is_scale(narration, start, end):
            out[start] = "scale"
        elif number.value == 0 and tokens[start].lower == "zero" and after in {"the", "my", "your"}:
            out[start] = "count"  # "didn't zero the leads"
        elif number.value == 0 and before in {"past", "through"}:
            out[start] = "count"  # "the needle's past zero, ten inches"
        elif number.value == 0 and (not_at_zero(tokens, start) or _nil_of_nothing(narration, number)):
            out[start] = "count"
        elif is_false_start(narration, number):
            out[start] = "begun"
        elif number.form in {"ordinal", "clock", "counted"}:
            out[start] = "clock" if number.form == "clock" else "ordinal"
        elif number.pronoun and before != "between":
            out[start] = "pronoun"
        elif (
            start in logged
            or dotted_time(narration, number)
            or surely_time(narration, number)
            or minutes_behind_hours(narration, number)
        ):
            out[start] = "time"
        elif end not in units and (is_price(narration, number) or is_to_come(narration, number)):
            out[start] = "price"
        elif which_of_them(narration, number) or (end not in units and numbers_a_thing(narration, number)):
            out[start] = "name"
        elif is_clock(narration, number):
            out[start] = "clock"
        elif (
            before in _MONTHS
            or after in _MONTHS
            or before in _DAYS
            or (
                1950 <= number.value <= 2050
                and (
                    number.value != 2000 or before in {"since", "year"}
                )  # "from two thousand to nine hundred"
                and before in {"in", "since", "from", "of", "year"}
                and number.form in {"pair", "plain", "digits"}
            )
        ):
            out[start] = "date"
        elif (
            before in excluding("before")
            and not (before == "no" and denies_a_value(narration, start))
            and not (before in _SMALL_NAMES and too_big_for_a_name(number))
            and not (number.value == 0 and before in word_list("values_dead_at"))
            and not label_before(narration, start)
        ):
            out[start] = "name"
        elif (
            (before in {"a", "per", "each", "times"} and second in {"times", "cubes", "slices"})
            or (
                after in excluding("after") and end not in units and not measured_after_all(narration, number)
            )
            or small_word(narration, number)
            or counted_by_place(narration, number)
        ):
            out[start] = "count"
        elif (
            after == "/"
            and end + 1 < len(tokens)
            and tokens[end + 1].lower[0].isdigit()
            and not number.places
        ):
            out[start] = "size"
        elif (
            after == "day"
            or (
                after == "a"
                and end + 1 < len(tokens)
                and tokens[end + 1].lower in {"day", "week", "month", "year"}
            )
            or counts_noun(narration, number)
            or numbers_a_room(narration, number)
        ):
            out[start] = "count"
        elif (
            before == "by"
            and (first := numbers_by_end(narration).get(start - 1)) is not None
            and (until_a_time(narration, first))
        ):
            out[start] = "time"
        elif after in {"by", "x", "×"} or before in {"by", "x", "×"}:
            neighbour = size_of_several(narration, number)
            if neighbour and not until_a_time(narration, number):
                out[start] = "size"
    narration.found["kept_out"] = out
    return out


def _nil_of_nothing(narration: Narration, number: Number) -> bool:
    """Tell whether "nil" stands behind no quantity: "subcooling nil" is a value, "leaks nil" is none.

    Nor is the nought that says it again: "subcooling nil, zero". What a meter shows is told in meter words.
    """
    words = narration.lowers
    if words[number.start] != "nil":
        return words[max(0, number.start - 2) : number.start] == ["nil", ","]
    if number.end in unit_phrases(narration):
        return False
    at = number.start
    while at > 0 and narration.lowers[at - 1] in _LEADS:
        at -= 1
    led = labels_by_end(narration).get(at)
    return led is None or led.label.weak or led.label.quantity not in _NIL_OF


_NIL_OF = frozenset(("superheat", "subcooling", "pressure", "temperature_difference"))
_LEADS = frozenset((":", ",", "is", "was", "'s", "at"))


def _so_long_again(narration: Narration, number: Number) -> bool:
    """Tell whether "another three" goes on with minutes: "22 minutes and the fans waited another 3"."""
    behind = narration.lowers[number.end : number.end + 1]
    if behind and behind[0] not in {".", ",", ";", "and", "then", "before", "so"}:
        return False
    near = narration.lowers[max(0, number.start - 14) : number.start]
    return not {"minutes", "minute", "seconds"}.isdisjoint(near) and "." not in near
