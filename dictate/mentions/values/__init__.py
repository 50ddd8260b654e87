"""Candidate values of a narration, before anyone knows what they are values of.

A candidate is a quantity with its unit said, a bare number, or a word that stands for a value on a meter
("OL", "nothing", "dead"). `find_values(narration)` returns them in order, sizes, prices, dates and names
left out.

    value            the candidate itself
    no_values        bare numbers that are part of a name, a tolerance or a tester's volts
    two_in_one       one number as heard that is two: a time behind a value, a dual capacitor's markings
    bare_ranges      what stands around bare numbers: a range of two, "below" and "above" zero
    meter_words      words that stand for a value on a meter: asks the three below which of them do
    open_circuits    is "open" what a meter said, or how a door or a valve stands?
    zeros            is "nothing" or "dead" what a meter said on a live test?
    dead_legs        a test for dead that goes over the legs clause by clause
    control_chains   which numbers and noughts are volts of a control circuit that is walked along?
    rows             are the values of several things being read off, one after the other?
"""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.not_values import identity_spans, kept_out
from dictate.mentions.not_values.called_by_number import called_by_number
from dictate.mentions.not_values.fuse_sizes import is_fuse_size, is_pump_size
from dictate.mentions.not_values.meter_scales import is_scale
from dictate.mentions.quantities import (
    find_quantities,
    half_written,
    half_written_why,
    lost_hundred,
)
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.values.bare_ranges import mark_bare_ranges, mark_side_of_zero
from dictate.mentions.values.meter_words import meter_words
from dictate.mentions.values.no_values import (
    designators,
    is_measured_part,
    is_of_a_row,
    is_test_volts,
    is_testers_volts,
    is_tolerance,
)
from dictate.mentions.values.two_in_one import dual_capacitor, dual_markings, time_behind
from dictate.mentions.values.value import Value
from dictate.record.visit import Candidate

__all__ = ["Value", "find_values"]


def find_values(narration: Narration) -> list[Value]:
    """Return the candidate values in order, without overlaps; computed once per narration."""
    done: list[Value] | None = narration.found.get("values")
    if done is not None:
        return done
    used_names = designators(narration)
    names = {t for r in find_refrigerants(narration) for t in range(r.start, r.end)}
    named = {t for s, e in identity_spans(narration) for t in range(s, e)}
    out: list[Value] = []
    taken: set[int] = set()
    skip: set[int] = set()
    called = called_by_number(narration)
    for q in find_quantities(narration):
        span = range(q.start, q.end)
        if q.numbers and q.numbers[0].start in called and q.numbers[0].end == q.end - 1:
            continue  # "pump 3 amps 6.2"
        if q.kind != "reading":
            skip.update(span)
            continue
        name = range(q.numbers[0].start, q.numbers[0].end)
        if not named.isdisjoint(name) or is_scale(narration, q.start, q.end, q.word):
            skip.update(span)
            continue
        if q.unit == "A" and is_fuse_size(narration, q.start, q.end):
            skip.update(span)
            continue
        if narration.lowers[q.start - 1 : q.start] == ["within"] and not q.can_be("min"):
            skip.update(span)
            continue  # "the two legs are within half an amp": how far apart they are
        if q.word == "cfm" and is_pump_size(narration, q.end):
            skip.update(span)
            continue
        if q.unit in {"V", "kV"} and is_testers_volts(narration, q.end):
            skip.update(span)
            continue
        apart = time_behind(narration, q)
        if apart is not None:
            out.append(Value(apart.start, apart.end, apart.value, (apart,)))
        out.append(
            Value(
                q.start, q.end, q.value, q.numbers, q, range=q.range, change=q.change,
                reasons=list(q.reasons), candidates=list(q.candidates),
            )
        )  # fmt: skip
        taken.update(span)
    outside = kept_out(narration)
    states = meter_words(narration)
    for state in states:
        if narration.tokens[state.start].lower in {"0", "oh", "zero", "all"}:
            skip.update(range(state.start, state.end))  # "0 L" is what a meter shows over range, no number
    for number in find_numbers(narration):
        span = range(number.start, number.end)
        if not taken.isdisjoint(span) or not names.isdisjoint(span) or not skip.isdisjoint(span):
            continue
        if not used_names.isdisjoint(span):
            continue
        why = outside.get(number.start)
        if why is not None and why != "clock":
            continue
        if number.form == "clock" and not _MACHINE_TIMES & {
            t.lower for t in narration.tokens[max(0, number.start - 6) : number.start]
        }:
            continue  # "at 12:50 cabinet minus 58"
        part = narration.tokens[number.end].lower if number.end < len(narration.tokens) else ""
        if part == "ways" and number.value in (2, 3, 4):
            continue  # "0 volts 3 ways": how many pairs
        if (
            number.form == "fraction"
            and abs(number.value) < 1
            and part != "across"
            and not is_measured_part(narration, number, out)
        ):
            continue  # "quarter to four", "half of them": a share of something needs its unit
        if is_test_volts(narration, number) or is_of_a_row(narration, number):
            continue
        dual = dual_capacitor(narration, number)
        if dual is not None:
            out += [Value(n.start, n.end, n.value, (n,), marking=True) for n in dual]
            taken.update(span)
            continue
        value = Value(number.start, number.end, number.value, (number,), clock=why == "clock")
        value.aside = is_tolerance(narration, number)
        lead = lost_hundred(narration, number)
        if lead is not None:
            text = f'"to" before {number.value:g} may be the digit two, then it is {lead:g}'
            value.reasons.append(text)
            value.candidates.append(
                Candidate(value=lead, heard=narration.heard(number.start - 1, number.end), why=text)
            )
        whole = half_written(narration, number)
        if whole is not None:
            why_whole = half_written_why(whole)
            value.reasons.append(why_whole)
            heard = narration.heard(number.start, number.end)
            value.candidates.append(Candidate(value=whole, heard=heard, why=why_whole))
        mark_side_of_zero(narration, value)
        out.append(value)
        taken.update(range(value.start, value.end))
    for first, second in dual_markings(narration):
        if first.start not in taken and first.start not in named:
            out += [Value(n.start, n.end, n.value, (n,)) for n in (first, second)]
            taken.add(first.start)
    for state in states:
        if taken.isdisjoint(range(state.start, state.end)):
            out.append(state)
            taken.update(range(state.start, state.end))
    out.sort(key=lambda v: v.start)
    mark_bare_ranges(narration, out)
    narration.found["values"] = out
    return out


_MACHINE_TIMES = frozenset({"freeze", "harvest", "cycle", "defrost", "froze", "cycles", "pulldown", "drip"})
