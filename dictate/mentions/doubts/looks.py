"""All the looks at a reading, in the order in which they are asked."""

from __future__ import annotations

from collections.abc import Callable

from dictate.mentions.doubts.belongs import (
    below_where,
    of_a_capacitor,
    of_the_old_one,
    on_a_pipe,
    one_put_right,
    unlike_pair,
)
from dictate.mentions.doubts.broken_numbers import broken_number
from dictate.mentions.doubts.corrections import uncorrected
from dictate.mentions.doubts.fit import (
    celsius,
    of_a_burner,
    pressure_order,
    saturated,
    small_pressure,
    unusual,
)
from dictate.mentions.doubts.forms import (
    numbered_row,
    open_or_nothing,
    other_form,
    restarted,
    split_digits,
    split_ounces,
    stop_behind,
    tenths_behind,
)
from dictate.mentions.doubts.markings import (
    control_setting,
    describes,
    nominal_voltage,
    plate_like,
    schedule,
    size_marking,
    wanted,
)
from dictate.mentions.doubts.names import name_or_count
from dictate.mentions.doubts.neighbours import (
    difference,
    drawn_with_it,
    far_off,
    follows_doubt,
    neighbours_unit,
    other_end,
    parallel,
    row_with_an_open,
    same_number,
    shared_unit,
    side_told_warm,
    unlike_itself,
)
from dictate.mentions.doubts.other_times import asked, hearsay, may_be_of_what_follows, other_time
from dictate.mentions.doubts.other_words import (
    ambiguous_words,
    asked_by_verb,
    bare_zero,
    difference_behind,
    idle_time,
    left_label,
    other_use,
    other_words,
    respectively,
    supply_of_what,
)
from dictate.mentions.doubts.said_anew import said_anew_beside
from dictate.mentions.doubts.second_look import unlike
from dictate.mentions.doubts.spoken_against import spoken_against
from dictate.mentions.doubts.talk import Case

LOOKS: tuple[Callable[[Case], str | None], ...] = (
    broken_number, numbered_row, unusual, saturated, pressure_order, celsius, small_pressure, of_a_burner,
    nominal_voltage, split_ounces, split_digits, stop_behind, tenths_behind, size_marking, name_or_count,
    bare_zero, difference_behind, supply_of_what,
    other_words, ambiguous_words, side_told_warm, unlike_itself, drawn_with_it, row_with_an_open,
    shared_unit, asked_by_verb, same_number, far_off, parallel,
    other_end, left_label, difference, wanted,
    asked, describes, control_setting, plate_like, respectively, other_time, hearsay, uncorrected,
    spoken_against,
    other_form,
    below_where, on_a_pipe, of_the_old_one, of_a_capacitor, one_put_right, unlike_pair,
    open_or_nothing,
    neighbours_unit, idle_time, other_use, schedule, restarted, said_anew_beside, follows_doubt,
)  # fmt: skip
"""One look after the other; the first reason found is the one that is given."""

OF_OTHER_ROLES: tuple[Callable[[Case], str | None], ...] = (
    split_ounces,
    split_digits,
    broken_number,
    other_form,
    unusual,
    may_be_of_what_follows,
    unlike,
)
"""The looks at what is a target, a plate's or an earlier value: is it damaged, is it of that kind."""

CARRIED = frozenset({unusual, other_words, ambiguous_words, asked_by_verb, wanted, parallel, follows_doubt})
"""The looks whose doubt also holds for a value that was carried on from the doubted one."""

CERTAIN = frozenset(
    {
        split_ounces,
        split_digits,
        stop_behind,
        numbered_row,
        broken_number,
        tenths_behind,
        other_form,
        restarted,
        said_anew_beside,
        shared_unit,
        one_put_right,
        uncorrected,
        unlike_itself,
        drawn_with_it,
        of_a_burner,
        row_with_an_open,
        unusual,
    }
)
"""The looks whose doubt is a reason by itself.

Words that are another number as well, two values of one thing that clash, the speaker's own doubt, and what
is physically out of the usual.

What the others find is evidence, weighed with all the rest (`trust.py`).
"""

CERTAIN_OF_FEW_WORDS = frozenset(
    {saturated, pressure_order, celsius, small_pressure, nominal_voltage, size_marking, supply_of_what,
     spoken_against, hearsay, other_end, side_told_warm, name_or_count, below_where, on_a_pipe,
     of_the_old_one, of_a_capacitor, unlike_pair, other_time, plate_like, asked_by_verb}
)  # fmt: skip
"""Those whose doubt is a reason by itself where there are too few words to weigh it with anything."""
