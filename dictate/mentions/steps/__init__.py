"""The steps of the work that were said, with what became of each: `find_steps(narration) -> list[Step]`.

Words come from steps.toml and parts.toml, tense and negation from mentions/tense. A step is listed once for
each actual doing: said again in other words it is the same step, and its first place counts; a plan that was
then carried out, or a "before brazing" beside "brazed", adds nothing.

    "Killed the breaker and checked it dead. Didn't braze anything."
        power_isolated done, absence_of_voltage_verified done, brazed not_done

    phrases        steps told by the phrases of steps.toml; around_phrase: what bears one out or against
    from_parts     parts replaced, cleaned, adjusted (mentions/handled)
    by_gesture     what a word or two tell behind an isolation ("Probes. Zero. Zero.")
    by_name        who will be told, by a name alone
    nitrogen_flow  nitrogen told beside brazed joints
    second_opinion trained weights over all the words: a step that no phrase told, or one that they doubt
    from_values    what only an amount or a reading tells of (asked after the others)
    vacuum_stood   vacuums shut off from the pump and looked at again
    both_later     work that was denied and put off together
    each_once      what is said again, taken back or planned before adds none
    to_record      the record's step
"""

from __future__ import annotations

from functools import lru_cache

from dictate.mentions.equipment.namings import find_namings
from dictate.mentions.equipment.roll import find_roll
from dictate.mentions.equipment.roll_call import roll_call
from dictate.mentions.equipment.unknown_kinds import GENERAL
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.steps.both_later import both_later
from dictate.mentions.steps.by_gesture import by_gesture
from dictate.mentions.steps.by_name import rule_out_helpers, told_by_name
from dictate.mentions.steps.contradicted import contradicted
from dictate.mentions.steps.each_once import each_once, not_taken_back, only_runs
from dictate.mentions.steps.from_parts import from_handled_parts, rule_out_vain
from dictate.mentions.steps.nitrogen_flow import nitrogen_that_flowed, swept_while_brazing, without_test_gas
from dictate.mentions.steps.phrases import from_phrases
from dictate.mentions.steps.second_opinion import with_second_opinion
from dictate.mentions.steps.to_record import step_of
from dictate.mentions.steps.vacuum_stood import stood_before_charge, vacuums_that_stood
from dictate.mentions.tense import scopes_of
from dictate.record.visit import Step

APART = 25
"""Words between two tellings of one step that may be of two machines."""

__all__ = ["find_steps"]


def find_steps(narration: Narration) -> list[Step]:
    """Return the steps of a narration in the order in which they were said."""
    words = words_of(narration)
    scopes = scopes_of(words)
    found = from_phrases(words, scopes) + from_handled_parts(narration)
    found += vacuums_that_stood(words, scopes, found)
    found += nitrogen_that_flowed(words, scopes, found)
    rule_out_helpers(words)
    rule_out_vain(narration)
    found = stood_before_charge(words, with_second_opinion(words, scopes, found))
    found = without_test_gas(words, swept_while_brazing(words, found))
    found += by_gesture(words, scopes, found)
    found = contradicted(words, found + told_by_name(words, found))
    found += both_later(words, scopes, found)
    found.sort(key=lambda f: (f.start, f.end))
    found = [f for f in found if not only_runs(words, f, found)]
    said = each_once(not_taken_back(found, words), lambda a, b: other_machine(words, a, b))
    return [step_of(narration, words, f, scopes) for f in said]


@lru_cache(maxsize=4)
def namings_of(words: Words) -> tuple[tuple[int, str], ...]:
    """Return where machines are named, and of which kind; asked only where a step is told twice.

    Those of a row that is told off one by one are told apart by their names.
    """
    found = find_namings(words)
    roll = find_roll(found, words)
    kinds = [
        (n.start, n.kind.type)
        for n in found
        if not n.kind.room and n.kind.type not in GENERAL and (roll is None or n.kind != roll.kind)
    ]
    turns = roll_call(roll, words)[0] if roll is not None else []
    return tuple(sorted([*kinds, *((n.start, n.name) for n in turns)]))


def other_machine(words: Words, start: int, end: int) -> bool:
    """Tell whether another kind of machine is named between two words than the last one named before them."""
    if end - start < APART:
        return False
    before = after = None
    for at, kind in namings_of(words):
        if at < start:
            before = kind
        elif at < end:
            after = kind
    return before is not None and after is not None and before != after
